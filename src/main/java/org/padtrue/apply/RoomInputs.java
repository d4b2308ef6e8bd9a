package org.padtrue.apply;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.BiFunction;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.fitted.ScatterByType;
import org.padtrue.firstarticle.next.Clearances;
import org.padtrue.firstarticle.result.NextPlacement;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LandFit;
import org.padtrue.land.clearance.PairSpread;
import org.padtrue.land.risk.DeviationDistribution;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Board;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;
import org.padtrue.report.json.NextJson;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.room.RoomItem;

/**
 * What a search for room starts from: every placement where it is drawn, or, with an analysis,
 * where it is expected on the next panel with the trims entered.
 */
public final class RoomInputs {
  private final LoadedJob job;
  private final @Nullable StoredAnalysis analysis;
  private final Map<String, NextPlacement> next;
  private final Map<String, PairSpread> pairs;
  private final Map<String, ScatterByType> types = new HashMap<>();
  private final List<RoomItem> items = new ArrayList<>();

  private RoomInputs(
      LoadedJob job, @Nullable StoredAnalysis analysis, NextJson.Next told, boolean eachBoard) {
    this.job = job;
    this.analysis = analysis;
    this.pairs = told.pairs();
    this.next = analysis == null ? Map.of() : known(analysis, told);
    if (analysis != null) {
      analysis.scatter().types().forEach(t -> types.put(t.part(), t));
    }
    Map<String, LandFit> judges = new HashMap<>();
    for (Board b : job.job().array().boards()) {
      for (Placement p : job.job().placements()) {
        LandFit judge = judges.computeIfAbsent(p.part(), this::judge);
        items.add(item(b, p, judge, eachBoard));
      }
    }
  }

  /**
   * Without an analysis: as drawn, nothing scatters.
   *
   * @param eachBoard true where every board of a whole-panel file is moved by itself
   */
  public static RoomInputs drawn(LoadedJob job, boolean eachBoard) {
    return new RoomInputs(job, null, new NextJson.Next(Map.of(), Map.of()), eachBoard);
  }

  /**
   * With an analysis of this job.
   *
   * @param told what the same file says of the next panel
   */
  public static RoomInputs expected(
      LoadedJob job, StoredAnalysis analysis, NextJson.Next told, boolean eachBoard) {
    AnalysisMatch.require(analysis, job);
    return new RoomInputs(job, analysis, told, eachBoard);
  }

  private LandFit judge(String part) {
    return LandFit.of(
        job.job().partType(part), AcceptanceLimits.published(), job.job().acceptanceClass());
  }

  private RoomItem item(Board b, Placement p, LandFit judge, boolean eachBoard) {
    Pose nominal = p.pose().seenFrom(b.origin());
    String id = b.index() + "/" + p.ref();
    NextPlacement n = next.get(id);
    DeviationDistribution d = n == null ? null : n.deviation();
    Pose pose =
        d == null
            ? nominal
            : new Pose(
                nominal.xMm() + d.dxMm(),
                nominal.yMm() + d.dyMm(),
                Double.isNaN(d.drotationDeg())
                    ? nominal.rotationDeg()
                    : Angles.wrap(nominal.rotationDeg() + d.drotationDeg()));
    return new RoomItem(
        id,
        eachBoard ? id : p.ref(),
        job.job().partType(p.part()),
        nominal,
        pose,
        b.origin().rotationDeg(),
        judge,
        d,
        nozzle(p),
        p.order());
  }

  private double nozzle(Placement p) {
    String name = p.levels().get(Factor.NOZZLE);
    Double d = name == null ? null : job.job().machine().nozzleDiametersMm().get(name);
    return d == null ? Double.NaN : d;
  }

  /** Every placement of one panel. */
  public List<RoomItem> items() {
    return List.copyOf(items);
  }

  /** How two placements scatter against each other. */
  public BiFunction<RoomItem, RoomItem, PairSpread> spread() {
    return this::spread;
  }

