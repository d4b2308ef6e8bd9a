package org.padtrue.land.risk;

import org.apache.commons.math3.distribution.TDistribution;
import org.padtrue.land.LandFit;
import org.padtrue.numeric.NormalTail;
import org.padtrue.numeric.Probability;
import org.padtrue.numeric.QuasiRandom;

/**
 * One integral of {@link Risk}. Rotation is written as mean + sd z0; given z0 the shifts have means
 * linear in z0 and a smaller covariance (the usual conditional normal). A t multiplies all
 * deviations from the mean by one factor.
 */
final class RiskIntegral {
  /** Points of each replicate to begin with. */
  private static final int FEWEST = 16;

  /** Points of each replicate where many values are summed. */
  private static final int COARSE = 4;

  private final LandFit fit;
  private final double meanX;
  private final double meanY;
  private final double meanRad;
  private final double sdRad;
  private final double slopeX;
  private final double slopeY;
  private final double restX;
  private final double restY;
  private final double restCorrelation;
  private final NormalTail.Rectangles rectangles;
  private final double df;
  private final int wide;
  private final int wideTurn;
  private final double period;
  private final double[] limits = new double[4];
  private final double[] sums = new double[QuasiRandom.REPLICATES];
  private final double[] weights = new double[QuasiRandom.REPLICATES];

  /**
   * Prepares an integral.
   *
   * @param c what is asked
   * @param wide 1, or how many times wider to draw (and weight back) because the event is rare
   */
  RiskIntegral(RiskCase c, int wide) {
    fit = c.fit();
    meanX = c.meanX();
    meanY = c.meanY();
    meanRad = c.meanRad();
    sdRad = c.spreadRad();
    double xr = c.correlationXR();
    double yr = c.correlationYR();
    slopeX = c.spreadX() * xr;
    slopeY = c.spreadY() * yr;
    double leftX = Math.sqrt(Math.max(0, 1 - xr * xr));
    double leftY = Math.sqrt(Math.max(0, 1 - yr * yr));
    restX = c.spreadX() * leftX;
    restY = c.spreadY() * leftY;
    double both = leftX * leftY;
    restCorrelation =
        both > 0 ? Math.max(-1, Math.min(1, (c.correlationXY() - xr * yr) / both)) : 0;
    rectangles = new NormalTail.Rectangles(restCorrelation);
    df = c.degreesOfFreedom();
    this.wide = wide;
    wideTurn = Math.min(wide, wideTurn(c));
    period = 2 * Math.PI / fit.part().symmetry();
  }

  /**
   * How far rotation has to go in the likeliest way out: the distance to the limit in standard
   * deviations, times the share of the edge's movement that goes with rotation. Drawing wider than
   * that only adds noise.
   */
  private static int wideTurn(RiskCase c) {
    double turn = c.fit().reachMm() * c.spreadRad();
    double x = Math.abs(c.correlationXR()) * c.spreadX() + turn;
    double y = Math.abs(c.correlationYR()) * c.spreadY() + turn;
    double all = Math.max(Math.hypot(c.spreadX(), turn), Math.hypot(c.spreadY(), turn));
    double margin = c.fit().marginAt(c.meanX(), c.meanY(), c.meanRad());
    double far = margin / all * Math.min(1, Math.max(x, y) / all);
    return far < 1 ? 1 : far < 3.5 ? 2 : 3;
  }

  /** Doubles the points until the standard error is small or the points are used up. */
  Probability estimate() {
    double beyond = rotationAlone();
    // With more than one dimension to average over, few points would not know their own error.
    int n = Double.isInfinite(df) && fit.rectangular() ? FEWEST : 2 * FEWEST;
    add(0, n);
    while (true) {
      Probability p = soFar(n, beyond);
      if (p.standardError() <= Replicates.wanted(p.value()) || n >= QuasiRandom.MOST) {
        return p;
      }
      add(n, 2 * n);
      n *= 2;
    }
  }

  /** One pass of few points. */
  Probability coarse() {
    add(0, COARSE);
    return soFar(COARSE, rotationAlone());
  }

