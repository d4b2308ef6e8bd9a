package org.padtrue.firstarticle.next;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.fitted.TestList;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.land.LandFit;
import org.padtrue.land.risk.DeviationDistribution;
import org.padtrue.land.risk.Risk;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.mixed.VarianceFactor;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Level;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/**
 * How far the expected number outside moves with all that is not known: offsets and panel terms
 * together as their covariance says, registration of the panels measured, scatter of each type, and
 * how well registration repeats.
 *
 * <p>Possible truths are drawn (seeded); for each the expectation is summed; the interval holds the
 * middle 95 % of them. Placements that no likely truth brings outside are left out first.
 */
final class OutsideInterval {
  private static final int DRAWS = 100;

  /** Evaluations that one interval may cost; beyond, fewer truths are drawn. */
  private static final int BUDGET = 15_000;

  private static final int FEWEST = 30;
  private static final double NEVER = 1e-7;
  private static final double TWICE = 4;

  private final Fits fits;
  private final NextPanel next;
  private final Risk risk;
  private final Risk coarse = new Risk(true);
  private final VarianceFactor factors = new VarianceFactor();
  private final List<Spot> spots = new ArrayList<>();

  /**
   * A placement of the next panel.
   *
   * @param judge of its type
   * @param placement its row of the list
   * @param nominal panel frame
   * @param board its board
   * @param mean expected deviation, trims counted
   * @param all covariance of everything, as the probability took it: part frame
   */
  record Spot(
      LandFit judge,
      Placement placement,
      Pose nominal,
      BoardIndex board,
      Xyr mean,
      DeviationDistribution all) {}

  OutsideInterval(Fits fits, NextPanel next, Risk risk) {
    this.fits = fits;
    this.next = next;
    this.risk = risk;
  }

  void add(Spot s) {
    spots.add(s);
  }

  /** Ends of the interval, or null when nothing can come outside. */
  double[] ends() {
    List<Spot> near = new ArrayList<>();
    for (Spot s : spots) {
      if (!(risk.outside(s.judge(), s.all().withCovarianceTimes(TWICE)).value() < NEVER)) {
        near.add(s);
      }
    }
    if (near.isEmpty()) {
      return new double[] {0, 0};
    }
    int draws = Math.max(FEWEST, Math.min(DRAWS, BUDGET / near.size()));
    SplittableRandom random = new SplittableRandom(20_260_211L);
    double[] sums = new double[draws];
    for (int d = 0; d < draws; d++) {
      sums[d] = sum(near, truth(random));
    }
    Arrays.sort(sums);
    return new double[] {quantile(sums, 0.025), quantile(sums, 0.975)};
  }

  private static double quantile(double[] sorted, double p) {
    double at = p * (sorted.length - 1);
    int i = Math.min((int) at, sorted.length - 2);
    return sorted[i] + (at - i) * (sorted[i + 1] - sorted[i]);
  }

  /** One possible truth: errors of what was fitted, and factors of variances. */
  private record Truth(
      double[] coefficients,
      double[] registration,
      double between,
      Map<String, double[]> scatter,
      double zero,
      Map<Level, Double> rotations) {}

