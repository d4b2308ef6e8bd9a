package org.padtrue.imaging.pose;

/** What became of an expected placement in a picture. */
public enum ReadingStatus {
  /** Measured. */
  FOUND("found"),
  /** Something was measured, but not surely this part: a person should look. */
  DOUBTFUL("doubtful"),
  /** Nothing that looks like the part where it should be. */
  NOT_FOUND("not found"),
  /** The bare lands show: the part is not there. */
  MISSING("part missing"),
  /** The place lies outside the picture. */
  OUT_OF_PICTURE("outside the picture"),
  /** The part type has neither body nor terminations to look for. */
  NO_GEOMETRY("no geometry known");

  private final String words;

  ReadingStatus(String words) {
    this.words = words;
  }

  /** The status in words. */
  public String words() {
    return words;
  }
}
