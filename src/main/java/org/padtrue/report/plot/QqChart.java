package org.padtrue.report.plot;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.Cloud;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Normal;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;

/** Residuals in order against what a normal distribution would give. */
final class QqChart {
  private static final int WIDTH = 560;
  private static final int HEIGHT = 590;

  /** Points closer than this in quantiles would lie on each other: one of them is drawn. */
  private static final double CLOSEST = 0.012;

  /** Distance of the quartiles of a normal distribution, standard deviations. */
  private static final double QUARTILES = 1.3489795003921634;

  private QqChart() {}

  static ChartFrame frame(PlotData data) {
    double[] dx = sorted(data.used(), p -> 1000 * p.result().residual().x());
    double[] dy = sorted(data.used(), p -> 1000 * p.result().residual().y());
    double largest = Math.max(largest(dx), largest(dy));
    double far = Normal.quantile(1 - 0.5 / Math.max(2, Math.max(dx.length, dy.length)));
    Range x = Range.symmetric(Math.ceil(2 * far + 0.4) / 2);
    Range y = Range.symmetric(Range.roundUp(1.05 * largest));
    ChartFrame f =
        new ChartFrame(
            WIDTH,
            HEIGHT,
            "Residuals against a normal distribution",
            "standard normal quantile",
            "residual (\u00b5m)",
            x,
            y);
    f.key("dx (along x)", Ink.Mark.DOT, Palette.AFTER);
    f.key("dy (along y)", Ink.Mark.TRIANGLE, Palette.BEFORE);
    f.draw(
        ink -> {
          line(ink, dx, dy);
          points(ink, dy, Ink.Mark.TRIANGLE, Palette.BEFORE);
          points(ink, dx, Ink.Mark.DOT, Palette.AFTER);
        });
    return f;
  }

  /** The line that a normal distribution with the same quartiles would follow. */
  private static void line(Ink ink, double[] dx, double[] dy) {
    double[] all = new double[dx.length + dy.length];
    System.arraycopy(dx, 0, all, 0, dx.length);
    System.arraycopy(dy, 0, all, dx.length, dy.length);
    Arrays.sort(all);
    if (all.length < 4) {
      return;
    }
    double low = all[all.length / 4];
    double high = all[3 * all.length / 4];
    double slope = (high - low) / QUARTILES;
    double middle = all[all.length / 2];
    if (!(slope > 0)) {
      return;
    }
    double from = Math.max(ink.xRange().low(), (ink.yRange().low() - middle) / slope);
    double to = Math.min(ink.xRange().high(), (ink.yRange().high() - middle) / slope);
    ink.line(from, middle + slope * from, to, middle + slope * to, Palette.QUIET, Palette.DASH);
  }

  private static void points(Ink ink, double[] sorted, Ink.Mark mark, java.awt.Color color) {
    int n = sorted.length;
    double[] xs = new double[n];
    double[] ys = new double[n];
    int kept = 0;
    for (int i = 0; i < n; i++) {
      double z = Normal.quantile((i + 0.5) / n);
      if (kept == 0 || i == n - 1 || z - xs[kept - 1] >= CLOSEST) {
        xs[kept] = z;
        ys[kept++] = sorted[i];
      }
    }
    xs = Arrays.copyOf(xs, kept);
    ys = Arrays.copyOf(ys, kept);
    ink.marks(mark, xs, ys, Cloud.radius(n), Palette.faint(color, n <= 60 ? 220 : 130));
  }

  private static double[] sorted(List<Point> points, ToDoubleFunction<Point> value) {
    return points.stream().mapToDouble(value).filter(Double::isFinite).sorted().toArray();
  }

  private static double largest(double[] sorted) {
    return sorted.length == 0
        ? 1
        : Math.max(Math.abs(sorted[0]), Math.abs(sorted[sorted.length - 1]));
  }
}
