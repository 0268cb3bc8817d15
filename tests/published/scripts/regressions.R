# Count regressions by R's glm and MASS glm.nb on open data (tests/published/count-regression, counts-by-substrate, removal).
# glm.nb's standard errors hold theta and take the expected information, so they are not written: those of all parameters
# together come from regressions.py. Writes ../data/regressions.json. Run: Rscript regressions.R
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE))), "write.R"))
library(MASS)
library(splines)

sharp <- glm.control(epsilon = 1e-14, maxit = 200)
plain <- function(formula, data, names, ...) {
  fit <- glm(formula, poisson, data, control = sharp, ...)
  s <- summary(fit)$coefficients
  list(terms = terms_of(names, s[, 1], s[, 2]), logLik = as.numeric(logLik(fit)))
}
clumped <- function(formula, data, pick = character()) {
  fit <- glm.nb(formula, data, control = sharp)
  # theta and the coefficients in turn until neither moves: glm.nb stops a little earlier
  for (i in 1:50) {
    theta <- theta.ml(fit$y, fitted(fit), limit = 200, eps = 1e-12)
    fit <- update(fit, init.theta = as.numeric(theta))
  }
  out <- list(theta = fit$theta, logLik = as.numeric(logLik(fit)), terms = length(coef(fit)[!is.na(coef(fit))]))
  if (length(pick)) out$estimates <- as.list(setNames(coef(fit)[unname(pick)], names(pick)))
  out
}

quine <- read_data("quine")
for (f in c("Eth", "Sex", "Age", "Lrn")) quine[[f]] <- factor(quine[[f]])
ships <- subset(read_data("ships"), service > 0)
ships$year <- factor(ships$year)
ships$period <- factor(ships$period)
sprays <- read_data("insectsprays")
mite <- read_data("mite_small")
mite$Sub2 <- relevel(factor(mite$Sub2), "Sphagnum")
removal <- read_data("sim_removal")
removal$substrate <- relevel(factor(removal$substrate), "sand")
removal$area <- removal$length_m * removal$width_m

# the closed form of two observers who exchange roles, over the totals of the survey
of <- function(who, column) sum(removal[removal$primary == who, column])
aa <- of("A", "y_primary"); ab <- of("A", "y_secondary"); bb <- of("B", "y_primary"); ba <- of("B", "y_secondary")
gain <- aa * bb - ab * ba
pA <- gain / (bb * (aa + ab)); pB <- gain / (aa * (bb + ba))
removal$n <- removal$y_primary + removal$y_secondary
removal$effort <- removal$area * (1 - (1 - pA) * (1 - pB))
catches <- rbind(cbind(removal, pass = 0, y = removal$y_primary), cbind(removal, pass = 1, y = removal$y_secondary))
catch <- glm(y ~ substrate + depth + I(depth^2) + pass + offset(log(area)), poisson, catches, control = sharp)
thrice <- glm(y ~ pass, poisson, data.frame(y = c(244, 86, 43), pass = 0:2), control = sharp)
three <- local({
  p <- 1 - exp(coef(thrice)[[2]])
  n <- exp(coef(thrice)[[1]]) / p
  g <- n * c(1, (1 - p) / p)
  # n is a draw around what the regression estimates: its variance is n less
  list(p = p, n = n, se = sqrt(drop(g %*% vcov(thrice) %*% g) - n))
})

spline <- glm.nb(ONOV ~ Sub2 + ns(WatrCont, 3), mite, control = sharp)
for (i in 1:50) spline <- update(spline, init.theta = as.numeric(theta.ml(spline$y, fitted(spline), limit = 200, eps = 1e-12)))
basis <- ns(mite$WatrCont, 3)

write_figures("regressions", list(
  quine = list(
    poisson = plain(Days ~ Eth + Sex + Age + Lrn, quine, c("intercept", "EthN", "SexM", "AgeF1", "AgeF2", "AgeF3", "LrnSL")),
    main = clumped(Days ~ Eth + Sex + Age + Lrn, quine),
    all = clumped(Days ~ Eth * Sex * Age * Lrn, quine),
    stepped = clumped(Days ~ Eth * Sex * Age * Lrn - Eth:Sex:Age:Lrn - Eth:Sex:Age, quine, c(intercept = "(Intercept)", EthN = "EthN", SexM = "SexM")),
    in_sex = clumped(Days ~ Sex / (Age + Eth * Lrn), quine)
  ),
  ships = plain(incidents ~ type + year + period + offset(log(service)), ships,
                c("intercept", "B", "C", "D", "E", "y65", "y70", "y75", "p75")),
  sprays = list(poisson = plain(count ~ spray, sprays, c("intercept", "B", "C", "D", "E", "F")), nb2 = clumped(count ~ spray, sprays)),
  mite = list(
    poisson = plain(ONOV ~ Sub2 + SubsDens + WatrCont, mite, c("intercept", "Interface", "Other", "SubsDens", "WatrCont")),
    nb2 = clumped(ONOV ~ Sub2 + SubsDens + WatrCont, mite),
    groups = clumped(ONOV ~ Sub2, mite),
    spline = list(theta = spline$theta, logLik = as.numeric(logLik(spline)),
                  knots = unname(c(attr(basis, "Boundary.knots")[1], attr(basis, "knots"), attr(basis, "Boundary.knots")[2])),
                  estimates = list(intercept = coef(spline)[[1]], Interface = coef(spline)[["Sub2Interface"]], Other = coef(spline)[["Sub2Other"]]))
  ),
  removal = list(
    pA = pA, pB = pB,
    offset = clumped(n ~ substrate + depth + I(depth^2) + offset(log(effort)), removal,
                     c(intercept = "(Intercept)", rock = "substraterock", "depth^2" = "I(depth^2)")),
    catches = list(q = exp(coef(catch)[["pass"]]), se_log_q = sqrt(vcov(catch)["pass", "pass"]),
                   intercept = coef(catch)[["(Intercept)"]] - log(1 - exp(coef(catch)[["pass"]]))),
    three_passes = three
  )
), "MASS")
