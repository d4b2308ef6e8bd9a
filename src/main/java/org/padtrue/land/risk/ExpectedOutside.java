package org.padtrue.land.risk;

/**
 * Expected number of placements outside on one panel.
 *
 * <p>The expectation is the sum of the probabilities, whether or not placements move together. The
 * interval says how far it moves with what is known of the scatter: the scatter variance was
 * estimated with some degrees of freedom, so it lies (95 %) between df/chi-square(0.975) and
 * df/chi-square(0.025) times the estimate, and the expectation is computed at both ends.
 * Uncertainty of the offsets is inside every probability. Not a range of counts: a single panel
 * shows whole numbers around it.
 *
 * <p>Expected numbers and degrees of freedom are pure numbers.
 *
 * @param perPanel expected number on one panel
 * @param low at the low end of the scatter
 * @param high at the high end of the scatter
 * @param integrationError standard error of {@code perPanel} from the integration, at most (the
 *     replicates share their points, so errors are added, not averaged)
 * @param judged placements that have a limit
 */
public record ExpectedOutside(
    double perPanel, double low, double high, double integrationError, int judged) {}
