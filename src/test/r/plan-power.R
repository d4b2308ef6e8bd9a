# Reference values for plan.MeasuringPlanDecidingTest: offset over standard error at which a
# chi-square test of k degrees of freedom at level alpha has power 0.9, from R's non-central
# chi-square distribution.
# Rscript plan-power.R
for (k in c(1, 2, 3, 9, 29)) for (alpha in c(0.05, 0.005)) {
  f <- function(ncp) pchisq(qchisq(1 - alpha, k), k, ncp, lower.tail = FALSE) - 0.9
  cat(k, alpha, format(sqrt(uniroot(f, c(0.1, 200), tol = 1e-12)$root), digits = 10), "\n")
}
