# Null distribution of the restricted likelihood ratio of one variance, by RLRsim.
#
#   Rscript src/test/r/exact-null.R        (needs r-base-core, r-cran-lme4, r-cran-rlrsim)
#
# Writes exact-null-quantiles.csv and exact-null-tests.csv; the Java tests compare and need no R.
# Quantiles: RLRTSim with a million draws for designs given by the eigenvalues of Z'PZ.
# Tests: exactRLRT on Dyestuff, and on crossed-article.csv (part and nozzle, affine) each of the four
# variances: its restricted likelihood ratio (lme4), RLRsim's own p (other random effects taken off
# the null), and p by RLRTSim with X and Z whitened by the covariance of the model without it.
suppressPackageStartupMessages({library(lme4); library(RLRsim)})
folder <- "src/test/resources/org/padtrue/mixed/reml/"
N <- 1e6
draw <- function(X, Z) RLRTSim(X, Z, qrX = qr(X), sqrt.Sigma = diag(ncol(Z)), seed = 1, nsim = N, log.grid.hi = 14, gridlength = 400)
mu <- function(X, Z) { e <- eigen(crossprod(qr.resid(qr(X), Z)), symmetric = TRUE)$values; e[e > 1e-9 * max(e)] }
oneWay <- function(counts) { g <- rep(seq_along(counts), counts); list(X = matrix(1, length(g), 1), Z = model.matrix(~ 0 + factor(g))) }
set.seed(20260301, kind = "Mersenne-Twister", normal.kind = "Inversion")
plane <- function(n, levels, turns) {   # panel-frame offsets of the levels, affine panel terms taken off
  x <- runif(n, -1, 1); y <- runif(n, -1, 1); g <- factor(sample(levels, n, TRUE), 1:levels)
  E <- model.matrix(~ 0 + g); O <- matrix(0, n, levels); o <- rep(1, n); z <- rep(0, n)
  list(X = cbind(c(o, z), c(z, o), c(x, z), c(y, z), c(z, x), c(z, y)), Z = rbind(cbind(E, O), cbind(O, E)))
}
designs <- list("two alike" = oneWay(c(30, 30)), "two, one rare" = oneWay(c(58, 2)), "four alike" = oneWay(rep(16, 4)),
  "four, uneven" = oneWay(c(40, 20, 5, 2)), "six batches of five" = oneWay(rep(5, 6)), "twenty, uneven" = oneWay(rep(c(1, 2, 5, 12), 5)),
  "four in the plane" = plane(67, 4), "forty nine alike" = oneWay(rep(6, 49)), "two hundred alike" = oneWay(rep(3, 200)))
out <- "design,df,quantile90,quantile95,quantile99,zero,eigenvalues"
for (d in names(designs)) {
  X <- designs[[d]]$X; Z <- designs[[d]]$Z; s <- draw(X, Z); q <- quantile(s, c(.9, .95, .99), names = FALSE)
  out <- c(out, sprintf("%s,%d,%.5f,%.5f,%.5f,%.5f,%s", gsub(",", "", d), nrow(X) - qr(X)$rank, q[1], q[2], q[3], mean(s <= 1e-9),
    paste(sprintf("%.6f", mu(X, Z)), collapse = " ")))
}
head <- sprintf("# RLRsim %s, %s, 1e6 draws; by src/test/r/exact-null.R", packageVersion("RLRsim"), R.version.string)
writeLines(c(head, out), paste0(folder, "exact-null-quantiles.csv"))

out <- "case,ratio,pRlrsim,pHeld"
m <- lmer(Yield ~ 1 + (1 | Batch), Dyestuff)
e <- exactRLRT(m, seed = 1, nsim = N)
out <- c(out, sprintf("dyestuff,%.6f,%.6f,%.6f", e$statistic, e$p.value, e$p.value))
d <- read.csv(paste0(folder, "crossed-article.csv"), comment.char = "#")
rad <- d$theta * pi / 180; c <- round(cos(rad), 15); s <- round(sin(rad), 15)
n <- nrow(d); one <- rep(1, n); zero <- rep(0, n); X <- (d$x - mean(d$x)) / 100; Y <- (d$y - mean(d$y)) / 100
st <- data.frame(z = c(d$dx, d$dy), part = factor(rep(d$part, 2)), nozzle = factor(rep(d$nozzle, 2)),
  px = c(c, s), py = c(-s, c), ex = c(one, zero), ey = c(zero, one), xx = c(X, zero), yx = c(Y, zero), xy = c(zero, X), yy = c(zero, Y))
fixed <- "z ~ 0+ex+ey+xx+yx+xy+yy"
terms <- list("part x" = c("px", "part"), "part y" = c("py", "part"), "nozzle x" = c("px", "nozzle"), "nozzle y" = c("py", "nozzle"))
bar <- function(k) sprintf("(0+%s|%s)", terms[[k]][1], terms[[k]][2])
control <- lmerControl(optimizer = "nloptwrap", calc.derivs = FALSE,
  optCtrl = list(algorithm = "NLOPT_LN_BOBYQA", xtol_abs = 1e-12, xtol_rel = 0, ftol_abs = 1e-14, ftol_rel = 0, maxeval = 1e5))
fit <- function(keys) lmer(as.formula(paste(c(fixed, sapply(keys, bar)), collapse = " + ")), st, REML = TRUE, control = control)
column <- function(k) st[[terms[[k]][1]]] * model.matrix(~ 0 + st[[terms[[k]][2]]])
full <- fit(names(terms))
for (k in names(terms)) {
  null <- fit(setdiff(names(terms), k))
  # exactRLRT wants the model with the tested effect alone, the full one and the null.
  own <- exactRLRT(fit(k), full, null, seed = 1, nsim = N)
  V <- diag(2 * n); vc <- as.data.frame(VarCorr(null)); s2 <- sigma(null)^2
  for (o in setdiff(names(terms), k)) V <- V + vc$vcov[vc$var1 == terms[[o]][1] & grepl(terms[[o]][2], vc$grp)] / s2 * tcrossprod(column(o))
  W <- backsolve(chol(V), diag(2 * n))   # V^-1 = W W'
  ratio <- 2 * as.numeric(logLik(full) - logLik(null))
  held <- draw(crossprod(W, as.matrix(st[, c("ex", "ey", "xx", "yx", "xy", "yy")])), crossprod(W, column(k)))
  out <- c(out, sprintf("%s,%.6f,%.6f,%.6f", k, ratio, own$p.value, mean(held >= ratio)))
}
writeLines(c(head, out), paste0(folder, "exact-null-tests.csv"))
