package org.padtrue.panel.article;

import java.util.Arrays;
import java.util.Optional;

/** What a status says is wrong with a placement. */
public enum FaultKind {
  /** No part is there. */
  MISSING("missing", "is missing"),
  /** No part was placed, and that is known. */
  NOT_PLACED("notPlaced", "was not placed"),
  /** The part stands on one end. */
  TOMBSTONE("tombstone", "stands on one end"),
  /** The part lies on its side. */
  ON_ITS_SIDE("onItsSide", "lies on its side"),
  /** The part lies with its top down. */
  UPSIDE_DOWN("upsideDown", "lies upside down"),
  /** The part is turned or off its place. */
  SKEWED("skewed", "is skewed"),
  /** The part is turned the wrong way round. */
  POLARITY("wrongPolarity", "has the wrong polarity"),
  /** Another part is there. */
  WRONG_PART("wrongPart", "is another part than listed"),
  /** The part or its leads are broken. */
  DAMAGED("damaged", "is damaged");

  private final String key;
  private final String words;

  FaultKind(String key, String words) {
    this.key = key;
    this.words = words;
  }

  /** The kind whose word in files this is. */
  public static Optional<FaultKind> parse(String key) {
    return Arrays.stream(values()).filter(k -> k.key.equals(key)).findFirst();
  }

  /** The word used in files. */
  public String key() {
    return key;
  }

  /** What is wrong, after the placement's name. */
  public String words() {
    return words;
  }
}
