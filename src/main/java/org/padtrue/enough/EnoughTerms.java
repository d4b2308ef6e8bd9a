package org.padtrue.enough;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.next.PartReach;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.FamilyTest;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.VarianceLine;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.numeric.Tails;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Level;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Stage;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.trim.DeadBand;

/** Reads the numbers that may still change out of an analysis. */
final class EnoughTerms {
  /**
   * Spreads that common practice has (from memory), for panel terms that cannot be tested yet:
   * rotation 0.1 degrees, scale 500 ppm, squareness 0.5 mrad, array 0.03 mm a step.
   */
  private static final double[] USUAL = {0.1, 500, 0.5, 0.03};

  private static final double LEVEL = 0.05;

  /** A smaller p says no more than this one, and 1 - p could not hold it. */
  private static final double LEAST_P = 1e-12;

  private final FirstArticleResult r;
  private final Job job;
  private final EnoughPanel panel;
  private final double sd;
  private final double df;
  private final DeadBand band;
  private final DeadBand turnBand;
  private final PartReach reach;
  private final int placements;
  private final double settleMm;
  private final boolean onlySelfCentring;

  /**
   * Reads an analysis.
   *
   * @param settleMm what may still change of a number when it counts as settled, one standard
   *     deviation as the root mean square over the placements of a panel, mm
   */
  EnoughTerms(FirstArticleResult r, Job job, EnoughPanel panel, double settleMm) {
    this.settleMm = settleMm;
    this.r = r;
    this.job = job;
    this.panel = panel;
    sd = r.scatter().residualSd();
    df = Math.max(1, r.scatter().degreesOfFreedom());
    var parts = panel.levels.getOrDefault(Factor.PART, Map.of()).keySet();
    band = DeadBand.of(job.machine().resolutionMm(), job.measurement().biasMm());
    turnBand = DeadBand.of(job.machine().rotationResolutionDeg(), 0);
    reach = new PartReach(job);
    placements = Math.max(1, panel.used + panel.left);
    onlySelfCentring =
        job.stage() == Stage.REFLOWED
            && parts.stream().allMatch(p -> job.partType(p).selfCentres());
  }

  /** Families with their chances; none where more measuring cannot tell more. */
  List<EnoughFamily> families() {
    List<EnoughFamily> out = new ArrayList<>();
    if (!onlySelfCentring && sd > 0) {
      if (r.batchTrim().shift().decision() != Decision.CANNOT_TELL) {
        out.add(draw(shift(), TermFamily.SHIFT));
        out.add(draw(rotation(), TermFamily.ROTATION));
      }
      if (r.batchTrim().scale().decision() != Decision.CANNOT_TELL
          && job.measurement().reference() == Reference.FIDUCIALS) {
        out.add(draw(scale(), TermFamily.SCALE));
      }
      if (job.array().columns() * job.array().rows() > 1
          && job.measurement().reference() != Reference.MACHINE) {
        EnoughFixed array = array();
        if (array != null) {
          out.add(draw(array, TermFamily.ARRAY));
        }
      }
      FirstArticleResult.Common c = r.common();
      if (c != null) {
        out.add(draw(common(c), TermFamily.COMMON));
      }
      FirstArticleResult.RotationZero z = r.rotationZero();
      if (z != null) {
        out.add(draw(zero(z), TermFamily.ROTATION_ZERO));
      }
    }
    for (Factor factor : Factor.carried()) {
      out.addAll(levels(factor));
    }
    return out;
  }

  private EnoughFamily draw(EnoughFixed f, TermFamily family) {
    boolean zero = family == TermFamily.ROTATION_ZERO;
    return f.draw(zero ? panel.turned : panel.used, panel.left, df, settleMm);
  }

  private @Nullable FamilyTest test(String family) {
    for (FamilyTest t : r.tests()) {
      if (t.family().equals(family)) {
        return t;
      }
    }
    return null;
  }

  /** Level at which Benjamini-Hochberg would let this family pass beside those that do today. */
  private double alpha(TermFamily family) {
    return alpha(family.key());
  }