  private Probability soFar(int n, double beyond) {
    Probability p = Replicates.estimate(sums, weights, n);
    double within = 1 - beyond;
    return new Probability(beyond + within * p.value(), within * p.standardError(), p.points());
  }

  /** Probability that rotation is beyond a limit of its own: exact, so left out of the average. */
  private double rotationAlone() {
    double limit = fit.rotationLimitRad();
    if (Double.isInfinite(limit)) {
      return 0;
    }
    if (sdRad == 0) {
      return Math.abs(meanRad) > limit ? 1 : 0;
    }
    double a = (-limit - meanRad) / sdRad;
    double b = (limit - meanRad) / sdRad;
    if (Double.isInfinite(df)) {
      return NormalTail.outside(a, b);
    }
    TDistribution t = new TDistribution(null, df);
    return t.cumulativeProbability(a) + t.cumulativeProbability(-b);
  }

  private void add(int from, int to) {
    QuasiRandom q = QuasiRandom.shared();
    double[] scales = Double.isInfinite(df) ? null : q.scales(df, to, wide);
    int stride = scales == null ? 0 : scales.length / QuasiRandom.REPLICATES;
    double limit = fit.rotationLimitRad();
    for (int r = 0; r < sums.length; r++) {
      for (int i = from; i < to; i++) {
        int at = r * QuasiRandom.MOST + i;
        double scale = scales == null ? 1 : scales[r * stride + i];
        double weight = scales != null && wide > 1 ? q.weight(at, wide) : 1;
        double z0 = 0;
        if (sdRad > 0) {
          z0 = wideTurn * q.z[0][at];
          weight *= Replicates.weight(q.z[0][at], wideTurn);
        }
        double rad = meanRad + scale * sdRad * z0;
        if (!fit.rectangular()) {
          weight *= Replicates.weight(q.z[1][at], wide);
        }
        // out by rotation alone is counted apart
        if (Math.abs(rad) <= limit) {
          weights[r] += weight;
          sums[r] += weight * outside(rad, z0, scale, q.z[1][at]);
        }
      }
    }
  }

  private double outside(double rad, double z0, double scale, double score1) {
    return fit.rectangular() ? rectangle(rad, z0, scale) : circles(rad, z0, scale, wide * score1);
  }

  private double rectangle(double rad, double z0, double scale) {
    fit.limits(wrapped(rad), limits);
    double mx = meanX + scale * slopeX * z0;
    double my = meanY + scale * slopeY * z0;
    double sx = scale * restX;
    double sy = scale * restY;
    return rectangles.outside(
        lower(limits[0] - mx, sx),
        upper(limits[1] - mx, sx),
        lower(limits[2] - my, sy),
        upper(limits[3] - my, sy));
  }

  /** The shift with less spread is drawn, the other is exact along its chord. */
  private double circles(double rad, double z0, double scale, double z1) {
    boolean exactX = restX >= restY;
    double drawnMean = exactX ? meanY + scale * slopeY * z0 : meanX + scale * slopeX * z0;
    double drawnSd = scale * (exactX ? restY : restX);
    double exactMean = exactX ? meanX + scale * slopeX * z0 : meanY + scale * slopeY * z0;
    double exactSd = scale * (exactX ? restX : restY);
    fit.chord(exactX, wrapped(rad), drawnMean + drawnSd * z1, limits);
    double m = exactMean + exactSd * restCorrelation * z1;
    double s = exactSd * Math.sqrt(Math.max(0, 1 - restCorrelation * restCorrelation));
    return NormalTail.outside(lower(limits[0] - m, s), upper(limits[1] - m, s));
  }

  private double wrapped(double rad) {
    return Math.abs(rad) > period / 2 ? Math.IEEEremainder(rad, period) : rad;
  }

  /** Lower limit in standard deviations; without spread all or nothing, the limit itself inside. */
  private static double lower(double distance, double sd) {
    if (sd > 0) {
      return distance / sd;
    }
    return distance <= 0 ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
  }

  private static double upper(double distance, double sd) {
    return -lower(-distance, sd);
  }
}
