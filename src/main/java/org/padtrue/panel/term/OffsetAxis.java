package org.padtrue.panel.term;

import java.util.Arrays;
import java.util.Optional;

/** What an offset of a level moves, in the level's frame. */
public enum OffsetAxis {
  X("x", "mm"),
  Y("y", "mm"),
  ROTATION("rotation", "deg"),
  /** A whole turn of a part type's library: 90, 180 or 270. */
  TURN("turn", "deg");

  private final String key;
  private final String unit;

  OffsetAxis(String key, String unit) {
    this.key = key;
    this.unit = unit;
  }

  /** As in results and in the log. */
  public String key() {
    return key;
  }

  /** Unit of the offset: mm or deg. */
  public String unit() {
    return unit;
  }

  /** The axis of a key. */
  public static Optional<OffsetAxis> parse(String key) {
    return Arrays.stream(values()).filter(a -> a.key.equals(key)).findFirst();
  }
}
