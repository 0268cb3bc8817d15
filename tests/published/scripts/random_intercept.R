# Salamander counts with a random intercept by site, for tests/published/random-intercept: lme4's adaptive quadrature with
# 25 nodes (Poisson), and glmmTMB's Laplace values, which bound the integral from below here.
# Writes ../data/random_intercept.json. Run: Rscript random_intercept.R
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE))), "write.R"))
library(lme4)
library(glmmTMB)

data <- read_data("salamanders")
data$mined <- relevel(factor(data$mined), "yes")
data$spp <- factor(data$spp)
sharp <- glmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-9, maxfun = 1e5))
fit <- glmer(count ~ mined + (1 | site), data, poisson, nAGQ = 25, control = sharp)
# with nAGQ > 1 glmer's value is relative to the saturated model's
saturated <- sum(dpois(data$count, data$count, log = TRUE))
laplace <- function(formula, family) as.numeric(logLik(glmmTMB(formula, data, family)))
one <- count ~ mined + (1 | site)
nb1 <- glmmTMB(one, data, nbinom1)
write_figures("random_intercept", list(
  poisson = list(terms = terms_of(c("intercept", "no"), fixef(fit), sqrt(diag(as.matrix(vcov(fit))))),
                 tau = attr(VarCorr(fit)$site, "stddev")[[1]], logLik = as.numeric(logLik(fit)) + saturated),
  laplace = list(poisson = laplace(one, poisson), nb2 = laplace(one, nbinom2), nb1 = as.numeric(logLik(nb1)),
                 nb1_no = fixef(nb1)$cond[[2]],
                 species = laplace(count ~ spp + mined + (1 | site), nbinom2),
                 crossed = laplace(count ~ spp * mined + (1 | site), nbinom2))
), c("lme4", "glmmTMB"))
