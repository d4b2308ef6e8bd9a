package org.padtrue.report.record;

/**
 * A word about a placement: the number of a nonconformance, or a designator.
 *
 * @param placement REF for every board, or COLUMN/ROW/REF
 * @param text the word
 */
public record PlacementText(String placement, String text) {

  /** True when it is about a placement. */
  boolean about(String board, String ref) {
    return placement.equals(ref) || placement.equals(board + "/" + ref);
  }
}
