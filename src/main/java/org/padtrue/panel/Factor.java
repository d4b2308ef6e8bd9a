package org.padtrue.panel;

import java.util.List;

/**
 * A grouping of placements: part type, nozzle, feeder, head, board.
 *
 * @param name part, nozzle, feeder, head or board
 * @param levels names of its levels
 * @param level for each row of the table the index of its level, -1 when the files do not say; not
 *     copied
 */
public record Factor(String name, List<String> levels, int[] level) {
  public Factor {
    levels = List.copyOf(levels);
  }

  /** Number of rows at each level. */
  public int[] counts() {
    int[] c = new int[levels.size()];
    for (int l : level) {
      if (l >= 0) {
        c[l]++;
      }
    }
    return c;
  }
}
