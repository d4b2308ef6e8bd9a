package org.padtrue.fit;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.quantity.Angles;

/**
 * Finds types turned as a whole (zero orientation) and single parts turned by a quarter or half.
 */
final class Turns {
  /** How near a turn must be to 90 or 180 degrees to be called one. */
  private static final double NEAR_DEG = 25;

  private Turns() {}

  /** Quarter turns modulo symmetry: 0, 90, 180, 270, or -1 when near none. */
  private static int turn(double dr, int symmetry) {
    double w = Angles.wrap(dr, symmetry);
    int q = Angles.quadrant(w);
    return Math.abs(Angles.wrap(w - q)) <= NEAR_DEG ? q : -1;
  }

  static int[] zeroOrientations(
      DeviationTable t, int[] symmetry, @Nullable LevelColumn part, List<String> notes) {
    if (part == null) {
      return new int[0];
    }
    int levels = part.levels().size();
    int[][] votes = new int[levels][4];
    int[] measured = new int[levels];
    for (int i = 0; i < t.size(); i++) {
      int k = part.level()[i];
      if (k < 0 || Double.isNaN(t.dr()[i])) {
        continue;
      }
      measured[k]++;
      int q = turn(t.dr()[i], symmetry[i]);
      if (q >= 0) {
        // of a part that looks the same after half a turn, 90 and 270 are the same turn
        votes[k][q % (360 / symmetry[i]) / 90]++;
      }
    }
    int[] zero = new int[levels];
    for (int k = 0; k < levels; k++) {
      for (int q = 1; q < 4; q++) {
        // One part alone is a turned part, not a convention.
        if (measured[k] >= 2 && 2 * votes[k][q] > measured[k]) {
          zero[k] = 90 * q;
          notes.add(
              "part type "
                  + part.levels().get(k)
                  + ": "
                  + votes[k][q]
                  + " of "
                  + measured[k]
                  + " are turned alike by "
                  + zero[k]
                  + " degrees, so its library counts rotation from another zero; their positions"
                  + " are kept");
        }
      }
    }
    return zero;
  }

  static void single(
      DeviationTable t,
      int[] symmetry,
      @Nullable LevelColumn part,
      int[] zero,
      @Nullable Finding[] findings) {
    for (int i = 0; i < t.size(); i++) {
      double dr = t.dr()[i];
      if (Double.isNaN(dr)) {
        continue;
      }
      int z = part == null || part.level()[i] < 0 ? 0 : zero[part.level()[i]];
      double w = Angles.wrap(dr - z, symmetry[i]);
      if (Math.abs(w) < 45 - 1e-9) {
        continue;
      }
      int q = turn(w, symmetry[i]);
      String ref = t.rows().get(i).id();
      String others = z == 0 ? "" : " against the others of its type";
      if (q == 90 || q == 270) {
        findings[i] =
            new Finding(
                Finding.Kind.QUARTER_TURN,
                ref
                    + " is turned by "
                    + (q == 90 ? "+90" : "-90")
                    + " degrees"
                    + others
                    + ": look at the part, its feeder and its polarity");
      } else if (q == 180) {
        findings[i] =
            new Finding(
                Finding.Kind.HALF_TURN,
                ref + " is turned by 180 degrees" + others + ": look at its polarity");
      } else if (q != 0) {
        findings[i] =
            new Finding(
                Finding.Kind.GROSS,
                String.format(
                    java.util.Locale.ROOT,
                    "%s is recorded %.1f degrees off in rotation: measure it again",
                    ref,
                    w));
      }
    }
  }
}
