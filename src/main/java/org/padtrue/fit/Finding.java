package org.padtrue.fit;

/**
 * What is wrong with one measured placement.
 *
 * @param kind what it looks like
 * @param sentence one sentence for people
 */
public record Finding(Kind kind, String sentence) {

  /** Kinds of gross error. */
  public enum Kind {
    /** The part is turned by 90 degrees. */
    QUARTER_TURN("quarterTurn", true),
    /** The part is turned by 180 degrees. */
    HALF_TURN("halfTurn", true),
    /** Two references were recorded for each other. */
    SWAPPED_REFS("swappedRefs", false),
    /** x and y were recorded for each other. */
    SWAPPED_XY("swappedXY", false),
    /** A sign was lost or added. */
    SIGN_FLIP("signFlip", false),
    /** Recorded in another unit. */
    WRONG_UNIT("wrongUnit", false),
    /** The decimal point is one place off. */
    DECIMAL_SLIP("decimalSlip", false),
    /** Two neighbouring digits were recorded for each other. */
    TRANSPOSED_DIGITS("transposedDigits", false),
    /** Another part was measured, which stands where this one was recorded. */
    NEIGHBOUR("neighbour", false),
    /** Off alike on every board: the placement list has it wrong. */
    WRONG_IN_LIST("wrongInList", false),
    /** Far off, and it cannot be told why. */
    GROSS("gross", true);

    private final String key;
    private final boolean fault;

    Kind(String key, boolean fault) {
      this.key = key;
      this.fault = fault;
    }

    /** The word used in files. */
    public String key() {
      return key;
    }

    /** True when it counts as a real fault unless someone says otherwise. */
    public boolean fault() {
      return fault;
    }
  }
}
