package org.padtrue.panel.term;

/** Terms of the panel that are tested and decided together. */
public enum TermFamily {
  SHIFT("shift"),
  ROTATION("rotation"),
  SCALE("scale"),
  ARRAY("array"),
  COMMON("common"),
  ROTATION_ZERO("rotationZero"),
  SETTLING("settling"),
  SCATTER("scatter");

  private final String key;

  TermFamily(String key) {
    this.key = key;
  }

  /** As in results. */
  public String key() {
    return key;
  }
}
