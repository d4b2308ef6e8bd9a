package org.padtrue.panel;

import java.util.List;

/**
 * Which level of a factor each row of a table has.
 *
 * @param factor the factor
 * @param levels names of its levels
 * @param level for each row of the table the index of its level, -1 when the files do not say; not
 *     copied
 */
public record LevelColumn(Factor factor, List<String> levels, int[] level) {
  public LevelColumn {
    levels = List.copyOf(levels);
  }

  /** A level with its factor. */
  public Level named(int index) {
    return new Level(factor, levels.get(index));
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