  private double alpha(String family) {
    int others = 0;
    for (FamilyTest t : r.tests()) {
      others += t.passes() && !t.family().equals(family) ? 1 : 0;
    }
    return LEVEL * (others + 1) / Math.max(others + 1, r.tests().size());
  }

  private double mean(ToDoubleFunction<PanelResult> of) {
    return r.panels().stream().mapToDouble(of).average().orElse(Double.NaN);
  }

  /** Standard error of the mean over panels. */
  private double se(ToDoubleFunction<PanelResult> of) {
    double v = 0;
    for (PanelResult p : r.panels()) {
      v += of.applyAsDouble(p) * of.applyAsDouble(p);
    }
    return Math.sqrt(v) / r.panels().size();
  }

  private double between(String axis) {
    for (VarianceLine v : r.variances()) {
      if (v.source().equals(TrimKind.REGISTRATION.key()) && v.axis().equals(axis)) {
        return v.sd() * v.sd() / r.panels().size();
      }
    }
    return 0;
  }

  /** Root mean square over a panel's placements of a slope of one unit along some axes. */
  private double slopeEffect(double unit, int... axes) {
    double sum = 0;
    for (int k : axes) {
      sum += panel.spreadAll[k];
    }
    return unit * Math.sqrt(sum / placements);
  }

  /** What a turn of one degree moves at the farthest edge of a part, RMS over some types, mm. */
  private double turnEffect(Iterable<String> parts) {
    double sum = 0;
    int n = 0;
    for (String p : parts) {
      double r = Math.toRadians(reach.of(p));
      sum += r * r;
      n++;
    }
    return n == 0 ? 0 : Math.sqrt(sum / n);
  }

  private static double[] same(double v, int n) {
    double[] a = new double[n];
    java.util.Arrays.fill(a, v);
    return a;
  }

  private EnoughFixed shift() {
    double share = panel.used / (double) (panel.used + panel.left);
    return new EnoughFixed(
        TrimKind.REGISTRATION.key(),
        List.of(FixedTerm.SHIFT_X.label(), FixedTerm.SHIFT_Y.label()),
        new String[] {"mm", "mm"},
        new double[][] {
          {mean(p -> p.shiftAtCentroid().x()), mean(p -> p.shiftAtCentroid().y())},
          {se(p -> p.shiftAtCentroidSe().x()), se(p -> p.shiftAtCentroidSe().y())},
          same(share, 2),
          {1, 1},
          same(job.machine().resolutionMm(), 2),
          {between("x"), between("y")}
        },
        same(1, 2),
        band.halfWidth(),
        alpha(TermFamily.SHIFT),
        false);
  }

  /** Slopes: estimate where in the model, else what the test that would let it in says of it. */
  private double[][] slope(
      TermFamily family, double[] estimate, double[] se, double[] design, double[] usual) {
    int d = estimate.length;
    boolean in = true;
    for (double s : se) {
      in &= s > 0;
    }
    if (in) {
      return new double[][] {estimate, se};
    }
    double[] now = new double[d];
    double[] s = new double[d];
    for (int k = 0; k < d; k++) {
      s[k] =
          Double.isInfinite(design[k])
              ? usual[k]
              : design[k] * usual[k] / Math.hypot(design[k], usual[k]);
    }
    FamilyTest t = test(family.key());
    double p = t == null ? Double.NaN : t.p();
    if (p > 0 && p < 1) {
      // Only its length is known: it is laid along the first component.
      now[0] = s[0] * Math.sqrt(Tails.chiSquareQuantile(1 - Math.max(p, LEAST_P), d));
    }
    return new double[][] {now, s};
  }

  private EnoughFixed rotation() {
    double in = panel.spread[0] + panel.spread[1];
    double share = panel.share(in, panel.spreadAll[0] + panel.spreadAll[1]);
    double arm = Math.toRadians(1) * panel.farthestMm;
    double[][] e =
        slope(
            TermFamily.ROTATION,
            new double[] {mean(p -> p.transform().rotation())},
            new double[] {se(p -> p.standardErrors().rotation())},
            new double[] {Math.toDegrees(sd / Math.sqrt(in))},
            new double[] {USUAL[0]});
    return new EnoughFixed(
        TrimKind.ROTATION.key(),
        List.of(FixedTerm.ROTATION.label()),
        new String[] {"deg"},
        new double[][] {
          e[0],
          e[1],
          {share},
          {arm},
          {job.machine().panelRotationResolutionDeg()},
          {between("rotation")}
        },
        new double[] {slopeEffect(Math.toRadians(1), 0, 1)},
        band.halfWidth(),
        alpha(TermFamily.ROTATION),
        true);
  }

