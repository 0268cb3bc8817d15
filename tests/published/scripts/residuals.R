# Distribution functions between which a randomised quantile residual is drawn (Dunn & Smyth 1996), for
# tests/models/diagnose/residuals: count, mean, F(n-1), F(n), and the residual at 0.3 of the way between them.
# Writes ../data/quantile_residuals.json. Run: Rscript residuals.R
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE))), "write.R"))
rows <- list(c(0, 0.5), c(1, 2), c(3, 2), c(7, 5), c(15, 10))
table <- function(F) lapply(rows, function(r) {
  below <- F(r[1] - 1, r[2]); at <- F(r[1], r[2])
  c(r, below, at, qnorm(below + 0.3 * (at - below)))
})
write_figures("quantile_residuals", list(
  size = 1.4,
  negative_binomial = table(function(n, m) pnbinom(n, size = 1.4, mu = m)),
  poisson = table(ppois)
))
