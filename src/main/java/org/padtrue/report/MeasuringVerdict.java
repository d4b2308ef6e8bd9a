package org.padtrue.report;

import org.jspecify.annotations.Nullable;
import org.padtrue.analysis.FirstArticleResult;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Tolerance;

/**
 * Is the measuring good enough to decide anything?
 *
 * <p>Two readings: the share of the measuring in the variance of the residuals, and, where a part
 * type has a tolerance, the expanded uncertainty (k = 2) against the tightest. A tenth of the
 * tolerance is good, three tenths the most one can work with: common practice, from memory.
 *
 * @param grade good, fair, poor or unknown
 * @param sentence for people
 */
record MeasuringVerdict(Grade grade, String sentence) {
  /** How good. */
  enum Grade {
    GOOD,
    FAIR,
    POOR,
    UNKNOWN
  }

  private static final double GOOD_SHARE = 0.3;
  private static final double POOR_SHARE = 0.7;
  private static final double GOOD_OF_TOLERANCE = 0.1;
  private static final double POOR_OF_TOLERANCE = 0.3;
  private static final double COVERAGE = 2;

  static MeasuringVerdict of(FirstArticleResult r) {
    double u = r.scatter().measuringSd();
    double residual = r.scatter().residualSd();
    if (!(u >= 0)) {
      return new MeasuringVerdict(
          Grade.UNKNOWN,
          "not known: the job states no measurement.uncertainty, so the scatter below includes the"
              + " measuring; a gauge study would tell");
    }
    if (residual > 0 && u > 1.1 * residual) {
      return new MeasuringVerdict(
          Grade.UNKNOWN,
          "the stated uncertainty of "
              + Show.um(u)
              + " um is more than all the scatter seen ("
              + Show.um(residual)
              + " um): it is stated too large, a gauge study would tell");
    }
    double share = residual > 0 ? Math.min(1, u * u / (residual * residual)) : Double.NaN;
    double tolerance = tightest(r);
    double ofTolerance = COVERAGE * u / tolerance;
    Grade grade = worse(grade(share, GOOD_SHARE, POOR_SHARE), ofTolerance);
    return new MeasuringVerdict(grade, sentence(grade, u, residual, share, tolerance));
  }

  private static String sentence(
      Grade grade, double u, double residual, double share, double tolerance) {
    String word =
        switch (grade) {
          case GOOD -> "good enough";
          case FAIR -> "usable";
          case POOR -> "too coarse: measure better before chasing small offsets";
          case UNKNOWN -> "cannot be judged";
        };
    StringBuilder b = new StringBuilder(word).append("; ").append(Show.um(u)).append(" um");
    if (Double.isFinite(share)) {
      b.append(" is ").append(Show.percent(share)).append(" of the variance of ");
      b.append(Show.um(residual)).append(" um left by the fit");
    }
    if (Double.isFinite(tolerance)) {
      b.append(", twice it is ").append(Show.percent(COVERAGE * u / tolerance));
      b.append(" of the tightest tolerance");
    }
    return b.toString();
  }

  private static Grade worse(Grade g, double ofTolerance) {
    Grade t = grade(ofTolerance, GOOD_OF_TOLERANCE, POOR_OF_TOLERANCE);
    if (t == Grade.UNKNOWN || g == Grade.UNKNOWN) {
      return t == Grade.UNKNOWN ? g : t;
    }
    return t.compareTo(g) > 0 ? t : g;
  }

  private static Grade grade(double share, double good, double poor) {
    if (!Double.isFinite(share)) {
      return Grade.UNKNOWN;
    }
    return share <= good ? Grade.GOOD : share <= poor ? Grade.FAIR : Grade.POOR;
  }

  private static double tightest(FirstArticleResult r) {
    double least = Double.NaN;
    for (Placement p : r.job().placements()) {
      PartType type = r.job().partType(p.part());
      @Nullable Tolerance t = type.tolerance();
      if (t != null) {
        double v = Math.min(t.xMm(), t.yMm());
        least = Double.isNaN(least) ? v : Math.min(least, v);
      }
    }
    return least;
  }
}
