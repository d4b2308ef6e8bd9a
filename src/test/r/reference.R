# Reference fits of the simulated article by lme4 (REML), printed for the test ReferenceFitTest.
# Run from the project's folder: Rscript src/test/r/reference.R > src/test/resources/org/padtrue/mixed/reference-values.csv
suppressMessages(library(lme4))
d <- read.csv("src/test/resources/org/padtrue/mixed/reference-article.csv", comment.char = "#")
n <- nrow(d)
th <- d$theta * pi / 180
board <- paste(d$column, d$row, sep = "/")
s <- data.frame(
  v = c(d$dx, d$dy), ex = rep(1:0, each = n), ey = rep(0:1, each = n), x = c(d$x, d$x), y = c(d$y, d$y),
  part = rep(d$part, 2), nozzle = rep(d$nozzle, 2), board = rep(board, 2),
  cx = c(cos(th), sin(th)), cy = c(-sin(th), cos(th)))
s$exx <- s$ex * s$x; s$exy <- s$ex * s$y; s$eyx <- s$ey * s$x; s$eyy <- s$ey * s$y
s$rot <- s$eyx - s$exy; s$sim <- s$exx + s$eyy
control <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-11, maxfun = 200000), calc.derivs = FALSE)
fixed <- list(shift = "ex + ey", rigid = "ex + ey + rot", similarity = "ex + ey + rot + sim",
              affine = "ex + ey + exx + exy + eyx + eyy")
random <- list(part = "(0 + cx | part) + (0 + cy | part)")
random$`part+nozzle` <- paste(random$part, "+ (0 + cx | nozzle) + (0 + cy | nozzle)")
random$`part+board` <- paste(random$part, "+ (0 + ex | board) + (0 + ey | board)")
cat(sprintf("# lme4 %s on R %s, src/test/r/reference.R\n", packageVersion("lme4"), getRversion()))
cat("family,random,what,value\n")
out <- function(family, r, what, value) cat(sprintf("%s,%s,%s,%.12g\n", family, r, what, value))
for (family in names(fixed)) for (r in names(random)) {
  f <- lmer(as.formula(paste("v ~ 0 +", fixed[[family]], "+", random[[r]])), s, REML = TRUE, control = control)
  v <- as.data.frame(VarCorr(f))
  for (i in seq_len(nrow(v)))
    out(family, r, if (v$grp[i] == "Residual") "sd residual" else paste("sd", sub("\\..*", "", v$grp[i]), if (v$var1[i] %in% c("cx", "ex")) "x" else "y"), v$sdcor[i])
  b <- fixef(f)
  for (k in names(b)) out(family, r, paste("fixed", k), b[[k]])
  out(family, r, "criterion", REMLcrit(f))
  u <- ranef(f, condVar = FALSE)
  for (g in names(u)) for (l in rownames(u[[g]])) for (k in colnames(u[[g]]))
    out(family, r, paste("blup", g, l, if (k %in% c("cx", "ex")) "x" else "y"), u[[g]][l, k])
}
