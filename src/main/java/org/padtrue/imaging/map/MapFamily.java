package org.padtrue.imaging.map;

/** Families of maps from panel to picture, each richer than the one before. */
public enum MapFamily {
  /** Shift, turn, one scale. */
  SIMILARITY("similarity", 4),
  /** Also unequal scales and squareness. */
  AFFINE("affine", 6),
  /** Also perspective. */
  HOMOGRAPHY("homography", 8);

  private final String word;
  private final int parameters;

  MapFamily(String word, int parameters) {
    this.word = word;
    this.parameters = parameters;
  }

  /** Name in words. */
  public String word() {
    return word;
  }

  /** Number of parameters. */
  public int parameters() {
    return parameters;
  }
}
