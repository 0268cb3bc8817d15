# Moran's I of crime in Columbus (Anselin 1988) by spdep and of a lattice of 3 x 3 by ape, for tests/models/diagnose/moran.
# Writes ../data/moran.json. Run: Rscript moran.R
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE))), "write.R"))
crime <- read_data("columbus_crime")$CRIME
pairs <- read_data("columbus_nb")
neighbours <- lapply(seq_along(crime), function(i) as.integer(pairs$j[pairs$i == i]))
class(neighbours) <- "nb"
test <- spdep::moran.test(crime, spdep::nb2listw(neighbours, style = "W"), randomisation = TRUE)
values <- c(3, 5, 2, 8, 9, 7, 4, 6, 1)
at <- cbind((0:8) %% 3, (0:8) %/% 3)
rook <- (as.matrix(dist(at, "manhattan")) == 1) * 1
# ape standardises the rows by itself, so that binary weights are taken by its formula
z <- values - mean(values)
binary <- length(z) / sum(rook) * sum(rook * outer(z, z)) / sum(z^2)
write_figures("moran", list(
  columbus = list(i = unname(test$estimate[[1]]), expected = unname(test$estimate[[2]]), variance = unname(test$estimate[[3]])),
  lattice = list(binary = binary, standardised = ape::Moran.I(values, rook)$observed)
), c("spdep", "ape"))
