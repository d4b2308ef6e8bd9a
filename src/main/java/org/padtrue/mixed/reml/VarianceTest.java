package org.padtrue.mixed.reml;

/**
 * Restricted likelihood-ratio test of a variance against zero.
 *
 * @param ratio drop in deviance, not negative
 * @param p tail probability under the exact null distribution for few levels, under half chi-square
 *     0 and half chi-square 1 for many
 */
public record VarianceTest(double ratio, double p) {}
