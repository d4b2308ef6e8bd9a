package org.padtrue.load.json;

/** What a number must be. */
public enum Bound {
  ANY("a finite number"),
  POSITIVE("a number above 0"),
  NOT_NEGATIVE("0 or a number above it");

  private final String words;

  Bound(String words) {
    this.words = words;
  }

  /** The bound in words. */
  public String words() {
    return words;
  }

  /** True for a finite number within the bound. */
  public boolean holds(double d) {
    if (!Double.isFinite(d)) {
      return false;
    }
    return switch (this) {
      case ANY -> true;
      case POSITIVE -> d > 0;
      case NOT_NEGATIVE -> d >= 0;
    };
  }
}
