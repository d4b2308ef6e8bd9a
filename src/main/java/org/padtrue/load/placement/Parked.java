package org.padtrue.load.placement;

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
 * than 75 mm and than three quarters of the main group's own length (one and a half times with
 * fewer than 20 rows, where a gap is easily chance), and the parked rows are at most a fifth of
 * all. With fewer than 5 rows nothing is parked.
 */
public final class Parked {
  private static final double LEAST_GAP_MM = 75;
  private static final double GAP_SHARE = 0.75;
  private static final double GAP_SHARE_OF_FEW = 1.5;
  private static final int FEW_ROWS = 20;
  private static final double MOST_SHARE = 0.2;
  private static final int LEAST_ROWS = 5;

  private final BitSet parked = new BitSet();

  private Parked() {}

  static Parked find(List<PlacementRow> rows, Drawings drawings) {
    Parked p = new Parked();
    p.mark(rows, drawings, false);
    p.mark(rows, drawings, true);
    return p;
  }

  public boolean is(int row) {
    return parked.get(row);
  }

  int count() {
    return parked.cardinality();
  }

  private void mark(List<PlacementRow> rows, Drawings drawings, boolean bottom) {
    int[] group = new int[rows.size()];
    int n = 0;
    for (int i = 0; i < group.length; i++) {
      PlacementRow r = rows.get(i);
      if (r.fitted() && !drawings.is(i) && (r.side() == Side.BOTTOM) == bottom) {
        group[n++] = i;
      }
    }
    if (n >= LEAST_ROWS) {
      mark(rows, Arrays.copyOf(group, n));
    }
  }

  private void mark(List<PlacementRow> rows, int[] group) {
    double[] x = new double[group.length];
    double[] y = new double[group.length];
    for (int k = 0; k < x.length; k++) {
      Pose p = rows.get(group[k]).filePose();
      x[k] = p.xMm();
      y[k] = p.yMm();
    }
    double[] mainX = mainRange(x);
    double[] mainY = mainRange(y);
    double limit =
        Math.max(LEAST_GAP_MM, share(x) * Math.max(mainX[1] - mainX[0], mainY[1] - mainY[0]));
    List<Integer> off = new ArrayList<>();
    for (int k = 0; k < x.length; k++) {
      if (outside(x[k], mainX) > limit || outside(y[k], mainY) > limit) {
        off.add(group[k]);
      }
    }
    if (off.size() <= MOST_SHARE * x.length) {
      off.forEach(parked::set);
    }
  }

  private static double share(double[] v) {
    return v.length < FEW_ROWS ? GAP_SHARE_OF_FEW : GAP_SHARE;
  }

  private static double outside(double v, double[] range) {
    return Math.max(range[0] - v, v - range[1]);
  }

  /** The longest run of values without a gap that is wide for it, by number of values. */
  private static double[] mainRange(double[] v) {
    double[] sample = Spread.sorted(v, v.length);
    // a typical length that a few far values cannot stretch
    double typical = 2 * (sample[(3 * sample.length) / 4] - sample[sample.length / 4]);
    return new Runs(v, Math.max(LEAST_GAP_MM, share(v) * typical)).longest();
  }
}
