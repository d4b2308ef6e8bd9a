package org.padtrue.mixed;

import java.util.List;
import org.padtrue.mixed.reml.VarianceTest;
import org.padtrue.panel.Factor;

/**
 * Predicted offsets of the levels of one factor.
 *
 * <p>Lengths are in mm; degrees of freedom are pure numbers.
 *
 * @param factor the factor
 * @param source the factor, with its frame where an earlier component has the factor's name:
 *     "nozzle", "nozzle in the panel frame"
 * @param partFrame true when the offsets turn with the part, false for the panel frame
 * @param levels names
 * @param counts used placements of each level
 * @param x predicted offset (BLUP) along x of its frame, mm
 * @param y along y, mm
 * @param seX standard error of the prediction, variance uncertainty included, mm
 * @param seY the same in y
 * @param dfX degrees of freedom for a t quantile
 * @param dfY the same in y
 * @param combinedSeX standard error of offset plus common offset, mm
 * @param combinedSeY the same in y
 * @param sdX standard deviation between levels along x, mm; 0 on the boundary
 * @param sdY the same in y
 * @param testX test of that standard deviation against zero
 * @param testY the same in y
 */
public record FactorEffect(
    Factor factor,
    String source,
    boolean partFrame,
    List<String> levels,
    int[] counts,
    double[] x,
    double[] y,
    double[] seX,
    double[] seY,
    double[] dfX,
    double[] dfY,
    double[] combinedSeX,
    double[] combinedSeY,
    double sdX,
    double sdY,
    VarianceTest testX,
    VarianceTest testY) {}
