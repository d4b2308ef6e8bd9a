package org.padtrue.firstarticle.next;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.ArticleSet;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.NextPlacement;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.fit.Finding;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LandFit;
import org.padtrue.land.PartFrame;
import org.padtrue.land.risk.DeviationDistribution;
import org.padtrue.land.risk.ExpectedOutside;
import org.padtrue.land.risk.Risk;
import org.padtrue.numeric.Probability;
import org.padtrue.numeric.Tails;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Tolerance;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.panel.article.MeasuredFault;

/** Every nominal placement of every panel: deviation, residual, margin, risk, verdict. */
public final class PlacementTable {
  private final Job job;
  private final ArticleSet set;
  private final Fits fits;
  private final TrimField field;
  private final NextPanel next;
  private final AnalysisOptions options;
  private final Map<String, LandFit> judges = new ConcurrentHashMap<>();
  private final Map<String, Tolerance> allowed = new HashMap<>();
  private final Risk risk = new Risk();
  private final Map<String, double[]> riskOf = new HashMap<>();
  private final List<PlacementResult> results = new ArrayList<>();
  private final List<Excluded> excluded = new ArrayList<>();
  private final List<String> missing = new ArrayList<>();
  private final Map<String, NextPlacement> comingUp = new LinkedHashMap<>();
  private final OutsideInterval before;
  private final OutsideInterval after;
  private int faultsOutside;
  private final List<Probability> beforeRisk = new ArrayList<>();
  private final List<Probability> afterRisk = new ArrayList<>();

  public PlacementTable(
      Job job,
      ArticleSet set,
      Fits fits,
      TrimField field,
      NextPanel next,
      AnalysisOptions options) {
    this.job = job;
    this.set = set;
    this.fits = fits;
    this.field = field;
    this.next = next;
    this.options = options;
    before = new OutsideInterval(fits, next, risk);
    after = new OutsideInterval(fits, next, risk);
    build();
  }

  public List<PlacementResult> results() {
    return results;
  }

  public List<Excluded> excluded() {
    return excluded;
  }

  public List<String> missing() {
    return missing;
  }

  /** What is expected of every placement with the trims entered; empty without scatter. */
  public List<NextPlacement> next() {
    return List.copyOf(comingUp.values());
  }

  /**
   * Expected number outside on the next panel.
   *
   * @param trimmed with the trims entered, or without
   * @return null when nothing is judged
   */
  public @Nullable ExpectedOutside expectedOutside(boolean trimmed) {
    double df = fits.position().degreesOfFreedom();
    if (beforeRisk.isEmpty() || !(df > 0)) {
      return null;
    }
    double sum = 0;
    double error = 0;
    for (Probability p : trimmed ? afterRisk : beforeRisk) {
      sum += p.value();
      error += p.standardError();
    }
    double[] ends = (trimmed ? after : before).ends();
    // A fault that was left out of the fit may come again; a transcription error cannot.
    double again = faultsOutside / (double) set.table().panels().size();
    double low = Math.min(ends[0], sum);
    double high = Math.max(ends[1], sum);
    if (again > 0) {
      double n = set.table().panels().size();
      low += 0.5 * Tails.chiSquareQuantile(0.025, 2 * again * n) / n;
      high += 0.5 * Tails.chiSquareQuantile(0.975, 2 * again * n + 2) / n;
    }
    return new ExpectedOutside(sum + again, low, high, error, beforeRisk.size());
  }

  LandFit judge(String part) {
    return judges.computeIfAbsent(
        part,
        p -> LandFit.of(job.partType(p), AcceptanceLimits.published(), job.acceptanceClass()));
  }

  /** Deviation that a part type may have either way, axis by axis; NaN where not judged. */
  Tolerance allowed(String part) {
    return allowed.computeIfAbsent(part, p -> judge(p).allowed());
  }

