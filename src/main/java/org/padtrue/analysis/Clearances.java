package org.padtrue.analysis;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.padtrue.land.Clearance;
import org.padtrue.land.ClearanceItem;
import org.padtrue.land.PairClearance;
import org.padtrue.land.PairSpread;
import org.padtrue.land.Shift;
import org.padtrue.land.TouchRisk;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/** Gaps between neighbours as measured and as expected on the next panel with the trims entered. */
final class Clearances {
  /** Pairs farther apart than this are not listed, mm; widened where scatter is large. */
  private static final double NEAR_MM = 0.15;

  /** Gap that a suggested shift should leave, mm (common practice: clear of touching in print). */
  private static final double WANTED_MM = 0.1;

  private Clearances() {}

  static List<ClearanceResult> of(
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
      for (PairClearance pair : c.pairs()) {
        out.add(
            new ClearanceResult(
                e.getKey(),
                pair.a().id(),
                pair.b().id(),
                pair.gap(),
                pair.gapAfterTrim(),
                TouchRisk.of(pair, spread(pair, next)).value(),
                sentence(pair, c, table)));
      }
    }
    return out;
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  /** Two parts that scatter independently, each as its type does. */
  private static PairSpread spread(PairClearance pair, NextPanel next) {
    String a = pair.a().part().name();
    String b = pair.b().part().name();
    double[] va = next.scatter(a, pair.a().nominal().rotationDeg());
    double[] vb = next.scatter(b, pair.b().nominal().rotationDeg());
    return new PairSpread(
        known(va[0] + vb[0]),
        known(va[1] + vb[1]),
        known(va[2] + vb[2]),
        known(next.rotationScatter(a)),
        known(next.rotationScatter(b)));
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
            PlacementTable.keys(p));
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
      Optional<Shift> shift = c.suggest(pair, WANTED_MM, t -> table.judge(t.name()));
      s.append(s.length() == 0 ? "" : "; ");
      shift.ifPresentOrElse(
          m ->
              s.append(
                  String.format(
                      Locale.ROOT,
                      "moving %s by (%+.3f, %+.3f) mm leaves a gap of %.3f mm and a land margin of"
                          + " %.3f mm",
                      m.id(),
                      m.dxMm(),
                      m.dyMm(),
                      m.gapAfter(),
                      m.marginAfter())),
          () -> s.append("no shift of one part clears them and stays on its lands"));
    }
    return s.toString();
  }
}
