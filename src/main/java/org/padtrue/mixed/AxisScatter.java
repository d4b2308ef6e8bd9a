package org.padtrue.mixed;

import org.apache.commons.math3.special.Gamma;
import org.padtrue.numeric.Tails;

/**
 * Whether scatter differs between two axes: those of the panel (a belt, a gantry) or those of the
 * part (pick-up, a part's own shape), and by how much.
 *
 * <p>Each frame is tested by the two-sided F test of its two variances; the frame with the smaller
 * tail counts, both having been looked at (Bonferroni): 5 % over the two. Where it shows, log F is
 * drawn towards nought by 1 - v / (log F)^2, v its variance trigamma(d1 / 2) + trigamma(d2 / 2)
 * (positive-part James and Stein, a normal of one dimension with spread estimated from it), and the
 * factors have mean 1. Where it does not show, factors are 1.
 *
 * <p>Factors, correlations and p values are pure numbers.
 *
 * @param frame whose axes differ; {@code NONE} if it does not show
 * @param factorX variance along x of that frame over the mean of both axes
 * @param factorY the same along y; both 1 for {@code NONE}
 * @param p of the two frames together, at most 1
 * @param panelP two-sided p of the panel's axes alone
 * @param partP two-sided p of the part's axes alone; NaN if not asked
 * @param overlap correlation of the two comparisons, from -1 to 1: 1 where all parts stand at 0 or
 *     180 degrees, -1 at 90; beyond 0.9 either way which frame it is cannot be told; NaN if not
 *     asked
 */
public record AxisScatter(
    Frame frame,
    double factorX,
    double factorY,
    double p,
    double panelP,
    double partP,
    double overlap) {
  private static final double LEVEL = 0.05;

  /** Whose axes. */
  public enum Frame {
    NONE,
    PANEL,
    PART
  }

  /** A sum of squares of residuals with its degrees of freedom. */
  public record Sum(double squares, double df) {
    double variance() {
      return squares / df;
    }
  }

  /**
   * From sums of squares; with several types each residual is divided by its type's SD first.
   *
   * @param x along panel x
   * @param y along panel y
   * @param along along the part's x
   * @param across along the part's y; 0 degrees of freedom in both: the part frame is not looked at
   * @param overlap mean of cos(2 theta) over the residuals
   */
  public static AxisScatter of(Sum x, Sum y, Sum along, Sum across, double overlap) {
    double panelP = twoSided(x, y);
    double partP = twoSided(along, across);
    boolean part = partP < panelP || Double.isNaN(panelP);
    double p = Double.isNaN(partP) || Double.isNaN(panelP) ? 1 : 2;
    p = Math.min(1, p * (part ? partP : panelP));
    if (!(p <= LEVEL)) {
      return new AxisScatter(Frame.NONE, 1, 1, Double.isNaN(p) ? 1 : p, panelP, partP, overlap);
    }
    double[] f = part ? factors(along, across) : factors(x, y);
    return new AxisScatter(part ? Frame.PART : Frame.PANEL, f[0], f[1], p, panelP, partP, overlap);
  }

  private static double twoSided(Sum a, Sum b) {
    if (!(a.df > 0) || !(b.df > 0) || !(a.squares > 0) || !(b.squares > 0)) {
      return Double.NaN;
    }
    double f = a.variance() / b.variance();
    return Math.min(1, 2 * Math.min(Tails.f(f, a.df, b.df), Tails.f(1 / f, b.df, a.df)));
  }

  private static double[] factors(Sum a, Sum b) {
    double log = Math.log(a.variance() / b.variance());
    // The logarithm of a mean square is below that of its expectation by this much.
    log -= bias(a.df) - bias(b.df);
    double v = Gamma.trigamma(0.5 * a.df) + Gamma.trigamma(0.5 * b.df);
    double ratio = Math.exp(log * Math.max(0, 1 - v / (log * log)));
    return new double[] {2 * ratio / (1 + ratio), 2 / (1 + ratio)};
  }

  private static double bias(double df) {
    return Gamma.digamma(0.5 * df) - Math.log(0.5 * df);
  }
}