  private EnoughFixed scale() {
    double[] a = panel.spread;
    double[] all = panel.spreadAll;
    double h = panel.farthestMm;
    double sx = sd / Math.sqrt(a[0]);
    double sy = sd / Math.sqrt(a[1]);
    double[][] e =
        slope(
            TermFamily.SCALE,
            new double[] {
              mean(p -> p.transform().scaleXPpm()),
              mean(p -> p.transform().scaleYPpm()),
              mean(p -> p.transform().squarenessMrad())
            },
            new double[] {
              se(p -> p.standardErrors().scaleXPpm()),
              se(p -> p.standardErrors().scaleYPpm()),
              se(p -> p.standardErrors().squarenessMrad())
            },
            new double[] {1e6 * sx, 1e6 * sy, 1e3 * Math.hypot(sx, sy)},
            new double[] {USUAL[1], USUAL[1], USUAL[2]});
    double shareX = panel.share(a[0], all[0]);
    double shareY = panel.share(a[1], all[1]);
    return new EnoughFixed(
        TrimKind.SCALE.key(),
        List.of(FixedTerm.SCALE_X.label(), FixedTerm.SCALE_Y.label(), FixedTerm.SQUARENESS.label()),
        new String[] {"ppm", "ppm", "mrad"},
        new double[][] {
          e[0],
          e[1],
          {shareX, shareY, Math.min(shareX, shareY)},
          {1e-6 * h, 1e-6 * h, 1e-3 * h},
          {1, 1, 0.001},
          {0, 0, 0}
        },
        new double[] {slopeEffect(1e-6, 0), slopeEffect(1e-6, 1), slopeEffect(1e-3, 1)},
        band.halfWidth(),
        alpha(TermFamily.SCALE),
        true);
  }

  private @Nullable EnoughFixed array() {
    ArrayError found = r.panels().get(0).array();
    List<String> names = new ArrayList<>();
    int[] counts = {job.array().columns(), job.array().rows()};
    double[][] values =
        found == null
            ? new double[2][2]
            : new double[][] {
              {found.perColumn().x(), found.perColumn().y()},
              {found.perRow().x(), found.perRow().y()}
            };
    double[][] errors =
        found == null
            ? new double[2][2]
            : new double[][] {
              {found.perColumnSe().x(), found.perColumnSe().y()},
              {found.perRowSe().x(), found.perRowSe().y()}
            };
    List<double[]> rows = new ArrayList<>();
    for (int k = 0; k < 2; k++) {
      for (int axis = 0; axis < 2 && counts[k] > 1; axis++) {
        names.add(
            TermFamily.ARRAY.key() + (k == 0 ? " column " : " row ") + (axis == 0 ? "x" : "y"));
        // Within-board spread tells a step from a stretch; about half of what the rows carry.
        double design = sd * Math.sqrt(2 / panel.spread[2 + k]);
        rows.add(
            new double[] {
              values[k][axis],
              errors[k][axis],
              design,
              panel.share(panel.spread[2 + k], panel.spreadAll[2 + k]),
              counts[k] - 1,
              slopeEffect(1, 2 + k)
            });
      }
    }
    int d = rows.size();
    if (d == 0) {
      return null;
    }
    double[][] column = new double[6][d];
    for (int i = 0; i < d; i++) {
      for (int k = 0; k < 6; k++) {
        column[k][i] = rows.get(i)[k];
      }
    }
    double[][] e = slope(TermFamily.ARRAY, column[0], column[1], column[2], same(USUAL[3], d));
    double[] steps = column[5];
    String[] units = new String[d];
    java.util.Arrays.fill(units, "mm");
    return new EnoughFixed(
        TrimKind.ARRAY.key(),
        names,
        units,
        new double[][] {e[0], e[1], column[3], column[4], same(0, d), same(0, d)},
        steps,
        band.halfWidth(),
        alpha(TermFamily.ARRAY),
        true);
  }

