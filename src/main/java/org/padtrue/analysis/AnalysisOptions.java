package org.padtrue.analysis;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What is asked of an analysis.
 *
 * @param transform auto, or the family to use
 * @param array true forces the array terms in; false leaves them to the choice
 * @param common true forces the common part-frame offset in
 * @param keepOutliers true fits everything that was measured
 * @param random factors to use exactly, or null for those that the files carry
 * @param faults ids (column/row/ref or ref) that the user calls a real fault
 * @param slips ids that the user calls a slip of the record
 * @param turnedOff trims that are not to be entered, to see what happens then: registration, scale,
 *     array, common, rotationZero, or factor and level like "part R0603"; the other trims stay what
 *     they are
 * @param equalScatter one scatter variance for all part types
 */
public record AnalysisOptions(
    Transform transform,
    boolean array,
    boolean common,
    boolean keepOutliers,
    @Nullable List<String> random,
    Set<String> faults,
    Set<String> slips,
    Set<String> turnedOff,
    boolean equalScatter) {

  public AnalysisOptions {
    turnedOff = Set.copyOf(turnedOff);
  }

  /** Every trim as decided. */
  public AnalysisOptions(
      Transform transform,
      boolean array,
      boolean common,
      boolean keepOutliers,
      @Nullable List<String> random,
      Set<String> faults,
      Set<String> slips) {
    this(transform, array, common, keepOutliers, random, faults, slips, Set.of(), false);
  }

  /** Families of panel transforms, poorest first, and the free choice. */
  public enum Transform {
    AUTO,
    SHIFT,
    RIGID,
    SIMILARITY,
    AFFINE
  }

  /** Automatic choice of everything. */
  public static AnalysisOptions withDefaults() {
    return new AnalysisOptions(Transform.AUTO, false, false, false, null, Set.of(), Set.of());
  }

  /** The same with another transform. */
  public AnalysisOptions with(Transform t) {
    return new AnalysisOptions(t, array, common, keepOutliers, random, faults, slips, turnedOff, equalScatter);
  }

  /** The same, keeping outliers or not. */
  public AnalysisOptions withKeepOutliers(boolean keep) {
    return new AnalysisOptions(transform, array, common, keep, random, faults, slips, turnedOff, equalScatter);
  }

  /** The same with an exact list of random factors. */
  public AnalysisOptions withRandom(@Nullable List<String> factors) {
    return new AnalysisOptions(
        transform, array, common, keepOutliers, factors, faults, slips, turnedOff, equalScatter);
  }

  /** The same with array and common terms forced or not. */
  public AnalysisOptions withTerms(boolean forceArray, boolean forceCommon) {
    return new AnalysisOptions(
        transform, forceArray, forceCommon, keepOutliers, random, faults, slips, turnedOff, equalScatter);
  }

  /** The same with some trims not entered. */
  public AnalysisOptions withTurnedOff(Set<String> keys) {
    return new AnalysisOptions(transform, array, common, keepOutliers, random, faults, slips, keys, equalScatter);
  }

  /** The same with one scatter variance for all part types, or one for each. */
  public AnalysisOptions withEqualScatter(boolean equal) {
    return new AnalysisOptions(
        transform, array, common, keepOutliers, random, faults, slips, turnedOff, equal);
  }
}
