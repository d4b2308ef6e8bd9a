package org.padtrue.panel.term;

import java.util.Arrays;
import java.util.Optional;

/** Terms of the panel that are tested and decided together. */
public enum TermFamily {
  SHIFT("shift", "panel offset"),
  ROTATION("rotation", "panel rotation"),
  SCALE("scale", "scale and squareness"),
  ARRAY("array", "board array"),
  COMMON("common", "offset common to all parts"),
  ROTATION_ZERO("rotationZero", "rotation zero of all parts"),
  SETTLING("settling", "settling"),
  SCATTER("scatter", "scatter of placing");

  private final String key;
  private final String words;

  TermFamily(String key, String words) {
    this.key = key;
    this.words = words;
  }

  /** For a person: "panel offset". */
  public String words() {
    return words;
  }

  /** One of its terms: "shift x", "common y". */
  public String along(OffsetAxis axis) {
    return key + " " + axis.key();
  }

  /** The family of a key. */
  public static Optional<TermFamily> parse(String key) {
    return Arrays.stream(values()).filter(f -> f.key.equals(key)).findFirst();
  }

  /** As in results. */
  public String key() {
    return key;
  }
}
