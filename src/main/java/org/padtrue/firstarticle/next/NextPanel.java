package org.padtrue.firstarticle.next;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.fitted.TestList;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.mixed.Contribution;
import org.padtrue.mixed.FactorEffect;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.mixed.RotationFit;
import org.padtrue.mixed.TypeScatter;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.quantity.Angles;
import org.padtrue.trim.Shrink;

/**
 * What the next panel is expected to show: systematic deviation and its covariance at a placement.
 *
 * <p>Scatter of placing, uncertainty of every fitted term, and registration from panel to panel are
 * kept apart, so that a reader of a probability can see what it rests on.
 */
public final class NextPanel {
  private final Fits fits;
  private final double shiftX;
  private final double shiftY;
  private final double keepShift;
  private final double keepTurn;

  /** What contributes on the next panel as it does on this one. */
  private final boolean[] coming;

  public NextPanel(Fits fits, TestList tests) {
    this.fits = fits;
    List<Contribution> all = fits.position().contributing();
    coming = new boolean[all.size()];
    for (int t = 0; t < coming.length; t++) {
      // the shift comes as the batch's, the order of placing not at all
      TermFamily f = all.get(t).family();
      coming[t] = f != TermFamily.SHIFT && f != TermFamily.SETTLING;
    }
    keepShift = tests.has(TermFamily.SHIFT) ? Shrink.factor(tests.t2(TermFamily.SHIFT), 2) : 1;
    keepTurn = tests.has(TermFamily.ROTATION) ? Shrink.factor(tests.t2(TermFamily.ROTATION), 1) : 1;
    shiftX = keepShift * fits.shiftX().mean();
    shiftY = keepShift * fits.shiftY().mean();
  }

  /**
   * Scatter of placing one placement of a type: covariance xx, yy, xy (mm^2), panel frame; NaN when
   * not known.
   */
  double[] scatter(String part, double thetaDeg) {
    TypeScatter t = fits.position().scatter();
    double v = t.placing(part);
    double[] a = t.axes(Angles.cosDeg(thetaDeg), Angles.sinDeg(thetaDeg));
    return new double[] {v * a[0], v * a[1], v * a[2]};
  }

  /** Degrees of freedom of the scatter of a type. */
  double scatterDegreesOfFreedom(String part) {
    return fits.position().scatter().degreesOfFreedom(part);
  }

  /** Variance of placing one rotation of a type, deg^2; NaN when none was measured. */
  double rotationScatter(String part) {
    RotationFit r = fits.rotation();
    return r == null ? Double.NaN : r.scatter().placing(part);
  }

  /** Variance of placing per axis, mean over the placements that were used, mm^2. */
  public double scatterVariance() {
    return mean(fits, fits.position().scatter());
  }

  /** Mean over the used placements of what placing scatters, measuring taken off. */
  public static double mean(Fits fits, TypeScatter scatter) {
    Map<String, Double> of = new HashMap<>();
    double sum = 0;
    for (Measured m : fits.used().rows()) {
      sum += of.computeIfAbsent(m.placement().part(), scatter::placing);
    }
    return sum / fits.used().size();
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  /** Registration variance from panel to panel: x, y (mm^2), rotation (deg^2). */
  public double[] registrationVariance() {
    return new double[] {
      known(fits.shiftX().between()), known(fits.shiftY().between()), known(fits.turn().between())
    };
  }

  /**
   * What the batch's own registration may be beside what is expected of it because the panels
   * measured were registered anew each: x, y (mm^2), rotation (deg^2).
   */
  public double[] registrationUncertainty() {
    double n = fits.panels().size();
    double[] v = registrationVariance();
    return new double[] {keepShift * v[0] / n, keepShift * v[1] / n, keepTurn * v[2] / n};
  }

  /** Levels of a placement in the position model. */
  int[] levels(Placement p) {
    OffsetFit f = fits.position();
    int[] level = new int[f.factors().size()];
    for (int k = 0; k < level.length; k++) {
      String name = f.factors().get(k).level(p);
      level[k] = name == null ? -1 : f.level(k, name);
    }
    return level;
  }

  /** Mean systematic deviation without trims; rotation NaN when none was measured. */
  public Xyr mean(Pose nominal, int column, int row, int[] level, Placement p) {
    OffsetFit f = fits.position();
    double x = shiftX;
    double y = shiftY;
    int n = f.panels();
    for (int k = 0; k < n; k++) {
      double[][] c =
          f.contributions(
              k, nominal.xMm(), nominal.yMm(), nominal.rotationDeg(), column, row, 0, level);
      for (int t = 0; t < c.length; t++) {
        if (coming[t]) {
          x += c[t][0] / n;
          y += c[t][1] / n;
        }
      }
    }
    return new Xyr(x, y, meanRotation(p));
  }

  private double meanRotation(Placement p) {
    RotationFit r = fits.rotation();
    if (r == null) {
      return Double.NaN;
    }
    double v = fits.turn().mean() + r.zero() + fits.zeroOrientation(p.part());
    for (int k = 0; k < r.factors().size(); k++) {
      String name = r.factors().get(k).level(p);
      int l = name == null ? -1 : r.level(k, name);
      v += l < 0 ? 0 : r.offset(k, l);
    }
    return v;
  }

  /**
   * Covariance of everything but scatter: parameters and registration.
   *
   * @return xx, xy, yy (mm^2), rotation (deg^2)
   */
  double[] fixedCovariance(Pose nominal, int column, int row, int[] level, Placement p) {
    double[] v = fits.position().covariance(gradient(nominal, column, row, level));
    double[] unseen = unseen(p, level);
    double[] reg = registrationVariance();
    double[] more = registrationUncertainty();
    for (int k = 0; k < 3; k++) {
      reg[k] += more[k];
    }
    double[] c = fits.position().centroid();
    double turn = Math.toRadians(1) * Math.toRadians(1) * reg[2];
    double px = nominal.xMm() - c[0];
    double py = nominal.yMm() - c[1];
    RotationFit r = fits.rotation();
    double rot = 0;
    if (r != null) {
      rot = TestList.rotationZeroVariance(fits, r) + reg[2];
      for (int k = 0; k < r.factors().size(); k++) {
        String name = r.factors().get(k).level(p);
        int l = name == null ? -1 : r.level(k, name);
        rot += l < 0 ? r.sd(k) * r.sd(k) : r.offsetSe(k, l) * r.offsetSe(k, l);
      }
    }
    return new double[] {
      v[0] + unseen[0] + reg[0] + turn * py * py,
      v[1] - turn * px * py,
      v[2] + unseen[1] + reg[1] + turn * px * px,
      rot
    };
  }

  OffsetFit.Gradient gradient(Pose nominal, int column, int row, int[] level) {
    return fits.position()
        .gradient(nominal.xMm(), nominal.yMm(), nominal.rotationDeg(), column, row, level);
  }

  /** Spread that levels bring of which nothing was measured: x, y, mm^2; the wider for both. */
  double[] unseen(Placement p, int[] level) {
    double v = 0;
    List<FactorEffect> effects = fits.position().effects();
    for (int k = 0; k < level.length; k++) {
      FactorEffect e = effects.get(k);
      if (level[k] < 0 && e.factor().level(p) != null) {
        v += Math.max(e.sdX() * e.sdX(), e.sdY() * e.sdY());
      }
    }
    return new double[] {v, v};
  }
}
