package org.padtrue.mixed.reml;

/**
 * A Wald test of some coefficients against zero.
 *
 * @param f F statistic, a pure number
 * @param df1 number of coefficients
 * @param df2 Satterthwaite degrees of freedom
 * @param p tail probability
 */
public record Wald(double f, double df1, double df2, double p) {}
