# Moderated variances of invented groups by limma (and statmod, which its robust version needs),
# printed for the test ScatterPriorReferenceTest. Run from the project's folder:
# Rscript src/test/r/scatter.R     (needs r-base-core, r-bioc-limma and r-cran-statmod)
suppressMessages({library(limma); library(statmod)})
set.seed(20260301, kind = "Mersenne-Twister", normal.kind = "Inversion")
draw <- function(d, d0, s0 = 0.02) {
  sigma2 <- if (is.finite(d0)) s0^2 * d0 / rchisq(length(d), d0) else rep(s0^2, length(d))
  ifelse(d > 0, sigma2 * rchisq(length(d), pmax(d, 1e-3)) / pmax(d, 1e-3), 0)
}
odd <- function(x, k, by) { x[k] <- x[k] * by; x }
equal12 <- rep(8, 12); un12 <- c(0.4, 1, 1.5, 2, 3.3, 5, 7.2, 9, 14, 22.5, 31, 40)
un60 <- round(exp(runif(60, log(0.8), log(60))), 2)
cases <- list(
  two = list(s2 = c(1.5e-4, 2.6e-3), d = c(11, 4.5)),
  three = list(s2 = c(1.5e-4, 2.6e-3, 4e-4), d = c(11, 4.5, 20)),
  alike = list(s2 = draw(equal12, Inf), d = equal12),
  equal12 = list(s2 = draw(equal12, 5), d = equal12),
  unequal12 = list(s2 = draw(un12, 6), d = un12),
  nought12 = list(s2 = draw(replace(un12, c(2, 5), 0), 6), d = replace(un12, c(2, 5), 0)),
  odd12 = list(s2 = odd(draw(un12, 20), 9, 16), d = un12),
  unequal60 = list(s2 = draw(un60, 4), d = un60),
  odd60 = list(s2 = odd(draw(un60, 30), c(7, 31), c(16, 40)), d = un60),
  odd60alike = list(s2 = odd(draw(rep(12, 60), Inf), c(7, 31), c(9, 25)), d = rep(12, 60)),
  oddInEqual = list(s2 = odd(draw(rep(6, 40), 12), 3, 60), d = rep(6, 40)),
  many = list(s2 = draw(rep(c(3, 9.5), 150), 7), d = rep(c(3, 9.5), 150)))
out <- character(0)
put <- function(case, k, what, v) out[length(out) + 1] <<- sprintf("%s,%d,%s,%.15g", case, k, what, v)
for (name in names(cases)) {
  s2 <- as.numeric(sprintf("%.9g", cases[[name]]$s2)); d <- cases[[name]]$d
  f <- fitFDist(s2, d); v <- squeezeVar(s2, d)$var.post
  # As squeezeVar does; fitFDistRobustly itself gives the scale, too.
  r <- suppressWarnings(fitFDistRobustly(ifelse(d == 0, 0, s2), d))
  by <- if (is.null(r$df2.shrunk)) rep(r$df2, length(d)) else r$df2.shrunk
  rv <- suppressWarnings(squeezeVar(s2, d, robust = TRUE))
  if (is.null(r$df2.shrunk)) rv <- squeezeVar(s2, d) # two groups: limma's robust version stops there
  put(name, 0, "scale", f$scale); put(name, 0, "df", f$df2)
  put(name, 0, "robust scale", r$scale); put(name, 0, "robust df", r$df2)
  for (k in seq_along(d)) {
    put(name, k, "s2", s2[k]); put(name, k, "d", d[k]); put(name, k, "moderated", v[k])
    put(name, k, "robust df", by[k]); put(name, k, "robust moderated", rv$var.post[k])
  }
}
file <- file("src/test/resources/org/padtrue/mixed/limma-scatter.csv", "w")
writeLines(sprintf("# limma %s, statmod %s on R %s, src/test/r/scatter.R; group 0 is the prior of all",
  packageVersion("limma"), packageVersion("statmod"), getRversion()), file)
writeLines(c("case,group,quantity,value", out), file)
close(file)