  /** Greatest standard deviation of a distance of two placements, mm. */
  public double scatterMm() {
    double most = 0;
    for (RoomItem i : items) {
      double[] v = own(i);
      most = Math.max(most, Math.max(v[0], v[1]));
    }
    for (PairSpread s : pairs.values()) {
      most = Math.max(most, Math.max(s.varX(), s.varY()) / 2);
    }
    return Math.sqrt(2 * most);
  }

  private PairSpread spread(RoomItem a, RoomItem b) {
    PairSpread told = pairs.get(a.id() + " " + b.id());
    if (told != null) {
      return told;
    }
    PairSpread back = pairs.get(b.id() + " " + a.id());
    if (back != null) {
      return new PairSpread(
          back.varX(), back.varY(), back.covXY(), back.varRotationB(), back.varRotationA());
    }
    double[] va = own(a);
    double[] vb = own(b);
    return new PairSpread(va[0] + vb[0], va[1] + vb[1], va[2] + vb[2], va[3], vb[3]);
  }

  /** Scatter of placing: xx, yy, xy in the panel frame, mm^2, and rotation, deg^2. */
  private double[] own(RoomItem i) {
    if (analysis == null) {
      return new double[4];
    }
    Scatter all = analysis.scatter();
    ScatterByType t = types.get(i.part().name());
    double x = t == null ? all.sdX() : t.sdX();
    double y = t == null ? all.sdY() : t.sdY();
    double r = t == null ? all.sdRotation() : t.sdRotation();
    double wider = Clearances.wider(t == null ? all.degreesOfFreedom() : t.degreesOfFreedom());
    double theta = t != null && t.frame().equals("part") ? i.nominal().rotationDeg() : 0;
    double c = Angles.cosDeg(theta);
    double s = Angles.sinDeg(theta);
    double vx = wider * x * x;
    double vy = wider * y * y;
    return new double[] {
      zeroIfUnknown(c * c * vx + s * s * vy),
      zeroIfUnknown(s * s * vx + c * c * vy),
      zeroIfUnknown(c * s * (vx - vy)),
      zeroIfUnknown(r * r)
    };
  }

  private static double zeroIfUnknown(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  /**
   * What the file tells of the next panel; of a file that does not, what is left of the measured
   * placements without their scatter, and the scatter of all.
   */
  private Map<String, NextPlacement> known(StoredAnalysis a, NextJson.Next told) {
    if (!told.placements().isEmpty()) {
      return told.placements();
    }
    Scatter s = a.scatter();
    Map<String, NextPlacement> out = new HashMap<>();
    for (PlacementResult p : a.placements()) {
      double x = p.afterTrim().x() - p.residual().x();
      double y = p.afterTrim().y() - p.residual().y();
      double r = p.afterTrim().rotation() - p.residual().rotation();
      out.putIfAbsent(
          p.id(),
          new NextPlacement(
              p.board(),
              p.ref(),
              DeviationDistribution.independent(
                  zeroIfUnknown(x),
                  zeroIfUnknown(y),
                  Double.isNaN(r) ? 0 : Angles.wrap(r),
                  zeroIfUnknown(s.sdX()),
                  zeroIfUnknown(s.sdY()),
                  zeroIfUnknown(s.sdRotation()))));
    }
    return out;
  }

  /**
   * Keys of placements that are named by ref, column/row/ref or part type.
   *
   * @param option where they were given, for the sentence
   * @throws InputException when one is none of these
   */
  public Set<String> keys(Collection<String> names, String option) {
    Map<String, Set<String>> by = new TreeMap<>();
    for (RoomItem i : items) {
      String ref = i.id().substring(i.id().indexOf('/', i.id().indexOf('/') + 1) + 1);
      for (String name : List.of(i.id(), ref, i.part().name())) {
        by.computeIfAbsent(name, k -> new HashSet<>()).add(i.key());
      }
    }
    Set<String> keys = new HashSet<>();
    List<Problem> problems = new ArrayList<>();
    for (String n : names) {
      Set<String> found = by.get(n);
      if (found == null) {
        problems.add(
            Problem.of(
                job.placements().name(),
                "there is no placement and no part type '" + n + "' on the placed side",
                "correct " + option));
      } else {
        keys.addAll(found);
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return keys;
  }
}
