package org.padtrue.mixed;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a model of positions may contain.
 *
 * @param family the family to use, or null for the free choice; a named family also fixes array and
 *     common to exactly what is asked
 * @param array array terms forced in
 * @param common common part-frame offset forced in
 * @param offerCommon common offset may be taken in where its test passes
 * @param scaleVisible false when the reference hides scale, squareness and array
 * @param factors random factors to use, in this order, where the table has them
 * @param panelFrame factors that act in the panel frame
 * @param bothFrames factors that act in both frames, a component of its own in each
 * @param equalScatter one scatter variance for all part types
 * @param free levels that are not held to the others of their factor, as "part R0603"
 */
public record OffsetOptions(
    @Nullable PanelFamily family,
    boolean array,
    boolean common,
    boolean offerCommon,
    boolean scaleVisible,
    List<String> factors,
    Set<String> panelFrame,
    Set<String> bothFrames,
    boolean equalScatter,
    Set<String> free) {

  public OffsetOptions {
    factors = List.copyOf(factors);
    panelFrame = Set.copyOf(panelFrame);
    bothFrames = Set.copyOf(bothFrames);
    free = Set.copyOf(free);
  }

  /** Every factor in one frame, one scatter variance for all, every level held to the others. */
  public OffsetOptions(
      @Nullable PanelFamily family,
      boolean array,
      boolean common,
      boolean offerCommon,
      boolean scaleVisible,
      List<String> factors,
      Set<String> panelFrame) {
    this(
        family,
        array,
        common,
        offerCommon,
        scaleVisible,
        factors,
        panelFrame,
        Set.of(),
        true,
        Set.of());
  }

  /**
   * Free choice, part type and the factors that files carry, heads and boards in the panel frame.
   */
  public static OffsetOptions withDefaults() {
    return new OffsetOptions(
        null,
        false,
        false,
        true,
        true,
        List.of("part", "nozzle", "feeder", "head"),
        Set.of("head", "board"),
        Set.of(),
        false,
        Set.of());
  }

  /** The same with a named family. */
  public OffsetOptions with(@Nullable PanelFamily f) {
    return new OffsetOptions(
        f,
        array,
        common,
        offerCommon,
        scaleVisible,
        factors,
        panelFrame,
        bothFrames,
        equalScatter,
        free);
  }

  /** The same with other frames. */
  public OffsetOptions with(Set<String> panel, Set<String> both) {
    return new OffsetOptions(
        family, array, common, offerCommon, scaleVisible, factors, panel, both, equalScatter, free);
  }

  /** True when a factor may act in a frame. */
  boolean acts(String factor, boolean inPartFrame) {
    return bothFrames.contains(factor) || panelFrame.contains(factor) != inPartFrame;
  }
}
