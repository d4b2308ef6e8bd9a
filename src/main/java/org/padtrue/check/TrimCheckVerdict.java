package org.padtrue.check;

/** Whether the trims of an analysis did what they promised. */
public enum TrimCheckVerdict {
  /** Nothing contradicts the promise. */
  HELD("held"),
  /** Some did, some did not. */
  PARTLY("partly"),
  /** None that can be told did. */
  NOT_HELD("notHeld");

  private final String key;

  TrimCheckVerdict(String key) {
    this.key = key;
  }

  /** The word used in files. */
  public String key() {
    return key;
  }
}
