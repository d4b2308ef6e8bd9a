package org.padtrue.apply;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.decide.EnteredTrims;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Job;
import org.padtrue.panel.Machine;
import org.padtrue.panel.TrimKind;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.trim.Shrink;
import org.padtrue.trim.Step;

/**
 * What stands out but the machine does not accept, as trims that corrected coordinates can carry.
 * An analysis gives such a term the decision 'notAccepted' and no value; here the value is what
 * would have been entered: minus the predicted offset, fixed terms shrunk as a trim is, rounded to
 * the machine's resolution.
 */
final class CoordinateTrims {
  private final StoredAnalysis a;
  private final Job job;
  private final Machine machine;

  private CoordinateTrims(StoredAnalysis a, Job job) {
    this.a = a;
    this.job = job;
    this.machine = job.machine();
  }

  /**
   * Terms that are not accepted, decided as trims; all others are left alone.
   *
   * @param batch corrections for the batch
   * @param groups levels with their trims
   */
  record Offered(BatchTrim batch, List<GroupResult> groups) {}

  static Offered of(StoredAnalysis a, Job job) {
    CoordinateTrims c = new CoordinateTrims(a, job);
    List<GroupResult> groups = new ArrayList<>();
    for (GroupResult g : a.groups()) {
      if (open(g.trim().decision())) {
        groups.add(c.offered(g));
      }
    }
    return new Offered(c.batch(), groups);
  }

  private static boolean open(Decision d) {
    return d == Decision.NOT_ACCEPTED;
  }

  private double mm(double want) {
    return Double.isNaN(want) ? 0 : Step.round(want, machine.resolutionMm());
  }

  private double deg(double want) {
    return Double.isNaN(want) ? 0 : Step.round(want, machine.rotationResolutionDeg());
  }

  private GroupResult offered(GroupResult g) {
    Xyr o = g.offset();
    Xyr v = new Xyr(mm(-o.x()), mm(-o.y()), deg(-o.rotation()));
    int turn =
        g.zeroOrientation() == 0
            ? 0
            : TrimValue.back(g.zeroOrientation(), job.partType(g.level()).symmetry());
    return new GroupResult(
        g.factor(),
        g.level(),
        g.frame(),
        g.count(),
        g.rotations(),
        g.zeroOrientation(),
        o,
        g.standardErrors(),
        g.degreesOfFreedom(),
        g.combined(),
        g.combinedStandardErrors(),
        g.leastSquares(),
        g.ownTransform(),
        new TrimValue(v, turn, Decision.TRIM, g.trim().reason()));
  }

  private BatchTrim batch() {
    BatchTrim b = a.batchTrim();
    BatchTrim.Angle rotation =
        open(b.rotation().decision())
            ? new BatchTrim.Angle(rotation(), Decision.TRIM, b.rotation().reason())
            : none(b.rotation());
    BatchTrim.Scale scale =
        open(b.scale().decision())
            ? scale(b.scale().reason())
            : new BatchTrim.Scale(0, 0, 0, Decision.LEAVE, b.scale().reason());
    return new BatchTrim(
        shift(b.shift(), rotation, scale),
        rotation,
        scale,
        new BatchTrim.ArrayTrim(List.of(), Decision.LEAVE, b.array().reason()),
        common(b.common()),
        open(b.rotationZero().decision())
            ? new BatchTrim.Angle(zero(a.rotationZero()), Decision.TRIM, b.rotationZero().reason())
            : none(b.rotationZero()));
  }

  private static BatchTrim.Shift none(BatchTrim.Shift s) {
    return new BatchTrim.Shift(Xy.ZERO, Decision.LEAVE, s.reason());
  }

  private static BatchTrim.Angle none(BatchTrim.Angle s) {
    return new BatchTrim.Angle(0, Decision.LEAVE, s.reason());
  }

  /** Share of a fixed term that is trimmed. */
  private static double keep(double... valuesAndErrors) {
    double t2 = 0;
    for (int i = 0; i < valuesAndErrors.length; i += 2) {
      double t = valuesAndErrors[i] / valuesAndErrors[i + 1];
      t2 += Double.isFinite(t) ? t * t : 0;
    }
    return Shrink.factor(t2, valuesAndErrors.length / 2);
  }

