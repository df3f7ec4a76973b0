# Second opinions on agreement and on the corrected rate, from R and Debian 12's epiR.
# Regenerate:
#   apt-get install r-base-core r-cran-epir r-cran-jsonlite
#   Rscript scripts/reference/agreement.R > tests/reference/data/agreement-r.json
#
# What comes from where:
#   fisher      fisher.test(alternative = "greater")
#   lean        binom.test(alternative = "greater")
#   hidden      prop.test(correct = FALSE): Wilson's interval
#   corrected   epiR::epi.prev's Rogan-Gladen estimate at the sensitivity and specificity of the checks, and
#               Lang and Reiczigel's limits written out here from their paper's formulas
#   documented  the brucellosis example of epiR::epi.prev's own help page
suppressPackageStartupMessages({
  library(epiR)
  library(jsonlite)
})

tables <- list(
  c(18, 2, 0, 0), c(8, 0, 0, 2), c(24, 1, 1, 14), c(64, 6, 0, 5), c(30, 5, 0, 25), c(17, 1, 1, 1),
  c(50, 8, 2, 20), c(10, 8, 0, 6), c(6, 2, 1, 6), c(150, 20, 3, 100)
)
records <- list(c(420, 80), c(90, 30), c(60, 45))

lang.reiczigel <- function(positive, n, tp, n.se, tn, n.sp) {
  z <- qnorm(0.975)
  se <- (tp + 1) / (n.se + 2)
  sp <- (tn + 1) / (n.sp + 2)
  ap <- (positive + z^2 / 2) / (n + z^2)
  p <- (ap + sp - 1) / (se + sp - 1)
  dp <- 2 * z^2 * (p * se * (1 - se) / (n.se + 2) - (1 - p) * sp * (1 - sp) / (n.sp + 2))
  s <- sqrt(ap * (1 - ap) / (n + z^2) + p^2 * se * (1 - se) / (n.se + 2) +
    (1 - p)^2 * sp * (1 - sp) / (n.sp + 2)) / (se + sp - 1)
  pmin(1, pmax(0, c(p + dp - z * s, p + dp + z * s)))
}

rows <- lapply(tables, function(cells) {
  both.on <- cells[1]; first.only <- cells[2]; second.only <- cells[3]; both.off <- cells[4]
  seen.off <- first.only + both.off
  differ <- first.only + second.only
  out <- list(cells = cells)
  out$fisher <- fisher.test(matrix(cells, nrow = 2), alternative = "greater")$p.value
  if (differ > 0) out$lean <- binom.test(first.only, differ, alternative = "greater")$p.value
  if (seen.off > 0) {
    out$hidden <- as.numeric(suppressWarnings(prop.test(first.only, seen.off, correct = FALSE))$conf.int)
  }
  seen.on <- both.on + second.only
  if (min(seen.on, seen.off) >= 5 && out$fisher <= 0.05) {
    out$corrected <- lapply(records, function(record) {
      n <- sum(record)
      found <- epi.prev(pos = record[1], tested = n, se = both.on / seen.on, sp = both.off / seen.off,
        method = "wilson", units = 1)
      list(
        on = record[1], off = record[2], estimate = found$tp$est,
        interval = lang.reiczigel(record[1], n, both.on, seen.on, both.off, seen.off)
      )
    })
  }
  out
})

documented <- epi.prev(pos = 23, tested = 150, se = 0.96, sp = 0.89, method = "wilson", units = 1)
cat(toJSON(list(
  version = R.version.string,
  epiR = as.character(packageVersion("epiR")),
  documented = documented$tp$est,
  tables = rows
), digits = NA, auto_unbox = TRUE, pretty = TRUE), "\n")
