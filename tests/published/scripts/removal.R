# Removal by two passes: likelihoods written down anew and maximised by R's optim and Newton steps on differences, for
# tests/published/removal and tests/models/swap. Writes ../data/removal.json. Run: Rscript removal.R
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE))), "write.R"))

# Gradient and Hessian by central differences of fourth order; parameters are of order 1
differences <- function(f, x, h = 1e-3) {
  n <- length(x)
  e <- diag(n)
  step <- c(-2, -1, 1, 2); w1 <- c(1, -8, 8, -1) / 12
  g <- sapply(1:n, function(i) sum(w1 * sapply(step, function(k) f(x + k * h * e[i, ]))) / h)
  H <- matrix(0, n, n)
  for (i in 1:n) for (j in 1:i) {
    H[i, j] <- H[j, i] <- if (i == j) {
      sum(c(-1, 16, -30, 16, -1) / 12 * sapply(-2:2, function(k) f(x + k * h * e[i, ]))) / h^2
    } else {
      sum(outer(1:4, 1:4, Vectorize(function(a, b) w1[a] * w1[b] * f(x + step[a] * h * e[i, ] + step[b] * h * e[j, ])))) / h^2
    }
  }
  list(gradient = g, hessian = H)
}
climb <- function(f, start) {
  x <- optim(start, f, method = "BFGS", control = list(fnscale = -1, maxit = 2000, reltol = 1e-14))$par
  for (i in 1:4) { d <- differences(f, x); x <- x - solve(d$hessian, d$gradient) }
  d <- differences(f, x)
  stopifnot(max(abs(d$gradient)) < 1e-6)
  list(x = x, covariance = solve(-d$hessian), value = f(x))
}

# One p for both passes, closed forms of Seber & Le Cren 1967
one_p <- function(c1, c2) {
  n <- c1^2 / (c1 - c2)
  p <- 1 - c2 / c1
  list(c1 = c1, c2 = c2, n = n, se_n = sqrt(c1^2 * c2^2 * (c1 + c2) / (c1 - c2)^4), p = p, se_p = sqrt(c2 * (c1 + c2) / c1^3))
}

# Two observers who exchange roles; aa by A first, ab by B after A, ba by A after B, bb by B first. Given how many were
# detected in each order, what parts the passes is a binomial.
swapped <- function(aa, ab, ba, bb) {
  f <- function(logit) {
    p <- plogis(logit)
    either <- 1 - (1 - p[1]) * (1 - p[2])
    aa * log(p[1] / either) + ab * log((1 - p[1]) * p[2] / either) + bb * log(p[2] / either) + ba * log((1 - p[2]) * p[1] / either)
  }
  fit <- climb(f, c(1, 1))
  p <- plogis(fit$x)
  either <- 1 - prod(1 - p)
  slope <- c(p[1] * (1 - p[1]) * (1 - p[2]), p[2] * (1 - p[2]) * (1 - p[1]))
  se_either <- sqrt(drop(slope %*% fit$covariance %*% slope))
  found <- aa + ab + ba + bb
  n <- found / either
  list(aa = aa, ab = ab, ba = ba, bb = bb, pA = p[1], pB = p[2], either = either,
       se = p * (1 - p) * sqrt(diag(fit$covariance)), se_either = se_either, n = n,
       # of the number that was there: the draw of those detected, and what is not known of p*
       se_n = sqrt(n * (1 - either) / either + (n / either * se_either)^2), logLik = fit$value)
}

# Density and detection together on 120 simulated segments
data <- read_data("sim_removal")
area <- data$length_m * data$width_m
X <- cbind(1, data$substrate == "gravel", data$substrate == "rock", data$substrate == "plants", data$depth, data$depth^2 / 10)
n <- data$y_primary + data$y_secondary
first <- data$primary == "A"
whole <- function(family) {
  f <- function(x) {
    p <- plogis(x[7:8])
    p1 <- ifelse(first, p[1], p[2])
    p2 <- ifelse(first, p[2], p[1])
    either <- 1 - (1 - p1) * (1 - p2)
    mean <- area * exp(drop(X %*% x[1:6])) * either
    counts <- if (family == "nb2") dnbinom(n, size = exp(x[9]), mu = mean, log = TRUE) else dpois(n, mean, log = TRUE)
    sum(counts + dbinom(data$y_primary, n, p1 / either, log = TRUE))
  }
  start <- c(-2.5, 1.7, 2.6, 1.5, 0.5, -0.6, 1, 0.5, if (family == "nb2") 0.3)
  fit <- climb(f, start)
  scale <- c(1, 1, 1, 1, 1, 1 / 10, 1, 1, 1)[seq_along(start)]
  names <- c("intercept", "gravel", "rock", "plants", "depth", "depth^2", "A", "B", "log_theta")[seq_along(start)]
  list(terms = terms_of(names, fit$x * scale, sqrt(diag(fit$covariance)) * scale), logLik = fit$value)
}

write_figures("removal", list(
  one_p = list(one_p(79, 28), one_p(200, 50), one_p(30, 6), one_p(12, 3), one_p(244, 86)),
  swapped = list(swapped(60, 8, 10, 55), swapped(40, 12, 6, 48), swapped(120, 15, 24, 98)),
  whole = list(nb2 = whole("nb2"), poisson = whole("poisson"))
))
