package org.padtrue.firstarticle.next;

import java.util.Arrays;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.land.PartFrame;
import org.padtrue.land.risk.Capability;
import org.padtrue.land.risk.ToleranceFactor;
import org.padtrue.panel.Tolerance;

/** Deviations in the part frame, each beside the deviation that its part type allows. */
final class ScaledDeviations {
  private static final double COVERAGE = 0.99;
  private static final double CONFIDENCE = 0.95;

  /** From here on Howe's approximation differs from the exact factor by less than 1e-4. */
  private static final int MANY = 500;

  /** Exact factors take milliseconds each, and many types have as many placements. */
  private static final Map<Integer, Double> FACTORS = new ConcurrentHashMap<>();

  private double[] x = new double[16];
  private double[] y = new double[16];
  private double[] allowedX = new double[16];
  private double[] allowedY = new double[16];
  private int count;

  void add(Xyr d, double thetaDeg, Tolerance allowed) {
    if (count == x.length) {
      x = Arrays.copyOf(x, 2 * count);
      y = Arrays.copyOf(y, 2 * count);
      allowedX = Arrays.copyOf(allowedX, 2 * count);
      allowedY = Arrays.copyOf(allowedY, 2 * count);
    }
    x[count] = PartFrame.x(d.x(), d.y(), thetaDeg);
    y[count] = PartFrame.y(d.x(), d.y(), thetaDeg);
    allowedX[count] = allowed.xMm();
    allowedY[count++] = allowed.yMm();
  }

  int count() {
    return count;
  }

  /** What the first placement may deviate, mm; the same for all of one type. */
  Xy allowed() {
    return count == 0 ? Xy.UNKNOWN : new Xy(allowedX[0], allowedY[0]);
  }

  Xy cpk() {
    return count < 2 ? Xy.UNKNOWN : new Xy(index(x, allowedX).cpk(), index(y, allowedY).cpk());
  }

  Xy cpkLower95() {
    return count < 2
        ? Xy.UNKNOWN
        : new Xy(index(x, allowedX).cpkLower95(), index(y, allowedY).cpkLower95());
  }

  private Capability index(double[] v, double[] allowed) {
    return Capability.scaled(Arrays.copyOf(v, count), Arrays.copyOf(allowed, count));
  }

  /** Mean plus side times k standard deviations, mm; NaN below two placements. */
  Xy toleranceEnd(int side) {
    if (count < 2) {
      return Xy.UNKNOWN;
    }
    double k = FACTORS.computeIfAbsent(count, ScaledDeviations::factor);
    return new Xy(end(x, side * k), end(y, side * k));
  }

  private static double factor(int n) {
    return n < MANY
        ? ToleranceFactor.twoSided(n, COVERAGE, CONFIDENCE)
        : ToleranceFactor.twoSidedHowe(n, COVERAGE, CONFIDENCE);
  }

  private double end(double[] v, double k) {
    double mean = Arrays.stream(v, 0, count).sum() / count;
    double squares = Arrays.stream(v, 0, count).map(d -> (d - mean) * (d - mean)).sum();
    return mean + k * Math.sqrt(squares / (count - 1));
  }
}
