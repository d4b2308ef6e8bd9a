package org.padtrue.firstarticle.decide;

import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.next.PartReach;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.mixed.FactorEffect;
import org.padtrue.mixed.RotationFit;
import org.padtrue.panel.Job;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.OffsetFrame;

/** What entering the trim of a level takes out of the next panel, and how sure it is. */
final class FoldingTerms {
  /** The least share of a level's mean that a prediction keeps, for taking the shrinkage back. */
  private static final double LEAST_KEEP = 0.05;

  private final Fits fits;
  private final PartReach reach;

  FoldingTerms(Job job, Fits fits) {
    reach = new PartReach(job);
    this.fits = fits;
  }

  /**
   * A candidate.
   *
   * @param key the level
   * @param seen its offset: mm, mm, degrees
   * @param trim what would be entered
   * @param turn the small rotation in it, degrees
   * @param kept never folded
   */
  Folding.Term<LevelKey> term(LevelKey key, Xyr seen, Xyr trim, double turn, boolean kept) {
    double gain = 0;
    double share = 0;
    LevelColumn f = fits.used().factors().get(key.factor());
    if (f != null) {
      int l = f.levels().indexOf(key.level());
      int n = fits.used().size();
      for (int i = 0; i < n; i++) {
        if (f.level()[i] == l) {
          share += 1.0 / n;
          double arc = Math.toRadians(1) * reach.of(fits.used().rows().get(i).placement().part());
          gain += arc * arc * drop(seen.rotation(), turn) / n;
        }
      }
    }
    gain += share * (drop(seen.x(), trim.x()) + drop(seen.y(), trim.y()));
    return new Folding.Term<>(key, key.factor(), Math.max(0, gain), z(key), kept);
  }

  private static double drop(double seen, double trim) {
    return seen * seen - (seen + trim) * (seen + trim);
  }

  /** Estimates over their standard errors with the shrinkage taken back; NaN where not known. */
  private double[] z(LevelKey key) {
    double[] z = {Double.NaN, Double.NaN, Double.NaN};
    for (Fits.Part p : fits.parts(key.factor())) {
      @Nullable FactorEffect e = p.effect();
      if (p.frame() == key.frame() && e != null) {
        int l = e.levels().indexOf(key.level());
        z[0] = z(e.x()[l], e.seX()[l], e.sdX());
        z[1] = z(e.y()[l], e.seY()[l], e.sdY());
      }
    }
    RotationFit r = fits.rotation();
    int k = r == null ? -1 : r.factors().indexOf(key.factor());
    if (r != null && k >= 0 && key.frame() == OffsetFrame.PART) {
      int l = r.level(k, key.level());
      if (l >= 0) {
        // Its own, not what all levels share: that says nothing of one of them.
        z[2] = z(r.offset(k, l), r.offsetSe(k, l), r.sd(k));
      }
    }
    return z;
  }

  private static double z(double blup, double se, double tau) {
    if (!(tau > 0) || !(se > 0)) {
      return Double.NaN;
    }
    // BLUP = k mean, its error variance = k s^2, k = tau^2 / (tau^2 + s^2), s of the mean alone.
    double keep = Math.max(LEAST_KEEP, 1 - se * se / (tau * tau));
    return blup / (se * Math.sqrt(keep));
  }
}
