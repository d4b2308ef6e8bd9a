package org.padtrue.numeric;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A mixture of scaled inverse chi-squares on a lattice of log variance, and the t distribution like
 * the normal distributions that it mixes.
 *
 * <p>Variances are in the squared unit of the caller's values.
 */
public final class VarianceLattice {
  private static final double LONGEST = 80;
  private static final double NOTHING = 1e-7;
  private static final double LEAST_DF = 0.2;
  private static final int TABLE = 160;
  private static final double[] LOG_DF = new double[TABLE];
  private static final double[] LOG_RATIO = new double[TABLE];
  private static final double NORMAL_RATIO = Tails.t(0.95, 1e6) / Tails.t(0.68, 1e6);

  static {
    for (int i = 0; i < TABLE; i++) {
      LOG_DF[i] = Math.log(LEAST_DF) + i * Math.log(1e4 / LEAST_DF) / (TABLE - 1);
      double df = Math.exp(LOG_DF[i]);
      LOG_RATIO[i] = Math.log(Tails.t(0.95, df) / Tails.t(0.68, df) - NORMAL_RATIO + 1e-5);
    }
  }

  /** Weights of one inverse chi-square's scales, on whole steps of the lattice. */
  public final class Part {
    final double df;
    int from;
    double[] w = new double[0];

    public Part(double df) {
      this.df = df;
    }

    /** Adds a component of this kind. */
    public void add(double weight, double logScale) {
      if (weight > 1e-12) {
        double x = logScale / step;
        int i = (int) Math.floor(x);
        put(i, weight * (1 - (x - i)));
        put(i + 1, weight * (x - i));
      }
    }

    private void put(int i, double v) {
      if (w.length == 0) {
        from = i - 8;
        w = new double[16];
      }
      if (i < from) {
        double[] wider = new double[w.length + from - i + 16];
        System.arraycopy(w, 0, wider, from - i + 16, w.length);
        from = i - 16;
        w = wider;
      } else if (i >= from + w.length) {
        w = Arrays.copyOf(w, i - from + 17);
      }
      w[i - from] += v;
    }
  }

  private final double step;
  private final List<Part> parts = new ArrayList<>();
  private double lowest;
  private double half95;
  private double[] density = new double[0];

  /** One over the standard deviation at each place of the lattice. */
  private double[] precision = new double[0];

  public VarianceLattice(double step) {
    this.step = step;
  }

  /** A new part: inverse chi-squares with these degrees of freedom. */
  public Part part(double df) {
    Part p = new Part(df);
    parts.add(p);
    return p;
  }

  /** Lays all components on the lattice. */
  public void close() {
    int from = Integer.MAX_VALUE;
    int to = Integer.MIN_VALUE;
    List<double[]> kernels = new ArrayList<>();
    List<Integer> below = new ArrayList<>();
    for (Part p : parts) {
      double[] up = half(p.df, step);
      double[] down = half(p.df, -step);
      double[] k = new double[down.length + up.length - 1];
      for (int i = 0; i < down.length; i++) {
        k[down.length - 1 - i] = down[i];
      }
      System.arraycopy(up, 0, k, down.length - 1, up.length);
      double sum = Arrays.stream(k).sum();
      for (int i = 0; i < k.length; i++) {
        k[i] /= sum;
      }
      kernels.add(k);
      below.add(down.length - 1);
      if (p.w.length > 0) {
        from = Math.min(from, p.from - down.length + 1);
        to = Math.max(to, p.from + p.w.length + up.length);
      }
    }
    density = new double[to - from];
    lowest = from * step;
    precision = new double[density.length];
    double total = 0;
    for (int j = 0; j < parts.size(); j++) {
      Part p = parts.get(j);
      double[] k = kernels.get(j);
      for (int i = 0; i < p.w.length; i++) {
        if (p.w[i] > NOTHING) {
          total += p.w[i];
          int at = p.from + i - below.get(j) - from;
          for (int m = 0; m < k.length; m++) {
            density[at + m] += p.w[i] * k[m];
          }
        }
      }
    }
    for (int i = 0; i < density.length; i++) {
      density[i] /= total;
      precision[i] = Math.exp(-0.5 * (lowest + i * step));
    }
    half95 = halfWidth(0.05);
  }

  /** Density of log(1 / (chi-square / df)) from its peak outwards, one there. */
  private static double[] half(double df, double step) {
    double[] out = new double[64];
    double shrink = Math.exp(-step);
    double small = 1;
    int i = 0;
    double value = 1;
    while (value > NOTHING && i * Math.abs(step) < LONGEST) {
      if (i == out.length) {
        out = Arrays.copyOf(out, 2 * i);
      }
      out[i++] = value;
      small *= shrink;
      value = Math.exp(-0.5 * df * (i * step + small - 1));
    }
    return Arrays.copyOf(out, i);
  }

  /** The h that a new residual exceeds, either way, with this probability. */
  private double halfWidth(double tail) {
    double lo = 0.5 * lowest - 4;
    double hi = 0.5 * (lowest + density.length * step) + 4;
    double atLo = -Math.log(tail);
    double atHi = -1;
    // False position on the logarithm of the tail, halving where it creeps.
    for (int i = 0; i < 100 && hi - lo > 1e-7; i++) {
      double mid = i % 3 == 2 ? 0.5 * (lo + hi) : lo + (hi - lo) * atLo / (atLo - atHi);
      double at = Math.max(-50, Math.log(beyond(Math.exp(mid)) / tail));
      if (Math.abs(at) < 1e-8) {
        return Math.exp(mid);
      }
      if (at > 0) {
        lo = mid;
        atLo = at;
      } else {
        hi = mid;
        atHi = at;
      }
    }
    return Math.exp(0.5 * (lo + hi));
  }

  private double beyond(double h) {
    double p = 0;
    for (int i = 0; i < density.length; i++) {
      p += density[i] * Mixture.phi(-h * precision[i]);
    }
    return 2 * p;
  }

  /** The t distribution with the same 68 and 95 % points. */
  public double degreesOfFreedom() {
    double ratio = half95 / halfWidth(0.32);
    double y = Math.log(Math.max(ratio - NORMAL_RATIO, 0) + 1e-5);
    if (y >= LOG_RATIO[0]) {
      return LEAST_DF;
    }
    for (int i = 1; i < TABLE; i++) {
      if (y > LOG_RATIO[i]) {
        double f = (LOG_RATIO[i - 1] - y) / (LOG_RATIO[i - 1] - LOG_RATIO[i]);
        return Math.exp(LOG_DF[i - 1] + f * (LOG_DF[i] - LOG_DF[i - 1]));
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  /** Squared scale of the t with these degrees of freedom and this mixture's 95 % point. */
  public double variance(double df) {
    double scale = half95 / Tails.t(0.95, df);
    return scale * scale;
  }

  /** Quantile of the variance. */
  public double quantile(double p) {
    double sum = 0;
    for (int i = 0; i < density.length; i++) {
      if (sum + density[i] >= p) {
        double f = (p - sum) / density[i];
        return Math.exp(lowest + (i + f - 0.5) * step);
      }
      sum += density[i];
    }
    return Math.exp(lowest + density.length * step);
  }
}
