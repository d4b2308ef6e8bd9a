package org.padtrue.firstarticle.next;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.fitted.TestList;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.land.LandFit;
import org.padtrue.land.risk.DeviationDistribution;
import org.padtrue.land.risk.Risk;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.mixed.RotationFit;
import org.padtrue.mixed.VarianceFactor;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
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
    Unknowns unknown = new Unknowns();
    List<Near> near =
        spots.parallelStream().filter(this::mayBeOutside).map(s -> new Near(s, unknown)).toList();
    if (near.isEmpty()) {
      return new double[] {0, 0};
    }
    int draws = Math.max(FEWEST, Math.min(DRAWS, BUDGET / near.size()));
    SplittableRandom random = new SplittableRandom(20_260_211L);
    List<Truth> truths = new ArrayList<>();
    for (int d = 0; d < draws; d++) {
      truths.add(truth(random, unknown));
    }
    double[] sums = truths.parallelStream().mapToDouble(t -> sum(near, t)).sorted().toArray();
    return new double[] {quantile(sums, 0.025), quantile(sums, 0.975)};
  }

  private boolean mayBeOutside(Spot s) {
    return !(risk.outside(s.judge(), s.all().withCovarianceTimes(TWICE)).value() < NEVER);
  }

  private static double quantile(double[] sorted, double p) {
    double at = p * (sorted.length - 1);
    int i = Math.min((int) at, sorted.length - 2);
    return sorted[i] + (at - i) * (sorted[i + 1] - sorted[i]);
  }

  /**
   * One possible truth: errors of what was fitted, and factors of variances.
   *
   * @param scatter by part type: factors of the variance of position, of rotation
   * @param rotations by level of the rotation model, degrees
   */
  private record Truth(
      double[] coefficients,
      double[] registration,
      double between,
      double[][] scatter,
      double zero,
      double[] rotations) {}

  /** What is drawn beside the errors of the fit. */
  private sealed interface Draw {}

  /** Factors of the variances of one part type. */
  private record TypeDraw(double df, double turnDf, boolean leans, boolean turnLeans)
      implements Draw {}

  /** Error of one level of the rotation model, degrees. */
  private record LevelDraw(double sd) implements Draw {}

  /**
   * What is drawn beside the fit, in the order in which placements first ask for it, and what each
   * placement takes of it. The same for every truth.
   */
  private final class Unknowns {
    final Map<String, Integer> parts = new HashMap<>();
    final Map<Level, Integer> levels = new HashMap<>();

    final List<Draw> draws = new ArrayList<>();

    final @Nullable RotationFit rotation = fits.rotation();
    final double zeroSd;

    Unknowns() {
      RotationFit r = rotation;
      zeroSd = r == null ? 0 : Math.sqrt(TestList.rotationZeroVariance(fits, r));
      for (Spot s : spots) {
        String part = s.placement().part();
        if (parts.putIfAbsent(part, parts.size()) == null) {
          // Types that lean on the others err together.
          draws.add(
              new TypeDraw(
                  next.scatterDegreesOfFreedom(part),
                  r == null ? Double.NaN : r.scatter().degreesOfFreedom(part),
                  fits.position().scatter().leans(part),
                  r == null || r.scatter().leans(part)));
        }
        for (int k = 0; r != null && k < r.factors().size(); k++) {
          if (levels.putIfAbsent(level(r, k, s.placement()), levels.size()) == null) {
            String level = r.factors().get(k).level(s.placement());
            int l = level == null ? -1 : r.level(k, level);
            draws.add(new LevelDraw(l < 0 ? r.sd(k) : r.offsetSe(k, l)));
          }
        }
      }
    }

    private Level level(RotationFit r, int k, Placement p) {
      Factor f = r.factors().get(k);
      return new Level(f, String.valueOf(f.level(p)));
    }

    int[] levels(Placement p) {
      RotationFit r = rotation;
      int[] of = new int[r == null ? 0 : r.factors().size()];
      for (int k = 0; r != null && k < of.length; k++) {
        of[k] = levels.getOrDefault(level(r, k, p), -1);
      }
      return of;
    }
  }

  private Truth truth(SplittableRandom random, Unknowns unknown) {
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
    double zero = unknown.rotation == null ? 0 : normal(random) * unknown.zeroSd;
    double[][] scatter = new double[unknown.parts.size()][];
    double[] rotations = new double[unknown.levels.size()];
    int types = 0;
    int levels = 0;
    for (Draw draw : unknown.draws) {
      if (draw instanceof TypeDraw t) {
        scatter[types++] =
            new double[] {
              factors.at(t.leans() ? shared : random.nextDouble(), t.df()),
              factors.at(t.turnLeans() ? sharedTurn : random.nextDouble(), t.turnDf())
            };
      } else if (draw instanceof LevelDraw l) {
        rotations[levels++] = normal(random) * l.sd();
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

  /** A placement with all that is the same in every truth. */
  private final class Near {
    private final Spot spot;
    private final OffsetFit.Gradient gradient;
    private final double px;
    private final double py;
    private final int part;
    private final int[] levels;
    private final double[] scatter;
    private final double[] unseen;
    private final double rotationScatter;

    Near(Spot s, Unknowns unknown) {
      spot = s;
      Placement p = s.placement();
      int[] level = next.levels(p);
      gradient = next.gradient(s.nominal(), s.board().column(), s.board().row(), level);
      double[] centre = fits.position().centroid();
      px = s.nominal().xMm() - centre[0];
      py = s.nominal().yMm() - centre[1];
      part = unknown.parts.getOrDefault(p.part(), -1);
      levels = unknown.levels(p);
      scatter = next.scatter(p.part(), s.nominal().rotationDeg());
      unseen = next.unseen(p, level);
      rotationScatter = next.rotationScatter(p.part());
    }

    DeviationDistribution under(Truth t, double[] reg) {
      double rad = Math.toRadians(1);
      double dx = t.registration[0] - rad * t.registration[2] * py;
      double dy = t.registration[1] + rad * t.registration[2] * px;
      OffsetFit.Gradient g = gradient;
      for (int i = 0; i < g.index().length; i++) {
        dx += g.x()[i] * known(t.coefficients[g.index()[i]]);
        dy += g.y()[i] * known(t.coefficients[g.index()[i]]);
      }
      double dr = t.zero + t.registration[2];
      for (int l : levels) {
        dr += t.rotations[l];
      }
      double[] f = t.scatter[part];
      double turn = rad * rad * reg[2] * t.between;
      Xyr mean = spot.mean();
      double rot = Double.isNaN(mean.rotation()) ? 0 : rotationScatter * f[1];
      return new DeviationDistribution(
              mean.x() + dx,
              mean.y() + dy,
              mean.rotation() + dr,
              scatter[0] * f[0] + unseen[0] + t.between * reg[0] + turn * py * py,
              scatter[1] * f[0] + unseen[1] + t.between * reg[1] + turn * px * px,
              rot + t.between * reg[2],
              scatter[2] * f[0] - turn * px * py,
              0,
              0,
              Double.POSITIVE_INFINITY)
          .inPartFrame(spot.nominal().rotationDeg());
    }
  }

  private double sum(List<Near> near, Truth t) {
    double sum = 0;
    double[] reg = next.registrationVariance();
    for (Near n : near) {
      double q = coarse.outside(n.spot.judge(), n.under(t, reg)).value();
      sum += Double.isNaN(q) ? 0 : q;
    }
    return sum;
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }
}
