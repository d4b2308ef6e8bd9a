package org.padtrue.numeric;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * Nodes and weights that integrate exp(f), found by halving the panels where Simpson's rule and the
 * trapezoids differ.
 *
 * <p>Nodes are in the unit of the caller's abscissa; weights and logarithms are pure numbers.
 *
 * @param x nodes; those that carry next to nothing are left out
 * @param weight exp(f) times the rule's weight, summing to 1
 * @param logTotal logarithm of the integral
 */
public record AdaptiveSimpson(double[] x, double[] weight, double logTotal) {
  private static final int PASSES = 14;

  /** What is below the top by this much of a logarithm counts for nothing. */
  private static final double FAR = 25;

  private record Panel(double a, double m, double b, double fa, double fm, double fb) {
    double top() {
      return Math.max(fm, Math.max(fa, fb));
    }
  }

  /**
   * Integrates from the first to the last start.
   *
   * @param f logarithm of what is integrated
   * @param start ascending; no peak may hide between two of them
   * @param tol a panel is halved while its two rules differ by more than this share of the integral
   */
  public static AdaptiveSimpson of(DoubleUnaryOperator f, double[] start, double tol) {
    List<Panel> panels = new ArrayList<>();
    double fa = f.applyAsDouble(start[0]);
    for (int i = 1; i < start.length; i++) {
      double fb = f.applyAsDouble(start[i]);
      panels.add(panel(f, start[i - 1], start[i], fa, fb));
      fa = fb;
    }
    for (int pass = 0; pass < PASSES; pass++) {
      double top = top(panels);
      double[] apart = new double[panels.size()];
      double total = 0;
      for (int i = 0; i < apart.length; i++) {
        Panel p = panels.get(i);
        if (p.top() > top - FAR) {
          double h = p.b - p.a;
          double ends = Math.exp(p.fa - top) + Math.exp(p.fb - top);
          double middle = Math.exp(p.fm - top);
          total += h / 6 * (ends + 4 * middle);
          apart[i] = h / 12 * Math.abs(ends - 2 * middle);
        }
      }
      List<Panel> next = new ArrayList<>();
      for (int i = 0; i < apart.length; i++) {
        Panel p = panels.get(i);
        if (apart[i] > tol * total) {
          next.add(panel(f, p.a, p.m, p.fa, p.fm));
          next.add(panel(f, p.m, p.b, p.fm, p.fb));
        } else {
          next.add(p);
        }
      }
      boolean done = next.size() == panels.size();
      panels = next;
      if (done) {
        break;
      }
    }
    return collect(panels);
  }

  private static double top(List<Panel> panels) {
    double top = Double.NEGATIVE_INFINITY;
    for (Panel p : panels) {
      top = Math.max(top, p.top());
    }
    return top;
  }

  private static Panel panel(DoubleUnaryOperator f, double a, double b, double fa, double fb) {
    double m = 0.5 * (a + b);
    return new Panel(a, m, b, fa, f.applyAsDouble(m), fb);
  }

  private static AdaptiveSimpson collect(List<Panel> panels) {
    double top = top(panels);
    double[] x = new double[2 * panels.size() + 1];
    double[] w = new double[x.length];
    int i = 0;
    for (Panel p : panels) {
      double h = (p.b - p.a) / 6;
      x[i] = p.a;
      w[i] += h * Math.exp(p.fa - top);
      x[i + 1] = p.m;
      w[i + 1] = 4 * h * Math.exp(p.fm - top);
      x[i + 2] = p.b;
      w[i + 2] = h * Math.exp(p.fb - top);
      i += 2;
    }
    double total = Arrays.stream(w).sum();
    int kept = 0;
    for (int j = 0; j < x.length; j++) {
      if (w[j] > 1e-9 * total) {
        x[kept] = x[j];
        w[kept++] = w[j] / total;
      }
    }
    return new AdaptiveSimpson(
        Arrays.copyOf(x, kept), Arrays.copyOf(w, kept), top + Math.log(total));
  }
}
