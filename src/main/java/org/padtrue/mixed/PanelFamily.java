package org.padtrue.mixed;

/** Families of panel transforms, poorest first; each contains the one before it. */
public enum PanelFamily {
  /** Shift only. */
  SHIFT("shift"),
  /** Shift and rotation. */
  RIGID("rigid"),
  /** Shift, rotation and one scale. */
  SIMILARITY("similarity"),
  /** Shift, rotation, two scales and squareness. */
  AFFINE("affine");

  private final String key;

  PanelFamily(String key) {
    this.key = key;
  }

  /** The word used in files. */
  public String key() {
    return key;
  }

  /** Number of shared linear terms besides the rotation of each panel. */
  int shared() {
    return switch (this) {
      case SHIFT, RIGID -> 0;
      case SIMILARITY -> 1;
      case AFFINE -> 3;
    };
  }
}
