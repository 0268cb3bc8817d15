# The basis of a natural cubic spline by splines::ns, knots 2 and 4, boundary knots 0 and 8, at depths 0 to 9, for
# tests/published/intervals-and-splines. Writes ../data/ns_depth.csv. Run: Rscript splines.R
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE))), "write.R"))
at <- c(0, 0.5, 1, 2, 3, 4, 5, 6.5, 8, 9)
basis <- splines::ns(at, knots = c(2, 4), Boundary.knots = c(0, 8))
table <- data.frame(at, unclass(basis)[, 1:3])
names(table) <- c("x", "", "", "")
write.csv(table, data_file("ns_depth.csv"), row.names = FALSE)
