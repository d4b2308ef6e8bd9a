package org.padtrue.firstarticle.next;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.result.ClearanceResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.land.clearance.Clearance;
import org.padtrue.land.clearance.ClearanceItem;
import org.padtrue.land.clearance.ClearingShift;
import org.padtrue.land.clearance.PairClearance;
import org.padtrue.land.clearance.PairSpread;
import org.padtrue.land.clearance.TouchRisk;
import org.padtrue.numeric.Tails;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/** Gaps between neighbours as measured and as expected on the next panel with the trims entered. */
public final class Clearances {
  /** Pairs farther apart than this are not listed, mm; widened where scatter is large. */
  private static final double NEAR_MM = 0.15;

  /** Gap that a suggested shift should leave, mm (common practice: clear of touching in print). */
  private static final double WANTED_MM = 0.1;

  /** Chance at which a t distribution is matched by a normal one. */
  private static final double TAIL = 0.02;

  private Clearances() {}

  public static List<ClearanceResult> of(
      Job job, PlacementTable table, Fits fits, NextPanel next, TrimField field) {
    boolean any =
        job.placements().stream()
            .anyMatch(
                p -> {
                  var t = job.partType(p.part());
                  return t.envelope() != null || t.body() != null || !t.terminations().isEmpty();
                });
    if (!any) {
      return List.of();
    }
    double widest = 0;
    for (String part : fits.position().scatter().types()) {
      double[] v = next.scatter(part, 0);
      widest = Math.max(widest, known(Math.max(v[0], v[1])));
    }
    double near = Math.max(NEAR_MM, 6 * Math.sqrt(2 * widest));
    Map<String, Placement> byRef = new HashMap<>();
    job.placements().forEach(p -> byRef.put(p.ref(), p));
    Map<String, Pose> predicted = new HashMap<>();
    Map<String, List<ClearanceItem>> panels = new java.util.LinkedHashMap<>();
    for (PlacementResult r : table.results()) {
      Placement p = byRef.get(r.ref());
      if (p == null) {
        continue;
      }
      Pose after =
          predicted.computeIfAbsent(r.id(), k -> predicted(p, r.board(), r.nominal(), next, field));
      boolean seen = !r.verdict().equals("notMeasured") && !Double.isNaN(r.deviation().x());
      Pose actual =
          seen ? moved(r.nominal(), r.deviation()) : new Pose(Double.NaN, Double.NaN, Double.NaN);
      panels
          .computeIfAbsent(r.panel(), k -> new ArrayList<>())
          .add(new ClearanceItem(r.id(), job.partType(r.part()), r.nominal(), actual, after));
    }
    List<ClearanceResult> out = new ArrayList<>();
    for (var e : panels.entrySet()) {
      Clearance c = new Clearance(e.getValue(), near);
      out.addAll(
          c.pairs().parallelStream()
              .map(
                  pair -> {
                    PairSpread spread = spread(pair, next, fits, byRef);
                    return new ClearanceResult(
                        e.getKey(),
                        pair.a().id(),
                        pair.b().id(),
                        pair.gap(),
                        pair.gapAfterTrim(),
                        TouchRisk.of(pair, spread).value(),
                        spread,
                        sentence(pair, c, table));
                  })
              .toList());
    }
    return out;
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  /**
   * How two parts scatter against each other: each as its type does, and together as their offsets
   * are uncertain; what both share drops out. Variances known with few degrees of freedom count as
   * wide as their t distribution is at the chance of {@value #TAIL}.
   */
  private static PairSpread spread(
      PairClearance pair, NextPanel next, Fits fits, Map<String, Placement> byRef) {
    String a = pair.a().part().name();
    String b = pair.b().part().name();
    double[] va = next.scatter(a, pair.a().nominal().rotationDeg());
    double[] vb = next.scatter(b, pair.b().nominal().rotationDeg());
    double wa = wider(next.scatterDegreesOfFreedom(a));
    double wb = wider(next.scatterDegreesOfFreedom(b));
    double[] between = between(pair, next, fits, byRef);
    return new PairSpread(
        known(wa * va[0] + wb * vb[0]) + between[0],
        known(wa * va[1] + wb * vb[1]) + between[2],
        known(wa * va[2] + wb * vb[2]) + between[1],
        known(next.rotationScatter(a)),
        known(next.rotationScatter(b)));
  }

  /**
   * By what a variance that is known with few degrees of freedom is widened, so that a normal
   * distribution has the tail of the Student t at the chance of {@value #TAIL}.
   */
  public static double wider(double df) {
    if (!(df > 0)) {
      return 1;
    }
    double r = Tails.t(1 - TAIL, df) / Tails.t(1 - TAIL, Double.POSITIVE_INFINITY);
    return r * r;
  }

  /** Covariance of the difference of what is known of both: xx, xy, yy. */
  private static double[] between(
      PairClearance pair, NextPanel next, Fits fits, Map<String, Placement> byRef) {
    Placement pa = byRef.get(ref(pair.a()));
    Placement pb = byRef.get(ref(pair.b()));
    if (pa == null || pb == null || !(fits.position().degreesOfFreedom() > 0)) {
      return new double[3];
    }
    BoardIndex ba = board(pair.a());
    BoardIndex bb = board(pair.b());
    int[] la = next.levels(pa);
    int[] lb = next.levels(pb);
    double[] v =
        fits.position()
            .covariance(
                next.gradient(pair.a().nominal(), ba.column(), ba.row(), la)
                    .minus(next.gradient(pair.b().nominal(), bb.column(), bb.row(), lb)));
    double[] ua = next.unseen(pa, la);
    double[] ub = next.unseen(pb, lb);
    return new double[] {
      Math.max(0, known(v[0])) + ua[0] + ub[0],
      known(v[1]),
      Math.max(0, known(v[2])) + ua[1] + ub[1]
    };
  }

  private static String ref(ClearanceItem i) {
    return i.id().substring(i.id().indexOf('/', i.id().indexOf('/') + 1) + 1);
  }

  private static BoardIndex board(ClearanceItem i) {
    String[] at = i.id().split("/", 3);
    return new BoardIndex(Integer.parseInt(at[0]), Integer.parseInt(at[1]));
  }

  private static Pose moved(Pose nominal, Xyr d) {
    return new Pose(
        nominal.xMm() + d.x(),
        nominal.yMm() + d.y(),
        Angles.wrap(nominal.rotationDeg() + (Double.isNaN(d.rotation()) ? 0 : d.rotation())));
  }

  private static Pose predicted(
      Placement p, BoardIndex board, Pose nominal, NextPanel next, TrimField field) {
    Xyr mean = next.mean(nominal, board.column(), board.row(), next.levels(p), p);
    Xyr trim =
        field.at(
            nominal.xMm(),
            nominal.yMm(),
            nominal.rotationDeg(),
            board.column(),
            board.row(),
            p.named());
    return moved(
        nominal,
        new Xyr(mean.x() + trim.x(), mean.y() + trim.y(), mean.rotation() + trim.rotation()));
  }

  private static String sentence(PairClearance pair, Clearance c, PlacementTable table) {
    StringBuilder s = new StringBuilder();
    if (pair.gapNominal() < 0) {
      s.append(String.format(Locale.ROOT, "they overlap by %.3f mm as drawn", -pair.gapNominal()));
    }
    if (pair.gapAfterTrim() < WANTED_MM / 2) {
      Optional<ClearingShift> shift = c.suggest(pair, WANTED_MM, t -> table.judge(t.name()));
      s.append(s.length() == 0 ? "" : "; ");
      shift.ifPresentOrElse(
          m ->
              s.append(
                  String.format(
                      Locale.ROOT,
                      "moving %s by x %+.3f, y %+.3f mm leaves a gap of %.3f mm and a margin to"
                          + " limit of %.3f mm",
                      m.id(),
                      m.dxMm(),
                      m.dyMm(),
                      m.gapAfter(),
                      m.marginAfter())),
          () -> s.append("no move of one part clears them and keeps it on its lands"));
    }
    return s.toString();
  }
}
