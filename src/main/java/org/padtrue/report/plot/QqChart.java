package org.padtrue.report.plot;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;

/** Residuals in order against what a normal distribution would give. */
final class QqChart {
  private static final int WIDTH = 560;
  private static final int HEIGHT = 590;

  /** The middle of long lists is thinned to this many points; all tails stay. */
  private static final int MOST = 1500;

  private static final int TAIL = 100;

  /** Distance of the quartiles of a normal distribution, standard deviations. */
  private static final double QUARTILES = 1.3489795003921634;

  private QqChart() {}

  static Frame frame(PlotData data) {
    double[] dx = sorted(data.used(), p -> 1000 * p.result().residual().x());
    double[] dy = sorted(data.used(), p -> 1000 * p.result().residual().y());
    double largest = Math.max(largest(dx), largest(dy));
    double far = Normal.quantile(1 - 0.5 / Math.max(2, Math.max(dx.length, dy.length)));
    Range x = Range.symmetric(Math.ceil(2 * far + 0.4) / 2);
    Range y = Range.symmetric(Range.roundUp(1.05 * largest));
    Frame f =
        new Frame(
            WIDTH,
            HEIGHT,
            "Is the scatter normal?",
            "standard normal quantile",
            "residual (\u00b5m)",
            x,
            y);
    f.key("dx", Ink.Mark.DOT, Palette.AFTER);
    f.key("dy", Ink.Mark.TRIANGLE, Palette.BEFORE);
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
    int step = Math.max(1, n / MOST);
    int[] kept =
        java.util.stream.IntStream.range(0, n)
            .filter(i -> i % step == 0 || i < TAIL || i >= n - TAIL)
            .toArray();
    double[] xs = new double[kept.length];
    double[] ys = new double[kept.length];
    for (int k = 0; k < kept.length; k++) {
      xs[k] = Normal.quantile((kept[k] + 0.5) / n);
      ys[k] = sorted[kept[k]];
    }
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
