# Reference values for the Mantel-Haenszel difference of a class, from R's own mantelhaen.test and from
# metafor's rma.mh, on a documented example of R and on stored random tables.
# Regenerate: Rscript scripts/reference/mantel-haenszel.R > tests/reference/data/mantel-haenszel-r.json
# Debian: apt-get install r-base-core r-cran-metafor
#
# mantelhaen.test gives the test and the common odds ratio, not the risk difference. Its statistic is the
# square of the sum of the weighted differences over the variance of that sum, so the difference is held by
# it. rma.mh gives the risk difference itself, with the interval of independent marks.

seed <- 20261129
set.seed(seed)
suppressMessages(library(metafor))

json <- function(v) {
  if (is.list(v)) {
    parts <- vapply(v, json, "")
    if (is.null(names(v))) return(paste0("[", paste(parts, collapse = ","), "]"))
    return(paste0("{", paste0("\"", names(v), "\":", parts, collapse = ","), "}"))
  }
  if (is.character(v)) v <- paste0("\"", v, "\"")
  else v <- formatC(v, digits = 17, width = 1, format = "g")
  if (length(v) == 1) v else paste0("[", paste(v, collapse = ","), "]")
}

# Rows of marks: on and off later, on and off earlier, of each student (stratum).
held <- function(name, lateOn, lateOff, earlyOn, earlyOff) {
  k <- length(lateOn)
  tables <- array(rbind(lateOn, earlyOn, lateOff, earlyOff), c(2, 2, k))
  test <- mantelhaen.test(tables, correct = FALSE)
  difference <- rma.mh(measure = "RD", ai = lateOn, bi = lateOff, ci = earlyOn, di = earlyOff, digits = 15)
  list(name = name, lateOn = lateOn, lateOff = lateOff, earlyOn = earlyOn, earlyOff = earlyOff,
       statistic = as.numeric(test$statistic), p = test$p.value, oddsRatio = as.numeric(test$estimate),
       difference = as.numeric(difference$beta), error = difference$se,
       lower = difference$ci.lb, upper = difference$ci.ub)
}

# The documented example of ?mantelhaen.test: admission by sex in six departments at Berkeley.
admitted <- held("UCBAdmissions", UCBAdmissions[1, 1, ], UCBAdmissions[2, 1, ],
                 UCBAdmissions[1, 2, ], UCBAdmissions[2, 2, ])
drawn <- lapply(1:12, function(i) {
  k <- sample(3:12, 1)
  marks <- matrix(sample(4:60, 2 * k, replace = TRUE), 2)
  rate <- runif(k, 0.2, 0.9)
  late <- rbinom(k, marks[1, ], pmin(0.98, rate + runif(1, -0.15, 0.15)))
  early <- rbinom(k, marks[2, ], rate)
  held(paste("drawn", i), late, marks[1, ] - late, early, marks[2, ] - early)
})

cat(json(list(
  source = paste("R", paste(R.version$major, R.version$minor, sep = "."), "with metafor", as.character(packageVersion("metafor"))),
  seed = seed, classes = c(list(admitted), drawn)
)), "\n")
