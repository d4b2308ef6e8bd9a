# Part type, nozzle and board together, positions and rotations, fitted by lme4 (REML).
#
#   Rscript src/test/r/crossed.R        (needs r-base-core and r-cran-lme4)
#
# Reads crossed-article.csv, writes crossed-values.csv beside it; the Java tests compare and need
# no R. Response: dx and dy stacked. Fixed: the panel transform's linear parameters. Random, each with
# its own variance and all uncorrelated: by part type and nozzle the columns (cos, sin) and (-sin, cos)
# of the part frame, by board the columns (1, 0) and (0, 1) of the panel frame. Rotation: a separate
# fit of dr minus the panel's rotation with an intercept and the same factors.
suppressPackageStartupMessages(library(lme4))
folder <- "src/test/resources/org/padtrue/mixed/"
d <- read.csv(paste0(folder, "crossed-article.csv"), comment.char = "#")
d$board <- paste0(d$column, "/", d$row)
rad <- d$theta * pi / 180; c <- round(cos(rad), 15); s <- round(sin(rad), 15)
n <- nrow(d); one <- rep(1, n); zero <- rep(0, n)
# Coordinates are centred and scaled for the optimiser; printed values are turned back.
mx <- mean(d$x); my <- mean(d$y); R <- 100
X <- (d$x - mx) / R; Y <- (d$y - my) / R
st <- data.frame(z = c(d$dx, d$dy), part = rep(d$part, 2), nozzle = rep(d$nozzle, 2), board = rep(d$board, 2),
  px = c(c, s), py = c(-s, c), ex = c(one, zero), ey = c(zero, one),
  xx = c(X, zero), yx = c(Y, zero), xy = c(zero, X), yy = c(zero, Y), turn = c(-Y, X), grow = c(X, Y))
fixed <- list(shift = "0+ex+ey", rigid = "0+ex+ey+turn", similarity = "0+ex+ey+turn+grow", affine = "0+ex+ey+xx+yx+xy+yy")
random <- list("part" = "(0+px|part)+(0+py|part)",
  "part+nozzle" = "(0+px|part)+(0+py|part)+(0+px|nozzle)+(0+py|nozzle)",
  "part+nozzle+board" = "(0+px|part)+(0+py|part)+(0+px|nozzle)+(0+py|nozzle)+(0+ex|board)+(0+ey|board)")
control <- lmerControl(optimizer = "nloptwrap", calc.derivs = TRUE,
  optCtrl = list(algorithm = "NLOPT_LN_BOBYQA", xtol_abs = 1e-12, xtol_rel = 0, ftol_abs = 1e-14, ftol_rel = 0, maxeval = 1e5))
out <- character(0)
put <- function(model, family, name, value) {
  out[length(out) + 1] <<- sprintf("%s,%s,%s,%.10e", model, family, name, value)
}
for (m in names(random)) for (f in names(fixed)) {
  fit <- lmer(as.formula(paste("z ~", fixed[[f]], "+", random[[m]])), st, REML = TRUE, control = control)
  b <- fixef(fit)
  # Linear part A of measured = nominal + t + A (nominal - centre), per mm.
  A <- switch(f, shift = c(0, 0, 0, 0), rigid = c(0, -b["turn"], b["turn"], 0) / R,
    similarity = c(b["grow"], -b["turn"], b["turn"], b["grow"]) / R,
    affine = c(b["xx"], b["yx"], b["xy"], b["yy"]) / R)
  put(m, f, "shiftX", b["ex"] - A[1] * mx - A[2] * my)
  put(m, f, "shiftY", b["ey"] - A[3] * mx - A[4] * my)
  # The rigid reference is linearised: its angle is turn / R itself.
  phi <- if (f == "rigid") b["turn"] / R else atan2(A[3], 1 + A[1])
  put(m, f, "rotation", phi * 180 / pi)
  put(m, f, "scaleXPpm", if (f == "rigid") 0 else 1e6 * (sqrt((1 + A[1])^2 + A[3]^2) - 1))
  put(m, f, "scaleYPpm", if (f == "rigid") 0 else 1e6 * (sqrt((1 + A[4])^2 + A[2]^2) - 1))
  put(m, f, "squarenessMrad", if (f == "rigid") 0 else 1e3 * (atan2(1 + A[4], A[2]) - atan2(A[3], 1 + A[1]) - pi / 2))
  put(m, f, "sigma", sigma(fit))
  v <- as.data.frame(VarCorr(fit))
  v <- v[v$grp != "Residual", ]
  axis <- c(px = "x", py = "y", ex = "x", ey = "y")
  for (i in seq_len(nrow(v))) put(m, f, paste("sd", sub("\\.[0-9]+$", "", v$grp[i]), axis[v$var1[i]]), v$sdcor[i])
  re <- ranef(fit)
  for (g in names(re)) for (col in names(re[[g]])) for (lev in rownames(re[[g]]))
    put(m, f, paste(g, lev, axis[col]), re[[g]][lev, col])
  d$r <- d$dr - phi * 180 / pi
  rot <- lmer(as.formula(paste("r ~ 1", paste0("+(1|", strsplit(m, "+", fixed = TRUE)[[1]], ")", collapse = ""))),
    d, REML = TRUE, control = control)
  put(m, f, "rotationZero", fixef(rot)[1]); put(m, f, "sigma rotation", sigma(rot))
  v <- as.data.frame(VarCorr(rot)); v <- v[v$grp != "Residual", ]
  for (i in seq_len(nrow(v))) put(m, f, paste("sd", v$grp[i], "rotation"), v$sdcor[i])
  re <- ranef(rot)
  for (g in names(re)) for (lev in rownames(re[[g]])) put(m, f, paste(g, lev, "rotation"), re[[g]][lev, 1])
}
file <- file(paste0(folder, "crossed-values.csv"), "w")
writeLines(paste0("# Made by src/test/r/crossed.R from crossed-article.csv: ", R.version.string, ", lme4 ", packageVersion("lme4")), file)
writeLines(c("model,family,quantity,value", out), file)
close(file)
