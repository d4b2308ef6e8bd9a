package org.padtrue.load;

import java.util.List;
import java.util.stream.Stream;
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
    double[] bottom = x(rows, Side.BOTTOM);
    if (bottom.length < LEAST_ROWS || !axes.bottomSeenFromTop()) {
      return "";
    }
    double[] top = x(rows, Side.TOP);
    double low = bottom[0];
    double high = bottom[bottom.length - 1];
    boolean beside = top.length > 0 && (high < top[0] || low > top[top.length - 1]);
    boolean back = beside && -high > top[0] - MARGIN_MM && -low < top[top.length - 1] + MARGIN_MM;
    boolean alone = top.length == 0 && bottom.length == rows.size() && high < 0;
    if (!back && !alone) {
      return "";
    }
    return ": x of the bottom "
        + (back ? "lies mirrored beside the top" : "is negative throughout")
        + ", as if seen from below; if it is, say \"axes\": {\"bottomX\": \"asSeenFromBottom\"} in the"
        + " job, with \"rotation\": \"clockwise\" where rotations count as seen from the top.";
  }

  private static double[] x(List<PlacementRow> rows, Side side) {
    return fitted(rows)
        .filter(r -> r.side() == side)
        .mapToDouble(r -> r.filePose().xMm())
        .filter(Double::isFinite)
        .sorted()
        .toArray();
  }

  private static Stream<PlacementRow> fitted(List<PlacementRow> rows) {
    return rows.stream().filter(PlacementRow::fitted);
  }
}