  private void build() {
    DeviationTable all = set.table();
    Map<String, Map<String, Integer>> rowOf = new HashMap<>();
    for (int i = 0; i < all.size(); i++) {
      Measured m = all.rows().get(i);
      rowOf.computeIfAbsent(m.panel(), k -> new HashMap<>()).put(m.id(), i);
    }
    Map<String, MeasuredFault> faults = new HashMap<>();
    set.faults().forEach(f -> faults.put(f.panel() + " " + f.id(), f));
    int[] usedAt = new int[all.size()];
    java.util.Arrays.fill(usedAt, -1);
    for (int k = 0; k < fits.usedRow().length; k++) {
      usedAt[fits.usedRow()[k]] = k;
    }
    boolean first = true;
    for (String panel : all.panels()) {
      Map<String, Integer> rows = rowOf.getOrDefault(panel, Map.of());
      for (Board board : job.array().boards()) {
        for (Placement p : job.placements()) {
          String id = board.index() + "/" + p.ref();
          Integer i = rows.get(id);
          Pose nominal = p.pose().seenFrom(board.origin());
          double[] prob = riskOf.computeIfAbsent(id, k -> risk(nominal, board.index(), p));
          MeasuredFault fault = faults.get(panel + " " + id);
          if (i == null && fault != null) {
            results.add(marked(fault, prob));
          } else if (i == null) {
            results.add(notMeasured(panel, board.index(), p, nominal, prob));
            if (first) {
              missing.add(id);
            }
          } else {
            results.add(measured(i, usedAt[i], prob));
          }
        }
      }
      first = false;
    }
  }

  private double[] risk(Pose nominal, BoardIndex board, Placement p) {
    LandFit judge = judge(p.part());
    if (!(fits.position().degreesOfFreedom() > 0)) {
      return new double[] {Double.NaN, Double.NaN};
    }
    int[] level = next.levels(p);
    Xyr mean = next.mean(nominal, board.column(), board.row(), level, p);
    Xyr trim =
        field.at(
            nominal.xMm(),
            nominal.yMm(),
            nominal.rotationDeg(),
            board.column(),
            board.row(),
            p.named());
    double[] v = next.fixedCovariance(nominal, board.column(), board.row(), level, p);
    double[] out = new double[2];
    for (int k = 0; k < 2; k++) {
      Xyr at =
          new Xyr(
              mean.x() + k * trim.x(),
              mean.y() + k * trim.y(),
              mean.rotation() + k * trim.rotation());
      DeviationDistribution panel = distribution(at, v, p, nominal);
      if (k == 1) {
        NextPlacement n = new NextPlacement(board, p.ref(), panel);
        comingUp.put(n.id(), n);
      }
      if (!judge.judged()) {
        out[k] = Double.NaN;
        continue;
      }
      DeviationDistribution all = panel.inPartFrame(nominal.rotationDeg());
      (k == 0 ? before : after).add(new OutsideInterval.Spot(judge, p, nominal, board, at, all));
      Probability chance = risk.outside(judge, all);
      (k == 0 ? beforeRisk : afterRisk).add(chance);
      out[k] = chance.value();
    }
    return out;
  }

  /** Panel frame. */
  private DeviationDistribution distribution(Xyr at, double[] v, Placement p, Pose nominal) {
    double[] s2 = next.scatter(p.part(), nominal.rotationDeg());
    double rs2 = Double.isNaN(at.rotation()) ? 0 : next.rotationScatter(p.part());
    // Variances known with few degrees of freedom: the tails of t, not of the normal.
    double few = next.scatterDegreesOfFreedom(p.part());
    return new DeviationDistribution(
        at.x(),
        at.y(),
        at.rotation(),
        s2[0] + Math.max(0, v[0]),
        s2[1] + Math.max(0, v[2]),
        rs2 + v[3],
        s2[2] + v[1],
        0,
        0,
        few > 0 && few < 200 ? few : Double.POSITIVE_INFINITY);
  }