  /** Share of a level mean's information: the spread between types stays, scatter averages out. */
  private static double share(double se, double scatter, int n, int left) {
    double goes = scatter * scatter * (1.0 / Math.max(1, n) - 1.0 / Math.max(1, n + left));
    double least = n / (double) Math.max(1, n + left);
    return se > 0 ? Math.min(1, Math.max(least, 1 - goes / (se * se))) : 1;
  }

  private EnoughFixed common(FirstArticleResult.Common c) {
    double[] share = {
      share(c.standardErrors().x(), sd, panel.used, panel.left),
      share(c.standardErrors().y(), sd, panel.used, panel.left)
    };
    return new EnoughFixed(
        TrimKind.COMMON.key(),
        List.of(TermFamily.COMMON.along(OffsetAxis.X), TermFamily.COMMON.along(OffsetAxis.Y)),
        new String[] {"mm", "mm"},
        new double[][] {
          {c.value().x(), c.value().y()},
          {c.standardErrors().x(), c.standardErrors().y()},
          share,
          {1, 1},
          same(job.machine().resolutionMm(), 2),
          {0, 0}
        },
        same(1, 2),
        band.halfWidth(),
        alpha(TermFamily.COMMON),
        false);
  }

  private EnoughFixed zero(FirstArticleResult.RotationZero z) {
    double share =
        share(z.standardError(), r.scatter().residualSdRotation(), panel.turned, panel.left);
    return new EnoughFixed(
        TrimKind.ROTATION_ZERO.key(),
        List.of(FixedTerm.ROTATION_ZERO.label()),
        new String[] {"deg"},
        new double[][] {
          {z.value()},
          {z.standardError()},
          {share},
          {1},
          {job.machine().rotationResolutionDeg()},
          {0}
        },
        new double[] {turnEffect(panel.levels.getOrDefault(Factor.PART, Map.of()).keySet())},
        turnBand.halfWidth(),
        alpha(TermFamily.ROTATION_ZERO),
        false);
  }

  private List<EnoughFamily> levels(Factor factor) {
    Map<String, EnoughPanel.Count> counts = panel.levels.get(factor);
    if (counts == null || counts.size() < 2) {
      return List.of();
    }
    List<Factor> asked = r.options().random();
    if (asked != null && !asked.contains(factor)) {
      return List.of();
    }
    Map<String, GroupResult> groups = new HashMap<>();
    Map<String, GroupResult> second = new HashMap<>();
    boolean inModel = false;
    boolean twice = false;
    for (GroupResult g : r.groups()) {
      if (g.factor() == factor) {
        (groups.containsKey(g.level()) ? second : groups).put(g.level(), g);
        inModel |= g.trim().decision() != Decision.CANNOT_TELL;
        twice |= g.count() > 1;
      }
    }
    if (!inModel && twice && groups.size() == counts.size()) {
      // Every level is seen and still another term does the same: more of it tells no more.
      return List.of();
    }
    List<EnoughFamily> out = new ArrayList<>();
    for (Map<String, GroupResult> g :
        second.isEmpty() ? List.of(groups) : List.of(groups, second)) {
      out.add(axis(factor, OffsetAxis.X, counts, g));
      out.add(axis(factor, OffsetAxis.Y, counts, g));
    }
    if (r.rotationZero() != null && r.scatter().residualSdRotation() > 0) {
      out.add(axis(factor, OffsetAxis.ROTATION, counts, groups));
    }
    return out;
  }

