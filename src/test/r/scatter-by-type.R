# Two simulated articles with a residual variance for each part type, and their REML fits by nlme.
#
#   Rscript src/test/r/scatter-by-type.R        (needs r-base-core and r-cran-nlme)
#
# Writes scatter-article-1.csv and -2.csv (invented data, known truth) and scatter-by-type-values.csv
# to src/test/resources/org/padtrue/mixed; the Java tests compare and need no R. Response: dx and dy
# stacked, mm. Fixed: affine panel transform, not centred (per mm). Part offsets turn with the part,
# columns (cos, sin) and (-sin, cos): random with a variance for each axis (model "random"), or
# fixed (model "fixed", gls). Residual variance: varIdent by part type.
suppressPackageStartupMessages(library(nlme))
folder <- "src/test/resources/org/padtrue/mixed/"
out <- character(0)
put <- function(a, model, what, v) out[length(out) + 1] <<- sprintf("%d,%s,%s,%.12g", a, model, what, v)
article <- function(a, count, sd, offset) {
  n <- sum(count); part <- rep(names(count), count)
  d <- data.frame(ref = paste0("R", 1:n), part = part, nozzle = paste0("N", sample(0:1, n, TRUE)), column = 1, row = 1,
    x = round(runif(n, 3, 147), 3), y = round(runif(n, 3, 97), 3), theta = sample(c(0, 90, 180, -90), n, TRUE))
  t <- d$theta * pi / 180; k <- match(part, names(count)); o <- matrix(rnorm(2 * length(count), 0, offset), ncol = 2)
  d$dx <- round(0.05 + 3e-4 * d$x - 7e-4 * d$y + cos(t) * o[k, 1] - sin(t) * o[k, 2] + rnorm(n, 0, sd[k]), 5)
  d$dy <- round(-0.03 + 7e-4 * d$x - 1e-4 * d$y + sin(t) * o[k, 1] + cos(t) * o[k, 2] + rnorm(n, 0, sd[k]), 5)
  d$dr <- round(rnorm(n, 0.1, 0.2), 4)
  f <- file(paste0(folder, "scatter-article-", a, ".csv"), "w")
  writeLines("# Simulated article, made and fitted by src/test/r/scatter-by-type.R", f)
  write.csv(d, f, row.names = FALSE, quote = FALSE)
  close(f)
  d
}
fits <- function(a, d) {
  n <- nrow(d); t <- d$theta * pi / 180; c <- round(cos(t)); s <- round(sin(t))
  st <- data.frame(v = c(d$dx, d$dy), ex = rep(1:0, each = n), ey = rep(0:1, each = n), x = rep(d$x, 2), y = rep(d$y, 2),
    part = factor(rep(d$part, 2)), cx = c(c, s), cy = c(-s, c))
  # Scaled for the optimiser, printed per mm.
  st$exx <- st$ex * st$x / 100; st$exy <- st$ex * st$y / 100; st$eyx <- st$ey * st$x / 100; st$eyy <- st$ey * st$y / 100
  affine <- v ~ 0 + ex + ey + exx + exy + eyx + eyy
  per <- c(1, 1, 100, 100, 100, 100)
  w <- varIdent(form = ~ 1 | part)
  f <- lme(affine, st, random = list(part = pdDiag(~ 0 + cx + cy)), weights = w, method = "REML",
    control = lmeControl(maxIter = 500, msMaxIter = 2000, msMaxEval = 5000, niterEM = 200, tolerance = 1e-10, msTol = 1e-14, opt = "nlminb"))
  sds <- f$sigma * coef(f$modelStruct$varStruct, unconstrained = FALSE, allCoef = TRUE)
  re <- as.matrix(f$modelStruct$reStruct$part); tau <- f$sigma * sqrt(diag(re))
  for (k in names(sds)) put(a, "random", paste("sd residual", k), sds[[k]])
  put(a, "random", "sd part x", tau[["cx"]]); put(a, "random", "sd part y", tau[["cy"]])
  b <- fixef(f); se <- sqrt(diag(vcov(f)))
  for (i in seq_along(b)) { put(a, "random", paste("fixed", names(b)[i]), b[[i]] / per[i]); put(a, "random", paste("se fixed", names(b)[i]), se[[i]] / per[i]) }
  put(a, "random", "criterion", -2 * as.numeric(logLik(f)) + 8 * log(100))
  u <- ranef(f)
  for (k in rownames(u)) { put(a, "random", paste("blup", k, "x"), u[k, "cx"]); put(a, "random", paste("blup", k, "y"), u[k, "cy"]) }
  # nlme gives no standard errors of prediction: by Henderson's equations with its variances.
  X <- model.matrix(affine, st); P <- model.matrix(~ 0 + part, st); Z <- cbind(P * st$cx, P * st$cy)
  R <- 1 / sds[as.character(st$part)]^2; C <- cbind(Z, X)
  K <- nlevels(st$part); H <- t(C) %*% (R * C) + diag(c(rep(1 / tau[["cx"]]^2, K), rep(1 / tau[["cy"]]^2, K), rep(0, ncol(X))))
  e <- sqrt(diag(solve(H)))
  for (k in 1:K) { put(a, "random", paste("se blup", levels(st$part)[k], "x"), e[k]); put(a, "random", paste("se blup", levels(st$part)[k], "y"), e[K + k]) }
  # Fixed part offsets; the common offset is none of the affine columns, so all levels are estimable.
  st2 <- cbind(st, px = P * st$cx, py = P * st$cy)
  names(st2) <- sub("px.part", "px", sub("py.part", "py", names(st2), fixed = TRUE), fixed = TRUE)
  cols <- c("ex", "ey", "exx", "exy", "eyx", "eyy", paste0("px", levels(st$part)), paste0("py", levels(st$part)))
  g <- gls(as.formula(paste("v ~ 0 +", paste(cols, collapse = "+"))), st2, weights = w, method = "REML",
    control = glsControl(maxIter = 500, msMaxIter = 2000, tolerance = 1e-10, msTol = 1e-14, opt = "nlminb"))
  sds <- g$sigma * coef(g$modelStruct$varStruct, unconstrained = FALSE, allCoef = TRUE)
  for (k in names(sds)) put(a, "fixed", paste("sd residual", k), sds[[k]])
  b <- coef(g); se <- sqrt(diag(vcov(g))); per <- c(per, rep(1, length(b) - 6))
  for (i in seq_along(b)) { put(a, "fixed", paste("fixed", names(b)[i]), b[[i]] / per[i]); put(a, "fixed", paste("se fixed", names(b)[i]), se[[i]] / per[i]) }
  put(a, "fixed", "criterion", -2 * as.numeric(logLik(g)) + 8 * log(100))
}
set.seed(20260302, kind = "Mersenne-Twister", normal.kind = "Inversion")
fits(1, article(1, c(T0 = 22, T1 = 14, T2 = 9, T3 = 5), c(0.012, 0.015, 0.05, 0.02), 0.04))
fits(2, article(2, c(L1 = 8, L2 = 6, L3 = 30, L4 = 12, L5 = 4, L6 = 7), c(0.05, 0.03, 0.012, 0.012, 0.012, 0.02), 0.06))
file <- file(paste0(folder, "scatter-by-type-values.csv"), "w")
writeLines(sprintf("# nlme %s on R %s, src/test/r/scatter-by-type.R; mm, per mm; criterion: minus twice the restricted log likelihood with its constant, columns per mm",
  packageVersion("nlme"), getRversion()), file)
writeLines(c("article,model,what,value", out), file)
close(file)
