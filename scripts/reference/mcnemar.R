# The McNemar figures beside tests/reference/agreement/mcnemar.test.ts, from R's own functions:
#   Rscript scripts/reference/mcnemar.R
# The first table is the documented example of ?mcnemar.test; run it with example(mcnemar.test).

cat(R.version.string, "\n")
discordant <- list(approval = c(150, 86), consolidation = c(6, 16), airways = c(1, 7))
for (name in names(discordant)) {
  pair <- discordant[[name]]
  table <- matrix(c(0, pair[2], pair[1], 0), nrow = 2)
  plain <- mcnemar.test(table, correct = FALSE)
  corrected <- mcnemar.test(table)
  exact <- binom.test(pair[1], sum(pair))
  cat(sprintf(
    "%s %d/%d: chi-squared %.4f p %.4g; corrected %.4f p %.4g; exact p %.15g\n",
    name, pair[1], pair[2],
    plain$statistic, plain$p.value, corrected$statistic, corrected$p.value, exact$p.value
  ))
}