  /** The correction of one line at a placement, its turn included; null where it does nothing. */
  public interface Correction {
    @Nullable Xyr at(Pose nominal, BoardIndex board, Placement p);
  }

  /**
   * By how many fewer placements of the next panel are expected outside because of one line, the
   * others being entered.
   *
   * @param line what it adds
   * @param noRisk chance below which, trimmed and not, a placement is passed over
   * @return NaN when nothing is judged
   */
  public double fewerOutside(Correction line, double noRisk) {
    if (beforeRisk.isEmpty()) {
      return Double.NaN;
    }
    double sum = 0;
    for (Board board : job.array().boards()) {
      for (Placement p : job.placements()) {
        double[] with = riskOf.get(board.index() + "/" + p.ref());
        if (with == null || !(Math.max(with[0], with[1]) > noRisk)) {
          continue;
        }
        Pose nominal = p.pose().seenFrom(board.origin());
        Xyr own = line.at(nominal, board.index(), p);
        if (own != null) {
          sum += outsideWithout(own, nominal, board.index(), p) - with[1];
        }
      }
    }
    return sum;
  }

  private double outsideWithout(Xyr own, Pose nominal, BoardIndex board, Placement p) {
    int[] level = next.levels(p);
    Xyr mean = next.mean(nominal, board.column(), board.row(), level, p);
    Xyr trim =
        field.at(
            nominal.xMm(),
            nominal.yMm(),
            nominal.rotationDeg(),
            board.column(),
            board.row(),
            p.named());
    Xyr at =
        new Xyr(
            mean.x() + trim.x() - own.x(),
            mean.y() + trim.y() - own.y(),
            mean.rotation() + trim.rotation() - own.rotation());
    double[] v = next.fixedCovariance(nominal, board.column(), board.row(), level, p);
    return risk.outside(
            judge(p.part()), distribution(at, v, p, nominal).inPartFrame(nominal.rotationDeg()))
        .value();
  }

  private PlacementResult notMeasured(
      String panel, BoardIndex board, Placement p, Pose nominal, double[] prob) {
    return new PlacementResult(
        panel,
        board,
        p.ref(),
        p.part(),
        nominal,
        Xyr.UNKNOWN,
        Xyr.UNKNOWN,
        Xyr.UNKNOWN,
        Double.NaN,
        Double.NaN,
        prob[0],
        prob[1],
        "notMeasured",
        false);
  }

  /** A placement that the article marks as wrong: outside, whatever was measured of it. */
  private PlacementResult marked(MeasuredFault f, double[] prob) {
    boolean fault = fault(f.id(), f.placement().ref(), true);
    Xyr d = new Xyr(f.dxMm(), f.dyMm(), f.dRotationDeg());
    String said = f.said().equalsIgnoreCase(f.kind().key()) ? "" : " ('" + f.said() + "')";
    excluded.add(
        new Excluded(
            f.panel(),
            f.board(),
            f.placement().ref(),
            f.kind().key(),
            fault,
            d,
            f.id() + " " + f.kind().words() + said + ", as the article's status says"));
    return new PlacementResult(
        f.panel(),
        f.board(),
        f.placement().ref(),
        f.placement().part(),
        f.nominal(),
        d,
        Xyr.UNKNOWN,
        Xyr.UNKNOWN,
        Double.NaN,
        Double.NaN,
        prob[0],
        prob[1],
        fault ? "outside" : "notMeasured",
        false);
  }

  private double margin(LandFit judge, Xyr d, double theta) {
    return judge.margin(
        PartFrame.x(d.x(), d.y(), theta), PartFrame.y(d.x(), d.y(), theta), d.rotation());
  }