  private EnoughFamily axis(
      Factor factor,
      OffsetAxis axis,
      Map<String, EnoughPanel.Count> counts,
      Map<String, GroupResult> groups) {
    boolean turn = axis == OffsetAxis.ROTATION;
    MeasuringPlanOptions usual = MeasuringPlanOptions.withDefaults();
    double spread = turn ? usual.offsetSdRotationDeg() : usual.spreadMm(factor);
    double step = turn ? job.machine().rotationResolutionDeg() : job.machine().resolutionMm();
    String source =
        groups.values().stream()
            .findFirst()
            .map(g -> GroupResult.source(g, r.groups()))
            .orElse(factor.key());
    String family = source + " " + axis.key();
    int size = counts.size();
    double[] mean = new double[size];
    double[] scatter2 = new double[size];
    int[] n = new int[size];
    int[] all = new int[size];
    List<EnoughLevels.Today> today = new ArrayList<>();
    int l = 0;
    for (Map.Entry<String, EnoughPanel.Count> e : counts.entrySet()) {
      EnoughPanel.Count c = e.getValue();
      GroupResult g = groups.get(e.getKey());
      double m = g == null ? Double.NaN : along(g.leastSquares(), axis);
      if (turn && r.rotationZero() != null) {
        m -= r.rotationZero().value();
      } else if (g != null && g.frame().equals("part") && r.common() != null) {
        // The least-squares mean of a level still holds the common offset.
        m -= axis == OffsetAxis.X ? r.common().value().x() : r.common().value().y();
      }
      n[l] = Double.isNaN(m) ? 0 : turn ? c.turned : c.measured;
      mean[l] = m;
      all[l] = Math.max(n[l], turn ? c.turnable : c.available);
      double scatter = scatter(factor, e.getKey(), turn);
      scatter2[l] = scatter * scatter;
      today.add(today(factor, e.getKey(), axis, g, c));
      l++;
    }
    EnoughLevels levels = new EnoughLevels(mean, n, all, scatter2, spread, alpha(family));
    EnoughLevels.Drawn drawn = levels.draw(today, step, df, Enough.SEED + family.hashCode());
    List<EnoughTerm> terms = new ArrayList<>();
    Map<String, Integer> more = new LinkedHashMap<>();
    for (int k = 0; k < size; k++) {
      EnoughLevels.Today t = today.get(k);
      Level of = new Level(factor, t.level());
      String key = of.toString();
      terms.add(
          new EnoughTerm(
              key + " " + axis.key() + source.substring(factor.key().length()),
              key,
              of,
              t.offset(),
              Tails.t(0.95, df) * drawn.sd()[k],
              turn ? "deg" : "mm",
              drawn.movesMm()[k],
              n[k],
              all[k]));
      more.put(key, levels.more(k, settleMm / drawn.movesMm()[k]));
    }
    return new EnoughFamily(terms, drawn.moves(), more);
  }

  /** Scatter of one placement of a level, measuring included, mm or degrees. */
  private double scatter(Factor factor, String level, boolean turn) {
    if (factor == Factor.PART) {
      return turn ? r.scatter().residualSdRotation(level) : r.scatter().residualSd(level);
    }
    return turn ? r.scatter().residualSdRotation() : sd;
  }

  private EnoughLevels.Today today(
      Factor factor,
      String level,
      OffsetAxis axis,
      @Nullable GroupResult g,
      EnoughPanel.Count count) {
    boolean turn = axis == OffsetAxis.ROTATION;
    List<String> parts = factor == Factor.PART ? List.of(level) : partsOf(factor, level);
    double width = (turn ? turnBand : band).halfWidth();
    double offset = g == null ? 0 : known(along(g.offset(), axis));
    double plus = 0;
    if (turn && factor == Factor.PART && r.rotationZero() != null) {
      plus =
          r.batchTrim().rotationZero().decision() == Decision.TRIM ? 0 : r.rotationZero().value();
    }
    boolean fixed =
        job.stage() == Stage.REFLOWED && factor == Factor.PART && job.partType(level).selfCentres();
    double share = Math.sqrt(count.available / (double) placements);
    double effect = share * (turn ? turnEffect(parts) : 1);
    return new EnoughLevels.Today(level, offset, plus, width, effect, fixed);
  }

  private List<String> partsOf(Factor factor, String level) {
    List<String> parts = new ArrayList<>();
    for (var p : job.placements()) {
      if (level.equals(factor.level(p)) && !parts.contains(p.part())) {
        parts.add(p.part());
      }
    }
    return parts;
  }

  private static double along(Xyr v, OffsetAxis axis) {
    return switch (axis) {
      case X -> v.x();
      case Y -> v.y();
      default -> v.rotation();
    };
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }
}
