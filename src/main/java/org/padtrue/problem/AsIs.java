package org.padtrue.problem;

import java.util.List;
import java.util.Set;

/**
 * Questions that were answered with 'it is really so'.
 *
 * @param keys keys of {@link Question}s
 * @param all true when every question is answered so
 */
public record AsIs(Set<String> keys, boolean all) {
  /** Every question that can be answered. */
  public static final List<String> KEYS =
      List.of(
          "unit",
          "statedUnits",
          "swappedAxes",
          "sign",
          "nominalList",
          "posesAsDeviations",
          "deviationsAsPoses",
          "otherBoard",
          "unlistedRefs",
          "turned",
          "mirrored",
          "rotationSense",
          "boardNumbers",
          "boardsNotNamed",
          "boardFrame",
          "mangledRefs",
          "shift",
          "scale",
          "machineUnits",
          "panelUnits");

  /** Nothing was answered yet. */
  public static final AsIs NOTHING = new AsIs(Set.of(), false);

  public AsIs {
    keys = Set.copyOf(keys);
  }

  /** True when a question need not be asked any more. */
  public boolean answers(String key) {
    return all || keys.contains(key);
  }

  /** These answers and, where {@code everything} is true, every other. */
  public AsIs or(boolean everything) {
    return new AsIs(keys, all || everything);
  }
}
