# Reference values for the trend statistics, from base R and MASS on stored random inputs.
# Regenerate: Rscript scripts/reference/trend.R > tests/reference/data/trend-r.json
# Debian: apt-get install r-base-core r-recommended

seed <- 20240917
set.seed(seed)
suppressMessages(library(MASS))

# A small JSON writer: numbers with 17 digits, lists by name, vectors as arrays.
json <- function(v) {
  if (is.null(v)) return("null")
  if (is.list(v)) {
    parts <- vapply(v, json, "")
    if (is.null(names(v))) return(paste0("[", paste(parts, collapse = ","), "]"))
    return(paste0("{", paste0("\"", names(v), "\":", parts, collapse = ","), "}"))
  }
  if (is.character(v)) v <- paste0("\"", v, "\"")
  else if (is.logical(v)) v <- tolower(as.character(v))
  else v <- formatC(v, digits = 17, width = 1, format = "g")
  if (length(v) == 1) v else paste0("[", paste(v, collapse = ","), "]")
}

z <- c(-37, -20, -8, -5.7, -5.6, -3, -1.96, -0.6745, -0.6744, -0.1, 0.1, 0.7, 1.5, 4, 5.66, 8)
p <- c(1e-300, 1e-50, 1e-12, 1e-5, 0.01, 0.074, 0.076, 0.2, 0.4999, 0.6, 0.924, 0.926, 0.975, 0.9999)
normal <- list(z = z, cdf = pnorm(z), p = p, quantile = qnorm(p))
student <- list(
  degrees = c(1, 2, 3, 5, 8, 30, 101, 1000),
  t95 = qt(0.975, c(1, 2, 3, 5, 8, 30, 101, 1000)),
  t80 = qt(0.9, c(1, 2, 3, 5, 8, 30, 101, 1000))
)

wilson <- lapply(1:40, function(i) {
  n <- sample(1:60, 1); x <- sample(0:n, 1); level <- sample(c(0.8, 0.9, 0.95, 0.99), 1)
  ends <- suppressWarnings(prop.test(x, n, correct = FALSE, conf.level = level)$conf.int)
  list(on = x, total = n, confidence = level, lower = ends[1], upper = ends[2])
})

# cor.test: exact p without ties; with ties the normal one with continuity correction, whose
# statistic carries the variance of S for ties in both rankings.
kendall <- lapply(1:40, function(i) {
  n <- sample(5:45, 1)
  ties <- i %% 2 == 0
  x <- if (ties) sort(c(1, 2, sample(1:(n %/% 2), n - 2, TRUE))) else 1:n
  y <- if (ties) sample(0:8, n, TRUE) / 8 else round(rnorm(n) + (1:n) / n, 6)
  test <- suppressWarnings(cor.test(x, y, method = "kendall", exact = !ties, continuity = TRUE))
  list(x = x, y = y, ties = ties, tau = unname(test$estimate), p = test$p.value)
})

quasi <- lapply(1:20, function(i) {
  n <- sample(5:40, 1); time <- sort(round(runif(n, 0, 12), 3))
  total <- sample(3:15, n, TRUE)
  chance <- plogis(rnorm(1) + 0.15 * time + rnorm(n, sd = 0.6))
  on <- rbinom(n, total, chance)
  fit <- glm(cbind(on, total - on) ~ time, family = quasibinomial,
             control = glm.control(epsilon = 1e-14, maxit = 100))
  s <- summary(fit)
  list(time = time, on = on, off = total - on,
       intercept = s$coefficients[1, 1], slope = s$coefficients[2, 1],
       plainInterceptError = sqrt(s$cov.unscaled[1, 1]), plainSlopeError = sqrt(s$cov.unscaled[2, 2]),
       dispersion = s$dispersion, deviance = fit$deviance, nullDeviance = fit$null.deviance)
})