  /** Standard error of a mean over the panels, registration from panel to panel included. */
  private double error(double standardError, String axis) {
    double between = a.sd(TrimKind.REGISTRATION.key(), axis);
    double v = standardError * standardError + (Double.isNaN(between) ? 0 : between * between);
    return Math.sqrt(v / Math.max(1, a.panels().size()));
  }

  private double mean(java.util.function.ToDoubleFunction<StoredAnalysis.Panel> value) {
    return a.panels().stream().mapToDouble(value).average().orElse(Double.NaN);
  }

  private double rotation() {
    double v = mean(p -> p.transform().rotation());
    return deg(-v * keep(v, error(mean(p -> p.standardErrors().rotation()), "rotation")));
  }

  private BatchTrim.Scale scale(String reason) {
    if (a.panels().isEmpty()) {
      return new BatchTrim.Scale(0, 0, 0, Decision.LEAVE, reason);
    }
    var v = a.panels().get(0).transform();
    var s = a.panels().get(0).standardErrors();
    double k =
        keep(
            v.scaleXPpm(),
            s.scaleXPpm(),
            v.scaleYPpm(),
            s.scaleYPpm(),
            v.squarenessMrad(),
            s.squarenessMrad());
    return new BatchTrim.Scale(
        Step.round(-k * v.scaleXPpm(), 1),
        Step.round(-k * v.scaleYPpm(), 1),
        Step.round(-k * v.squarenessMrad(), 0.001),
        Decision.TRIM,
        reason);
  }

  /**
   * The shift at the panel origin: what the centre shows where the machine takes no shift, and in
   * any case what keeps the centre in its place under turn and stretch.
   */
  private BatchTrim.Shift shift(
      BatchTrim.Shift was, BatchTrim.Angle rotation, BatchTrim.Scale scale) {
    double x = mean(p -> p.shiftAtCentroid().x());
    double y = mean(p -> p.shiftAtCentroid().y());
    double cx = mean(p -> p.centroid().x());
    double cy = mean(p -> p.centroid().y());
    if (Double.isNaN(x + y + cx + cy)) {
      return none(was);
    }
    double k =
        keep(
            x,
            error(mean(p -> p.shiftAtCentroidSe().x()), "x"),
            y,
            error(mean(p -> p.shiftAtCentroidSe().y()), "y"));
    double share = open(was.decision()) ? k : 0;
    Xy turn = turnAndStretch(rotation, scale, cx, cy);
    return new BatchTrim.Shift(
        new Xy(mm(-share * x - turn.x()), mm(-share * y - turn.y())), Decision.TRIM, was.reason());
  }

  private static Xy turnAndStretch(
      BatchTrim.Angle rotation, BatchTrim.Scale scale, double x, double y) {
    BatchTrim.Shift nothing = new BatchTrim.Shift(Xy.ZERO, Decision.LEAVE, "");
    BatchTrim only =
        new BatchTrim(
            nothing,
            rotation,
            scale,
            new BatchTrim.ArrayTrim(List.of(), Decision.LEAVE, ""),
            nothing,
            new BatchTrim.Angle(0, Decision.LEAVE, ""));
    return EnteredTrims.of(
            only, List.of(), BoardArray.single(), EnumSet.of(TrimKind.ROTATION, TrimKind.SCALE))
        .turnAndStretch(x, y);
  }

  /** Where part types are accepted, their trims carry the common offset already. */
  private BatchTrim.Shift common(BatchTrim.Shift was) {
    FirstArticleResult.Common c = a.common();
    if (!open(was.decision()) || c == null || machine.accepts().contains(TrimKind.PART)) {
      return none(was);
    }
    Xy v = c.value();
    double k = keep(v.x(), c.standardErrors().x(), v.y(), c.standardErrors().y());
    return new BatchTrim.Shift(new Xy(mm(-k * v.x()), mm(-k * v.y())), Decision.TRIM, was.reason());
  }

  private double zero(FirstArticleResult.@Nullable RotationZero z) {
    return z == null ? 0 : deg(-z.value() * keep(z.value(), z.standardError()));
  }
}
