package org.padtrue.report.record;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** What of a placement a characteristic is about. */
public enum CharacteristicKind {
  /** Position along panel x. */
  X("x", "x", "mm"),
  /** Position along panel y. */
  Y("y", "y", "mm"),
  /** Rotation. */
  ROTATION("rotation", "rotation", "deg"),
  /** Deviation along the part's own x, where that is not along a panel axis. */
  PART_X("partX", "along part x", "mm"),
  /** Deviation along the part's own y, where that is not along a panel axis. */
  PART_Y("partY", "along part y", "mm"),
  /** How far a termination edge may still move before its limit on the land. */
  LAND_FIT("landFit", "land fit", "mm");

  private final String key;
  private final String words;
  private final String unit;

  CharacteristicKind(String key, String words, String unit) {
    this.key = key;
    this.words = words;
    this.unit = unit;
  }

  /** Its name in files. */
  public String key() {
    return key;
  }

  /** Its name for people. */
  public String words() {
    return words;
  }

  /** mm or deg. */
  public String unit() {
    return unit;
  }

  /** All names, in order. */
  public static List<String> keys() {
    return Arrays.stream(values()).map(CharacteristicKind::key).toList();
  }

  /** The kind with a name. */
  public static Optional<CharacteristicKind> parse(String key) {
    return Arrays.stream(values()).filter(k -> k.key.equals(key)).findFirst();
  }
}
