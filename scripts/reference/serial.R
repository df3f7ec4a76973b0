# Reference values for least squares with alike neighbours, from base R and nlme on stored random inputs.
# Regenerate: Rscript scripts/reference/serial.R > tests/reference/data/serial-r.json
# Debian: apt-get install r-base-core r-cran-nlme
#
# The estimates are lm()'s. Their variance is the sandwich with the correlation matrix that nlme's corAR1
# makes, written out in full matrices. gls() with the same fixed r is the efficient estimate: its standard
# error is the least possible, and ours may not lie far above it.

seed <- 20240922
set.seed(seed)
suppressMessages(library(nlme))

json <- function(v) {
  if (is.null(v)) return("null")
  if (is.list(v)) {
    parts <- vapply(v, json, "")
    if (is.null(names(v))) return(paste0("[", paste(parts, collapse = ","), "]"))
    return(paste0("{", paste0("\"", names(v), "\":", parts, collapse = ","), "}"))
  }
  if (is.character(v)) v <- paste0("\"", v, "\"")
  else v <- formatC(v, digits = 17, width = 1, format = "g")
  if (length(v) == 1) v else paste0("[", paste(v, collapse = ","), "]")
}
# An array even of one.
list_of <- function(v) lapply(v, identity)

matrix_of <- function(n, r) corMatrix(Initialize(corAR1(r, form = ~1), data.frame(x = 1:n)))

t_values <- lapply(1:30, function(i) {
  degrees <- round(exp(runif(1, log(1), log(200))), 2)
  level <- sample(c(0.8, 0.9, 0.95), 1)
  t <- round(rexp(1, 0.6), 3)
  list(degrees = degrees, confidence = level, critical = qt((1 + level) / 2, degrees), t = t, p = 2 * pt(-t, degrees))
})

beta <- lapply(1:30, function(i) {
  a <- exp(runif(1, -1, 6)); b <- exp(runif(1, -1, 6)); x <- runif(1)
  list(a = a, b = b, x = x, value = pbeta(x, a, b))
})

# A record: sessions on school days, marks 4 to 20, rates with alike neighbours.
record <- function(n) {
  day <- sort(sample((0:(n - 1)) %/% 5 * 7 + (0:(n - 1)) %% 5, n))
  marks <- sample(4:20, n, replace = TRUE)
  e <- as.numeric(arima.sim(list(ar = runif(1, 0, 0.6)), n))
  on <- qbinom(pnorm(e / sd(e)), marks, runif(1, 0.3, 0.8))
  data.frame(day = day, marks = marks, on = on, rate = on / marks)
}

# The rule for r, written out: lag-one of the weighted residuals, bias off, drawn toward .2.
rule_r <- function(u, k) {
  n <- length(u)
  r1 <- sum(u[-1] * u[-n]) / sum(u^2)
  star <- if (n < 8) r1 + k / n else (n * r1 + k) / (n - 4)
  max(0, (n * min(0.95, max(-1, star)) + 20 * 0.2) / (n + 20))
}

sandwich <- function(X, y, w, contrast) {
  n <- length(y)
  Z <- sqrt(w) * X
  z <- sqrt(w) * as.numeric(y)
  A <- solve(t(Z) %*% Z) %*% t(Z)
  u <- z - Z %*% (A %*% z)
  r <- rule_r(as.numeric(u), ncol(X))
  R <- matrix_of(n, r)
  M <- diag(n) - Z %*% A
  phi <- sum(u^2) / sum(diag(M %*% R))
  form <- function(S) as.numeric(t(contrast) %*% A %*% S %*% t(A) %*% contrast)
  inflation <- max(1, form(R) / form(diag(n)))
  list(estimate = as.numeric(t(contrast) %*% A %*% z), r = r, phi = phi,
       error = sqrt(max(1, phi) * form(R)), degrees = (n - ncol(X)) / inflation, inflation = inflation)
}

mark_variance <- function(on, marks) {
  p <- (sum(on) + 2) / (sum(marks) + 4)
  p * (1 - p)
}

slopes <- lapply(c(5, 6, 8, 10, 12, 15, 20, 20, 30, 40, 60), function(n) {
  d <- record(n)
  w <- d$marks / mark_variance(d$on, d$marks)
  plain <- lm(rate ~ day, d, weights = marks)
  found <- sandwich(cbind(1, d$day), d$rate, w, c(0, 1))
  stopifnot(abs(found$estimate - coef(plain)[2]) < 1e-10)
  efficient <- gls(rate ~ day, d, weights = varFixed(~ I(1 / marks)), correlation = corAR1(found$r, form = ~1, fixed = TRUE))
  # gls measures its own sigma; take it off, and put ours on.
  per_sigma <- sqrt(efficient$varBeta[2, 2]) / efficient$sigma
  list(day = d$day, on = d$on, marks = d$marks, slope = found$estimate, r = found$r, phi = found$phi,
       error = found$error, degrees = found$degrees,
       glsSlope = as.numeric(coef(efficient)[2]),
       glsError = per_sigma * sqrt(max(1, found$phi) * mark_variance(d$on, d$marks)))
})

phases <- lapply(list(c(3, 3), c(5, 7), c(10, 10), c(8, 20), c(20, 20)), function(sizes) {
  d <- record(sum(sizes))
  part <- rep(1:2, sizes)
  v <- tapply(seq_along(part), part, function(i) mark_variance(d$on[i], d$marks[i]))
  w <- as.numeric(d$marks / v[part])
  X <- cbind(part == 1, part == 2) * 1
  of <- lapply(1:2, function(k) sandwich(X, d$rate, w, as.numeric(1:2 == k)))
  list(day = d$day, on = d$on, marks = d$marks, first = sizes[1], r = of[[1]]$r, phi = of[[1]]$phi,
       rates = list_of(c(of[[1]]$estimate, of[[2]]$estimate)),
       inflations = list_of(c(of[[1]]$inflation, of[[2]]$inflation)),
       degrees = list_of(c(of[[1]]$degrees, of[[2]]$degrees)))
})

# Students who are there at different times: the common slope of lm with a level for each, and the
# Mantel-Haenszel risk difference (Greenland and Robins 1985) written out.
classes <- lapply(1:5, function(i) {
  students <- lapply(1:6, function(s) { d <- record(20); d$student <- s; d[sort(sample(20, sample(8:20, 1))), ] })
  d <- do.call(rbind, students)
  slope <- coef(lm(rate ~ factor(student) + day, d, weights = marks))["day"]
  early <- d$day < 14
  sums <- function(keep) vapply(1:6, function(s) c(sum(d$on[keep & d$student == s]), sum(d$marks[keep & d$student == s])), c(0, 0))
  a <- sums(!early); b <- sums(early)
  both <- a[2, ] > 0 & b[2, ] > 0
  weight <- (a[2, ] * b[2, ] / (a[2, ] + b[2, ]))[both]
  difference <- (a[1, ] / a[2, ] - b[1, ] / b[2, ])[both]
  list(student = d$student, day = d$day, on = d$on, marks = d$marks, slope = as.numeric(slope),
       difference = sum(weight * difference) / sum(weight))
})

cat(json(list(
  source = paste("R", paste(R.version$major, R.version$minor, sep = "."), "with nlme", as.character(packageVersion("nlme"))),
  seed = seed, t = t_values, beta = beta, slopes = slopes, phases = phases, classes = classes
)), "\n")