# Firth's estimate and its profile interval by general optimisation of the penalised likelihood, a
# different road to the same numbers (the project climbs the modified score).
penalised <- function(b, time, on, off) {
  eta <- b[1] + b[2] * time; q <- plogis(eta); w <- (on + off) * q * (1 - q)
  x <- cbind(1, time)
  information <- det(t(x) %*% (w * x))
  # Far out the information underflows; any low value keeps the optimisers away.
  if (!(information > 0)) return(-1e10)
  sum(on * plogis(eta, log.p = TRUE) + off * plogis(-eta, log.p = TRUE)) + 0.5 * log(information)
}
firthCases <- list(
  list(time = 0:4, on = c(0, 0, 0, 10, 10), off = c(10, 10, 10, 0, 0)),
  list(time = 0:4, on = rep(10, 5), off = rep(0, 5)),
  list(time = c(0, 1, 1.5, 4, 6, 6.5), on = c(0, 0, 3, 5, 8, 6), off = c(5, 7, 4, 0, 0, 0)),
  list(time = c(0, 2, 3, 7, 9), on = c(0, 0, 0, 0, 0), off = c(4, 9, 6, 3, 8)),
  list(time = c(1, 2, 3, 4, 5, 6), on = c(8, 8, 8, 0, 0, 0), off = c(0, 0, 0, 8, 8, 8))
)
firth <- lapply(firthCases, function(k) {
  f <- function(b) -penalised(b, k$time, k$on, k$off)
  at <- optim(c(0, 0), f, method = "Nelder-Mead", control = list(reltol = 1e-15, maxit = 20000))
  at <- optim(at$par, f, method = "BFGS", control = list(reltol = 1e-15, maxit = 1000))
  floor <- -at$value - qchisq(0.95, 1) / 2
  profile <- function(slope) {
    o <- optimize(function(a) penalised(c(a, slope), k$time, k$on, k$off), c(-150, 150),
                  maximum = TRUE, tol = 1e-12)
    centre <- -slope * mean(k$time)
    o2 <- optimize(function(a) penalised(c(a, slope), k$time, k$on, k$off), centre + c(-15, 15),
                   maximum = TRUE, tol = 1e-12)
    max(o$objective, o2$objective) - floor
  }
  lower <- uniroot(profile, at$par[2] + c(-15, 0), tol = 1e-10)$root
  upper <- uniroot(profile, at$par[2] + c(0, 15), tol = 1e-10)$root
  c(k, list(intercept = at$par[1], slope = at$par[2], lower = lower, upper = upper))
})

# Hamed and Rao's factor on the variance of S, over the first lags, with R's own ranks,
# autocorrelations and median of pairwise slopes.
serial <- lapply(1:24, function(i) {
  n <- sample(12:90, 1); lags <- c(1, 3, 10)[i %% 3 + 1]
  y <- round(as.numeric(arima.sim(list(ar = c(0.001, 0.3, 0.6, 0.8)[i %% 4 + 1]), n)) + 0.02 * (1:n), 6)
  pairs <- combn(n, 2)
  slope <- median((y[pairs[2, ]] - y[pairs[1, ]]) / (pairs[2, ] - pairs[1, ]))
  residuals <- y - slope * (1:n)
  r <- acf(rank(residuals), lag.max = lags, plot = FALSE)$acf[-1]
  k <- seq_len(lags); counts <- abs(r) > qnorm(0.975) / sqrt(n)
  factor <- 1 + 2 / (n * (n - 1) * (n - 2)) * sum(((n - k) * (n - k - 1) * (n - k - 2) * r)[counts])
  list(y = y, lags = lags, slope = slope, factor = factor)
})

ldose <- rep(0:5, 2); dead <- c(1, 4, 9, 13, 18, 20, 0, 2, 6, 10, 12, 16)
budworm <- lapply(list(males = 1:6, females = 7:12), function(rows) {
  fit <- glm(cbind(dead[rows], 20 - dead[rows]) ~ ldose[rows], family = binomial,
             control = glm.control(epsilon = 1e-14))
  doses <- dose.p(fit, p = c(0.25, 0.5, 0.75))
  list(on = dead[rows], intercept = unname(coef(fit)[1]), slope = unname(coef(fit)[2]),
       interceptError = sqrt(vcov(fit)[1, 1]), slopeError = sqrt(vcov(fit)[2, 2]),
       deviance = fit$deviance, doses = as.numeric(doses), doseErrors = as.numeric(attr(doses, "SE")))
})

cat(json(list(
  source = paste(R.version.string, "with MASS", as.character(packageVersion("MASS"))),
  seed = seed, normal = normal, student = student, wilson = wilson, kendall = kendall,
  quasi = quasi, firth = firth, serial = serial, budworm = budworm
)), "\n", sep = "")
