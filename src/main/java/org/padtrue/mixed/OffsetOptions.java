package org.padtrue.mixed;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;
import org.padtrue.panel.OffsetFrame;

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
 * @param free levels that are not held to the others of their factor, as part type R0603
 */
public record OffsetOptions(
    @Nullable PanelFamily family,
    boolean array,
    boolean common,
    boolean offerCommon,
    boolean scaleVisible,
    List<Factor> factors,
    Set<Factor> panelFrame,
    Set<Factor> bothFrames,
    boolean equalScatter,
    Set<Level> free) {

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
      List<Factor> factors,
      Set<Factor> panelFrame) {
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

  /** Factors that act in the panel frame where nothing else is known. */
  public static Set<Factor> usualPanelFrame() {
    return EnumSet.copyOf(
        Arrays.stream(Factor.values()).filter(f -> f.frame() == OffsetFrame.PANEL).toList());
  }

  /** The same with other frames. */
  public OffsetOptions with(Set<Factor> panel, Set<Factor> both) {
    return new OffsetOptions(
        family, array, common, offerCommon, scaleVisible, factors, panel, both, equalScatter, free);
  }

  /** True when a factor may act in a frame. */
  boolean acts(Factor factor, boolean inPartFrame) {
    return bothFrames.contains(factor) || panelFrame.contains(factor) != inPartFrame;
  }
}
