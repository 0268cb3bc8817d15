# Nodes and weights of Gauss-Hermite rules for the weight exp(-x^2) by statmod, for tests/models/special: nodes from 0 up.
# Writes ../data/gauss_hermite.json. Run: Rscript gauss_hermite.R
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE))), "write.R"))
rule <- function(n) {
  r <- statmod::gauss.quad(n, "hermite")
  half <- r$nodes > -1e-9
  Map(function(x, w) c(x, w), r$nodes[half], r$weights[half])
}
write_figures("gauss_hermite", list(`5` = rule(5), `7` = rule(7), `15` = rule(15)), "statmod")
