package org.padtrue.gauge;

import org.jspecify.annotations.Nullable;

/**
 * What a gauge study found for one axis.
 *
 * @param axis x, y or rotation
 * @param unit mm or deg
 * @param components the standard deviations to use: by analysis of variance when the study is
 *     balanced, else by REML
 * @param anova analysis of variance, or null when the study is not balanced
 * @param reml the same by restricted maximum likelihood, interaction never pooled
 * @param repeatabilityDegreesOfFreedom degrees of freedom behind the repeatability
 * @param repeatabilityLow in {@code unit}, lower end of its 95 % interval (chi-square)
 * @param repeatabilityHigh upper end, in {@code unit}
 * @param shareOfStudy ratio of gauge over total, 1 = all; NaN when placements do not vary
 * @param shareOfTolerance ratio: 6 gauge standard deviations over the width of the tolerance, 1 =
 *     all of it; NaN when there is no tolerance
 * @param distinctCategories 1.41 part/gauge, cut off to a whole number; NaN when the gauge is 0
 * @param verdict fit to decide by, or not
 * @param sentence the verdict in words
 */
public record GaugeAxis(
    String axis,
    String unit,
    GaugeComponents components,
    @Nullable GaugeAnova anova,
    GaugeComponents reml,
    double repeatabilityDegreesOfFreedom,
    double repeatabilityLow,
    double repeatabilityHigh,
    double shareOfStudy,
    double shareOfTolerance,
    double distinctCategories,
    GaugeVerdict verdict,
    String sentence) {}
