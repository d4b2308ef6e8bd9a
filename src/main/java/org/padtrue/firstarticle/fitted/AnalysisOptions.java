package org.padtrue.firstarticle.fitted;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Factor;
import org.padtrue.panel.OffsetFrame;

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
 * @param frames factors whose offsets are to act in one frame; the measurements decide on others
 * @param equalScatter one scatter variance for all part types
 * @param all true lists level terms that are too small to be worth typing, too
 */
public record AnalysisOptions(
    Transform transform,
    boolean array,
    boolean common,
    boolean keepOutliers,
    @Nullable List<Factor> random,
    Set<String> faults,
    Set<String> slips,
    Set<String> turnedOff,
    Map<Factor, OffsetFrame> frames,
    boolean equalScatter,
    boolean all) {

  public AnalysisOptions {
    turnedOff = Set.copyOf(turnedOff);
    frames = Map.copyOf(frames);
  }

  /** Every trim as decided. */
  public AnalysisOptions(
      Transform transform,
      boolean array,
      boolean common,
      boolean keepOutliers,
      @Nullable List<Factor> random,
      Set<String> faults,
      Set<String> slips) {
    this(
        transform,
        array,
        common,
        keepOutliers,
        random,
        faults,
        slips,
        Set.of(),
        Map.of(),
        false,
        false);
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
    return new AnalysisOptions(
        t,
        array,
        common,
        keepOutliers,
        random,
        faults,
        slips,
        turnedOff,
        frames,
        equalScatter,
        all);
  }

  /** The same with some trims not entered. */
  public AnalysisOptions withTurnedOff(Set<String> keys) {
    return new AnalysisOptions(
        transform,
        array,
        common,
        keepOutliers,
        random,
        faults,
        slips,
        keys,
        frames,
        equalScatter,
        all);
  }

  /** The same with one scatter variance for all part types, or one for each. */
  public AnalysisOptions withEqualScatter(boolean equal) {
    return new AnalysisOptions(
        transform,
        array,
        common,
        keepOutliers,
        random,
        faults,
        slips,
        turnedOff,
        frames,
        equal,
        all);
  }

  /** The same, small level terms listed or folded. */
  public AnalysisOptions withAll(boolean every) {
    return new AnalysisOptions(
        transform,
        array,
        common,
        keepOutliers,
        random,
        faults,
        slips,
        turnedOff,
        frames,
        equalScatter,
        every);
  }

  /** The same with some factors in a given frame. */
  public AnalysisOptions withFrames(Map<Factor, OffsetFrame> given) {
    return new AnalysisOptions(
        transform,
        array,
        common,
        keepOutliers,
        random,
        faults,
        slips,
        turnedOff,
        given,
        equalScatter,
        all);
  }

  /**
   * True when every factor keeps its usual frame: random factors named exactly, or a named family
   * fitted to everything that was measured, as the reference fit is.
   */
  boolean usualFrames() {
    return random != null || transform != Transform.AUTO && keepOutliers;
  }
}
