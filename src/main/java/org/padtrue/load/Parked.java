package org.padtrue.load;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;

/**
 * Finds placements that are parked far off the board, as some programs do with parts that are not
 * fitted.
 *
 * <p>On purpose slow to speak: per side, along x and along y, a gap counts only when it is wider
 * than 75 mm and than three quarters of the main group's own length, and the parked rows are at
 * most a fifth of all. With fewer than 5 rows nothing is parked.
 */
final class Parked {
  private static final double LEAST_GAP_MM = 75;
  private static final double GAP_SHARE = 0.75;
  private static final double MOST_SHARE = 0.2;
  private static final int LEAST_ROWS = 5;

  private final BitSet parked = new BitSet();

  private Parked() {}

  static Parked find(List<PlacementRow> rows) {
    Parked p = new Parked();
    List<Integer> top = new ArrayList<>();
    List<Integer> bottom = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      PlacementRow r = rows.get(i);
      if (r.fitted()) {
        (r.side() == Side.BOTTOM ? bottom : top).add(i);
      }
    }
    p.mark(rows, top);
    p.mark(rows, bottom);
    return p;
  }

  boolean is(int row) {
    return parked.get(row);
  }

  int count() {
    return parked.cardinality();
  }

  private void mark(List<PlacementRow> rows, List<Integer> group) {
    if (group.size() < LEAST_ROWS) {
      return;
    }
    double[] x = new double[group.size()];
    double[] y = new double[group.size()];
    for (int k = 0; k < x.length; k++) {
      Pose p = rows.get(group.get(k)).filePose();
      x[k] = p.xMm();
      y[k] = p.yMm();
    }
    double[] mainX = mainRange(x);
    double[] mainY = mainRange(y);
    double limit =
        Math.max(LEAST_GAP_MM, GAP_SHARE * Math.max(mainX[1] - mainX[0], mainY[1] - mainY[0]));
    List<Integer> off = new ArrayList<>();
    for (int k = 0; k < x.length; k++) {
      if (outside(x[k], mainX) > limit || outside(y[k], mainY) > limit) {
        off.add(group.get(k));
      }
    }
    if (off.size() <= MOST_SHARE * x.length) {
      off.forEach(parked::set);
    }
  }

  private static double outside(double v, double[] range) {
    return Math.max(range[0] - v, v - range[1]);
  }

  /** The longest run of values without a gap that is wide for it, by number of values. */
  private static double[] mainRange(double[] values) {
    double[] v = values.clone();
    Arrays.sort(v);
    // a typical length that a few far values cannot stretch
    double typical = 2 * (v[(3 * v.length) / 4] - v[v.length / 4]);
    double gap = Math.max(LEAST_GAP_MM, GAP_SHARE * typical);
    int bestFrom = 0;
    int bestTo = 0;
    int from = 0;
    for (int i = 1; i <= v.length; i++) {
      if (i == v.length || v[i] - v[i - 1] > gap) {
        if (i - from > bestTo - bestFrom) {
          bestFrom = from;
          bestTo = i;
        }
        from = i;
      }
    }
    return new double[] {v[bestFrom], v[bestTo - 1]};
  }
}
