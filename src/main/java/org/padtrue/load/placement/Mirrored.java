package org.padtrue.load.placement;

import java.util.List;
import org.padtrue.panel.Side;

/** Tells a bottom side whose x runs as seen from below by its place beside the top. */
final class Mirrored {
  private static final int LEAST_ROWS = 3;
  private static final double MARGIN_MM = 5;

  private Mirrored() {}

  /**
   * What to say of it, beginning with what follows the file's name; empty when nothing speaks for
   * it, or the job has said how the file looks at the bottom.
   */
  static String hint(List<PlacementRow> rows, Axes axes) {
    if (!axes.bottomSeenFromTop()) {
      return "";
    }
    Range bottom = new Range(rows, Side.BOTTOM);
    if (bottom.count < LEAST_ROWS) {
      return "";
    }
    Range top = new Range(rows, Side.TOP);
    double low = bottom.low;
    double high = bottom.high;
    boolean beside = top.count > 0 && (high < top.low || low > top.high);
    boolean back = beside && -high > top.low - MARGIN_MM && -low < top.high + MARGIN_MM;
    boolean alone = top.count == 0 && bottom.count == rows.size() && high < 0;
    if (!back && !alone) {
      return "";
    }
    return ": x of the bottom "
        + (back ? "lies mirrored beside the top" : "is negative throughout")
        + ", as if seen from below; if it is, say \"axes\": {\"bottomX\": \"asSeenFromBottom\"} in"
        + " the job, with \"rotation\": \"clockwise\" where rotations count as seen from the top.";
  }

  /** Least and greatest x of the fitted rows of a side. */
  private static final class Range {
    private int count;
    private double low = Double.POSITIVE_INFINITY;
    private double high = Double.NEGATIVE_INFINITY;

    Range(List<PlacementRow> rows, Side side) {
      for (PlacementRow r : rows) {
        double x = r.filePose().xMm();
        if (r.side() == side && r.fitted() && Double.isFinite(x)) {
          count++;
          low = Math.min(low, x);
          high = Math.max(high, x);
        }
      }
    }
  }
}