  private Truth truth(SplittableRandom random) {
    double[] z = new double[fits.position().coefficients()];
    for (int i = 0; i < z.length; i++) {
      z[i] = normal(random);
    }
    double[] more = next.registrationUncertainty();
    double[] reg = new double[3];
    for (int k = 0; k < 3; k++) {
      reg[k] = normal(random) * Math.sqrt(more[k]);
    }
    double between = fits.shiftX().given() ? 1 : factors.at(random.nextDouble(), betweenDf());
    double shared = random.nextDouble();
    double sharedTurn = random.nextDouble();
    Map<String, double[]> scatter = new HashMap<>();
    Map<Level, Double> rotations = new HashMap<>();
    var r = fits.rotation();
    double zero =
        r == null ? 0 : normal(random) * Math.sqrt(TestList.rotationZeroVariance(fits, r));
    for (Spot s : spots) {
      String part = s.placement().part();
      if (!scatter.containsKey(part)) {
        double df = next.scatterDegreesOfFreedom(part);
        double rdf = r == null ? Double.NaN : r.scatter().degreesOfFreedom(part);
        // Types that lean on the others err together.
        boolean leans = fits.position().scatter().leans(part);
        boolean turnLeans = r == null || r.scatter().leans(part);
        scatter.put(
            part,
            new double[] {
              factors.at(leans ? shared : random.nextDouble(), df),
              factors.at(turnLeans ? sharedTurn : random.nextDouble(), rdf)
            });
      }
      for (int k = 0; r != null && k < r.factors().size(); k++) {
        String level = r.factors().get(k).level(s.placement());
        int l = level == null ? -1 : r.level(k, level);
        int kk = k;
        rotations.computeIfAbsent(
            new Level(r.factors().get(k), String.valueOf(level)),
            x -> normal(random) * (l < 0 ? r.sd(kk) : r.offsetSe(kk, l)));
      }
    }
    return new Truth(fits.position().error(z), reg, between, scatter, zero, rotations);
  }

  private double betweenDf() {
    return org.padtrue.mixed.BatchRegistration.PRIOR_DF + 2.0 * (fits.panels().size() - 1);
  }

  private static double normal(SplittableRandom random) {
    double u = random.nextDouble();
    double v = random.nextDouble();
    return Math.sqrt(-2 * Math.log1p(-u)) * Math.cos(2 * Math.PI * v);
  }

  private double sum(List<Spot> near, Truth t) {
    double sum = 0;
    double[] reg = next.registrationVariance();
    double[] centre = fits.position().centroid();
    double rad = Math.toRadians(1);
    for (Spot s : near) {
      Placement p = s.placement();
      int[] level = next.levels(p);
      OffsetFit.Gradient g = next.gradient(s.nominal(), s.board().column(), s.board().row(), level);
      double px = s.nominal().xMm() - centre[0];
      double py = s.nominal().yMm() - centre[1];
      double dx = t.registration[0] - rad * t.registration[2] * py;
      double dy = t.registration[1] + rad * t.registration[2] * px;
      for (int i = 0; i < g.index().length; i++) {
        dx += g.x()[i] * known(t.coefficients[g.index()[i]]);
        dy += g.y()[i] * known(t.coefficients[g.index()[i]]);
      }
      double dr = t.zero + t.registration[2];
      var r = fits.rotation();
      for (int k = 0; r != null && k < r.factors().size(); k++) {
        String l = r.factors().get(k).level(p);
        dr += t.rotations.getOrDefault(new Level(r.factors().get(k), String.valueOf(l)), 0.0);
      }
      double[] v = next.scatter(p.part(), s.nominal().rotationDeg());
      double[] f = t.scatter.getOrDefault(p.part(), new double[] {1, 1});
      double[] unseen = next.unseen(p, level);
      double turn = rad * rad * reg[2] * t.between;
      double rot = Double.isNaN(s.mean().rotation()) ? 0 : next.rotationScatter(p.part()) * f[1];
      DeviationDistribution d =
          new DeviationDistribution(
                  s.mean().x() + dx,
                  s.mean().y() + dy,
                  s.mean().rotation() + dr,
                  v[0] * f[0] + unseen[0] + t.between * reg[0] + turn * py * py,
                  v[1] * f[0] + unseen[1] + t.between * reg[1] + turn * px * px,
                  rot + t.between * reg[2],
                  v[2] * f[0] - turn * px * py,
                  0,
                  0,
                  Double.POSITIVE_INFINITY)
              .inPartFrame(s.nominal().rotationDeg());
      double q = coarse.outside(s.judge(), d).value();
      sum += Double.isNaN(q) ? 0 : q;
    }
    return sum;
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }
}
