package org.padtrue.firstarticle.result;

/**
 * Test of one family of terms.
 *
 * @param family shift, rotation, scale, array, common, rotationZero, "part x", "nozzle rotation",
 *     ...
 * @param statistic its statistic, a pure number (see {@code kind})
 * @param kind F, chi-square or likelihood ratio
 * @param p tail probability
 * @param passes passes Benjamini-Hochberg at 5 % over all families
 */
public record FamilyTest(String family, double statistic, String kind, double p, boolean passes) {}
