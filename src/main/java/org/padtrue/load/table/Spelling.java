package org.padtrue.load.table;

/**
 * One way to spell a column's name.
 *
 * @param field what it means
 * @param rank lower is better where several columns could mean the same; {@link #WEAK} and above
 *     count only when nothing else does and the values agree
 * @param family name with x, y and rotation taken out, so that x and y are taken from one pair
 */
record Spelling(Field field, int rank, String family) {
  /** Rank of names that usually mean something else. */
  static final int WEAK = 100;

  boolean weak() {
    return rank >= WEAK;
  }
}