  private PlacementResult measured(int i, int used, double[] prob) {
    DeviationTable all = set.table();
    Measured m = all.rows().get(i);
    Xyr d = new Xyr(m.dxMm(), m.dyMm(), m.dRotationDeg());
    Xyr trim =
        field.at(
            m.nominal().xMm(),
            m.nominal().yMm(),
            m.nominal().rotationDeg(),
            m.board().column(),
            m.board().row(),
            m.named());
    // a turn of 90 degrees put on one of 90 is none where half a turn looks the same
    String part = m.placement().part();
    int symmetry = fits.zeroOrientation(part) == 0 ? 1 : job.partType(part).symmetry();
    Xyr afterTrim =
        new Xyr(
            d.x() + trim.x(),
            d.y() + trim.y(),
            Double.isNaN(d.rotation())
                ? Double.NaN
                : org.padtrue.quantity.Angles.wrap(d.rotation() + trim.rotation(), symmetry));
    LandFit judge = judge(m.placement().part());
    double theta = m.nominal().rotationDeg();
    double margin = judge.judged() ? margin(judge, d, theta) : Double.NaN;
    double marginAfter = judge.judged() ? margin(judge, afterTrim, theta) : Double.NaN;
    Finding finding = fits.finding(i);
    String verdict = !judge.judged() ? "notJudged" : margin < 0 ? "outside" : "within";
    if (finding != null) {
      boolean fault = fault(m.id(), m.placement().ref(), finding.kind().fault());
      excluded.add(
          new Excluded(
              m.panel(),
              m.board(),
              m.placement().ref(),
              finding.kind().key(),
              fault,
              d,
              finding.sentence()));
      faultsOutside += fault && margin < 0 ? 1 : 0;
      if (!fault) {
        verdict = "notMeasured";
        margin = Double.NaN;
        marginAfter = Double.NaN;
      }
    }
    return new PlacementResult(
        m.panel(),
        m.board(),
        m.placement().ref(),
        m.placement().part(),
        m.nominal(),
        d,
        residual(i, used, d),
        afterTrim,
        margin,
        marginAfter,
        prob[0],
        prob[1],
        verdict,
        used >= 0);
  }

  private boolean fault(String id, String ref, boolean otherwise) {
    if (options.faults().contains(id) || options.faults().contains(ref)) {
      return true;
    }
    if (options.slips().contains(id) || options.slips().contains(ref)) {
      return false;
    }
    return otherwise;
  }

  private Xyr residual(int i, int used, Xyr d) {
    Measured m = set.table().rows().get(i);
    double x = d.x();
    double y = d.y();
    if (used >= 0) {
      for (double[] c : fits.position().contributions(used)) {
        x -= c[0];
        y -= c[1];
      }
    } else {
      int panel = fits.used().panels().indexOf(m.panel());
      double[][] c =
          fits.position()
              .contributions(
                  Math.max(0, panel),
                  m.nominal().xMm(),
                  m.nominal().yMm(),
                  m.nominal().rotationDeg(),
                  m.board().column(),
                  m.board().row(),
                  0,
                  next.levels(m.placement()));
      for (double[] v : c) {
        x -= v[0];
        y -= v[1];
      }
    }
    return new Xyr(x, y, residualRotation(m, d, i));
  }

  private double residualRotation(Measured m, Xyr d, int i) {
    var r = fits.rotation();
    if (r == null || Double.isNaN(d.rotation())) {
      return Double.NaN;
    }
    int panel = Math.max(0, fits.used().panels().indexOf(m.panel()));
    double v =
        d.rotation()
            - fits.zeroOrientation(m.placement().part())
            - fits.panels().get(panel).rotationDeg()
            - r.zero();
    for (int k = 0; k < r.factors().size(); k++) {
      Factor f = r.factors().get(k);
      String level = f == Factor.BOARD ? null : f.level(m);
      int l = level == null ? -1 : r.level(k, level);
      v -= l < 0 ? 0 : r.offset(k, l);
    }
    return org.padtrue.quantity.Angles.wrap(v, set.symmetry()[i]);
  }
}
