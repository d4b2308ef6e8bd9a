package org.padtrue.firstarticle.decide;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.ArticleSet;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.fitted.NumberWords;
import org.padtrue.firstarticle.fitted.TestList;
import org.padtrue.firstarticle.next.TrimField;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.BatchTrim.Angle;
import org.padtrue.firstarticle.result.BatchTrim.ArrayTrim;
import org.padtrue.firstarticle.result.BatchTrim.BoardOrigin;
import org.padtrue.firstarticle.result.BatchTrim.Scale;
import org.padtrue.firstarticle.result.BatchTrim.Shift;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.fit.Apart;
import org.padtrue.mixed.FactorEffect;
import org.padtrue.mixed.PanelEstimate;
import org.padtrue.mixed.PanelFamily;
import org.padtrue.mixed.RotationFit;
import org.padtrue.panel.Board;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Level;
import org.padtrue.panel.Machine;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Stage;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.trim.DeadBand;
import org.padtrue.trim.Shrink;
import org.padtrue.trim.Step;

/**
 * Decides, family by family, what to change; one registration trim for the batch.
 *
 * <p>A family that passes its test is trimmed where a term is beyond its dead band and rounding
 * leaves something that lowers the predicted mean square. Fixed terms keep the share of an
 * empirical Bayes shrinkage; predicted offsets are shrunk already.
 */
public final class Decisions {
  private static final double PPM_STEP = 1;
  private static final double MRAD_STEP = 0.001;

  private static final String OFF = "turned off, to see what happens without it";

  private final Set<String> off;

  /** Offset of a part type that points to its library or a unit, mm: common practice. */
  private static final double LARGE = 0.5;

  private final boolean all;
  private final boolean keepOutliers;
  private final FoldingTerms folding;
  private final Rounding rounding = new Rounding();
  private final Job job;
  private final Fits fits;
  private final TestList tests;
  private final boolean partsRegistered;
  private final Set<String> relativeTypes;
  private final boolean onlySelfCentring;
  private final Machine machine;
  private final TrimField field = new TrimField();
  private final TrimField panelField = new TrimField();
  private double[] arrayTrim = new double[4];
  private final Map<LevelKey, TrimValue> levels = new LinkedHashMap<>();
  private final double halfDiagonal;
  private BatchTrim batch =
      new BatchTrim(
          new Shift(Xy.ZERO, Decision.LEAVE, ""),
          new Angle(0, Decision.LEAVE, ""),
          new Scale(0, 0, 0, Decision.LEAVE, ""),
          new ArrayTrim(List.of(), Decision.LEAVE, ""),
          new Shift(Xy.ZERO, Decision.LEAVE, ""),
          new Angle(0, Decision.LEAVE, ""));

  /**
   * Decides.
   *
   * @param o what was asked: trims that are not to be entered (what else is trimmed stays what it
   *     is), whether small ones are folded
   */
  public Decisions(Job job, ArticleSet set, Fits fits, TestList tests, AnalysisOptions o) {
    off = o.turnedOff();
    all = o.all();
    keepOutliers = o.keepOutliers();
    folding = new FoldingTerms(job, fits);
    this.job = job;
    this.fits = fits;
    this.tests = tests;
    partsRegistered = set.partsRegistered();
    relativeTypes = set.relativeTypes();
    machine = job.machine();
    onlySelfCentring =
        job.stage() == Stage.REFLOWED
            && fits.used().rows().stream()
                .allMatch(m -> job.partType(m.placement().part()).selfCentres());
    halfDiagonal = halfDiagonal(fits);
    decide();
  }

  public BatchTrim batch() {
    return batch;
  }

  public TrimField field() {
    return field;
  }

  /** Correction of the panel terms alone at a point. */
  Xyr panelAt(double x, double y) {
    return panelField.at(x, y, 0, 1, 1, List.of());
  }

  /** Correction per board column (x, y) and row (x, y), mm. */
  double[] arrayTrim() {
    return arrayTrim;
  }

  /** What rounding to the machine's steps leaves. */
  Rounding rounding() {
    return rounding;
  }

  /** Trim of a level in a frame. */
  Map<LevelKey, TrimValue> levels() {
    return levels;
  }

  /** Distance of the farthest used placement from the middle of what was measured, mm. */
  public static double halfDiagonal(Fits f) {
    double[] c = f.position().centroid();
    double h = 0;
    for (int i = 0; i < f.used().size(); i++) {
      h = Math.max(h, Math.hypot(f.used().x()[i] - c[0], f.used().y()[i] - c[1]));
    }
    return h;
  }

  private DeadBand band() {
    return DeadBand.of(machine.resolutionMm(), job.measurement().biasMm());
  }

  /** What a wanted correction, of which a rounded one is entered, loses to the resolution alone. */
  private double left(double want, double entered) {
    return Math.abs(want) > job.measurement().biasMm() ? want - entered : 0;
  }

  private static String within(DeadBand band) {
    return "within the no-adjustment limit of "
        + NumberWords.um(band.halfWidth())
        + " ("
        + band.because()
        + ")";
  }

  private DeadBand rotationBand() {
    return DeadBand.of(machine.rotationResolutionDeg(), 0);
  }

  private void decide() {
    Angle rotation = rotation();
    Scale scale = scale();
    boolean turn = rotation.decision() == Decision.TRIM;
    boolean stretch = scale.decision() == Decision.TRIM;
    double[] b = linear(turn ? rotation.value() : 0, stretch ? scale : null);
    Shift shift = shift(b, turn || stretch);
    if (shift.decision() != Decision.TRIM && (turn || stretch)) {
      // Without the shift that goes with it, a turn about the panel origin would move the centre.
      b = new double[4];
      rotation = withoutShift(rotation);
      scale =
          new Scale(
              0,
              0,
              0,
              turnedOff(scale.decision()),
              scale.reason() + "; needs the panel offset with it");
      turn = false;
      stretch = false;
    }
    if (off.contains(TrimKind.REGISTRATION.key())) {
      shift = new Shift(Xy.ZERO, Decision.LEAVE, OFF);
      rotation = new Angle(0, Decision.LEAVE, OFF);
      turn = false;
    }
    if (off.contains(TrimKind.SCALE.key())) {
      scale = new Scale(0, 0, 0, Decision.LEAVE, OFF);
      stretch = false;
    }
    if (!off.isEmpty()) {
      b = linear(turn ? rotation.value() : 0, stretch ? scale : null);
    }
    for (TrimField f : List.of(field, panelField)) {
      f.linear(turn ? rotation.value() : 0, b);
      if (shift.decision() == Decision.TRIM) {
        f.shift(shift.value().x(), shift.value().y());
      }
    }
    ArrayTrim array = array();
    Shift common = common();
    Angle zero = rotationZero();
    batch =
        new BatchTrim(
            shift,
            rotation,
            scale,
            off.contains(TrimKind.ARRAY.key())
                ? new ArrayTrim(List.of(), Decision.LEAVE, OFF)
                : array,
            off.contains(TrimKind.COMMON.key()) ? new Shift(Xy.ZERO, Decision.LEAVE, OFF) : common,
            off.contains(TrimKind.ROTATION_ZERO.key()) ? new Angle(0, Decision.LEAVE, OFF) : zero);
    // the levels' own trims stay what they are, whatever else is turned off
    levels(common, zero);
  }

  private static Angle withoutShift(Angle a) {
    return a.decision() == Decision.TRIM
        ? new Angle(0, Decision.NOT_ACCEPTED, a.reason() + "; needs the panel offset with it")
        : a;
  }

  private static Decision turnedOff(Decision d) {
    return d == Decision.TRIM ? Decision.NOT_ACCEPTED : d;
  }

  /** Linear part of the correction field: minus what rotation and scale add, pure numbers. */
  public static double[] linear(double rotationDeg, @Nullable Scale s) {
    double phi = Math.toRadians(rotationDeg);
    double kx = s == null ? 0 : 1e-6 * s.xPpm();
    double ky = s == null ? 0 : 1e-6 * s.yPpm();
    double q = s == null ? 0 : 1e-3 * s.squarenessMrad();
    double c = Math.cos(phi);
    double n = Math.sin(phi);
    return new double[] {
      c * (1 + kx) - 1,
      -c * (1 + ky) * Math.sin(q) - n * (1 + ky) * Math.cos(q),
      n * (1 + kx),
      -n * (1 + ky) * Math.sin(q) + c * (1 + ky) * Math.cos(q) - 1
    };
  }

  private boolean accepts(TrimKind k) {
    return machine.accepts().contains(k);
  }

  private String repeatability() {
    double sd = Math.sqrt(0.5 * (fits.shiftX().between() + fits.shiftY().between()));
    return switch (fits.shiftX().basis()) {
      case STATED -> "; the panel offset repeats to " + NumberWords.um(sd) + " from panel to panel";
      case PANELS ->
          "; the panel offset repeats to "
              + NumberWords.um(sd)
              + " from panel to panel, as the panels measured show";
      case USUAL ->
          "; how well the panel offset repeats from panel to panel is not known: "
              + NumberWords.um(sd)
              + " is taken, usual for panels located by "
              + machine.location().key();
    };
  }

  private Angle rotation() {
    if (partsRegistered) {
      return new Angle(
          0,
          Decision.CANNOT_TELL,
          "the article was registered on the parts themselves, so the panel's rotation is gone");
    }
    double v = fits.turn().mean();
    double se = Math.sqrt(fits.turn().variance());
    String seen = NumberWords.deg(v, se);
    if (!tests.passes(TermFamily.ROTATION)) {
      return new Angle(
          0, Decision.LEAVE, leaveReason(TermFamily.ROTATION, "no rotation stands out", seen));
    }
    if (onlySelfCentring) {
      return new Angle(0, Decision.LEAVE, REFLOWED);
    }
    double want = -v * Shrink.factor(tests.t2(TermFamily.ROTATION), 1);
    double rounded = Step.round(want, machine.panelRotationResolutionDeg());
    double arc = Math.toRadians(Math.abs(want)) * halfDiagonal;
    DeadBand band = band();
    boolean fine = rounded == 0 || !lowers(rounded, want);
    if (fine || !band.beyond(arc)) {
      rounding.turn(fine && accepts(TrimKind.ROTATION) ? want : 0);
      return new Angle(
          0,
          Decision.LEAVE,
          "rotation "
              + seen
              + " moves the farthest part by "
              + NumberWords.um(arc)
              + (fine
                  ? ", but is finer than the machine's step of "
                      + NumberWords.step(machine.panelRotationResolutionDeg())
                      + " deg (machine.panelRotationResolution)"
                  : ", " + within(band)));
    }
    rounding.turn(accepts(TrimKind.ROTATION) ? want - rounded : 0);
    String reason =
        "the panel is turned by "
            + seen
            + " ("
            + NumberWords.p(tests.p(TermFamily.ROTATION))
            + "), "
            + NumberWords.um(arc)
            + " at the farthest part";
    return accepts(TrimKind.ROTATION)
        ? new Angle(rounded, Decision.TRIM, reason)
        : new Angle(0, Decision.NOT_ACCEPTED, reason + "; the machine takes no rotation trim");
  }

  private static final String REFLOWED =
      "after reflow every part measured has centred itself on its lands, so this says nothing about"
          + " the machine";

  /** A rounded correction lowers the expected square when it undoes more than it adds. */
  private static boolean lowers(double rounded, double want) {
    return rounded * want > 0 && Math.abs(rounded) < 2 * Math.abs(want);
  }

  private String leaveReason(TermFamily family, String nothing, String seen) {
    double p = tests.p(family);
    if (Double.isNaN(p)) {
      return "there are too few measurements to test this";
    }
    return nothing + " (" + seen + ", " + NumberWords.p(p) + "): leave it alone";
  }

  private Scale scale() {
    if (!fits.scaleVisible()) {
      return new Scale(
          0,
          0,
          0,
          Decision.CANNOT_TELL,
          "measured with the machine's own camera and axes: their scale and squareness cancel and"
              + " cannot be seen");
    }
    PanelEstimate e = fits.panels().get(0);
    String seen =
        String.format(
            java.util.Locale.ROOT,
            "x %+.0f +- %.0f ppm, y %+.0f +- %.0f ppm, squareness %+.3f +- %.3f mrad",
            e.scaleXPpm(),
            e.se()[3],
            e.scaleYPpm(),
            e.se()[4],
            e.squarenessMrad(),
            e.se()[5]);
    if (!tests.passes(TermFamily.SCALE)) {
      return new Scale(
          0, 0, 0, Decision.LEAVE, leaveReason(TermFamily.SCALE, "no stretch stands out", seen));
    }
    if (onlySelfCentring) {
      return new Scale(0, 0, 0, Decision.LEAVE, REFLOWED);
    }
    if (job.measurement().reference() == Reference.LANDS) {
      return new Scale(
          0,
          0,
          0,
          Decision.CANNOT_TELL,
          "measured against lands, a stretched board and a wrong axis scale give the same number ("
              + seen
              + "): measure against fiducials, or on a glass or steel rule, before touching an"
              + " axis");
    }
    double keep =
        Shrink.factor(
            tests.t2(TermFamily.SCALE),
            fits.position().terms().family() == PanelFamily.SIMILARITY ? 1 : 3);
    double kx = Step.round(-keep * known(e.scaleXPpm(), e.se()[3]), PPM_STEP);
    double ky = Step.round(-keep * known(e.scaleYPpm(), e.se()[4]), PPM_STEP);
    double q = Step.round(-keep * known(e.squarenessMrad(), e.se()[5]), MRAD_STEP);
    double worst =
        halfDiagonal * Math.max(Math.max(Math.abs(kx), Math.abs(ky)) * 1e-6, Math.abs(q) * 1e-3);
    if (!band().beyond(worst)) {
      return new Scale(
          0,
          0,
          0,
          Decision.LEAVE,
          seen + " moves the farthest part by " + NumberWords.um(worst) + ", " + within(band()));
    }
    String reason =
        "the axes stretch the panel ("
            + seen
            + ", "
            + NumberWords.p(tests.p(TermFamily.SCALE))
            + "), "
            + NumberWords.um(worst)
            + " at the farthest part";
    return accepts(TrimKind.SCALE)
        ? new Scale(kx, ky, q, Decision.TRIM, reason)
        : new Scale(0, 0, 0, Decision.NOT_ACCEPTED, reason + "; the machine takes no scale trim");
  }

  /**
   * A value of a family that stands out, or 0 where it is itself so small that leaving it predicts
   * the next panel better (Akaike's criterion for one value).
   */
  private static double known(double value, double se) {
    return value * value < 2 * se * se ? 0 : value;
  }

  private Shift shift(double[] b, boolean forced) {
    if (partsRegistered) {
      return new Shift(
          Xy.ZERO,
          Decision.CANNOT_TELL,
          "the article was registered on the parts themselves, so the panel offset is gone");
    }
    double mx = fits.shiftX().mean();
    double my = fits.shiftY().mean();
    String seen =
        NumberWords.um("x", mx, Math.sqrt(fits.shiftX().variance()))
            + ", "
            + NumberWords.um("y", my, Math.sqrt(fits.shiftY().variance()))
            + " at the centre of what was measured";
    boolean passes = tests.passes(TermFamily.SHIFT);
    if (!passes && !forced) {
      return new Shift(
          Xy.ZERO,
          Decision.LEAVE,
          leaveReason(TermFamily.SHIFT, "no panel offset stands out", seen) + repeatability());
    }
    if (onlySelfCentring) {
      return new Shift(Xy.ZERO, Decision.LEAVE, REFLOWED);
    }
    double keep = passes ? Shrink.factor(tests.t2(TermFamily.SHIFT), 2) : 0;
    DeadBand band = band();
    double[] c = fits.position().centroid();
    double cx = band.beyond(keep * mx) ? -keep * mx : 0;
    double cy = band.beyond(keep * my) ? -keep * my : 0;
    double wantX = cx - b[0] * c[0] - b[1] * c[1];
    double wantY = cy - b[2] * c[0] - b[3] * c[1];
    double x = Step.round(wantX, machine.resolutionMm());
    double y = Step.round(wantY, machine.resolutionMm());
    if (accepts(TrimKind.REGISTRATION)) {
      rounding.shift(
          wantX - x + (cx == 0 ? left(-keep * mx, 0) : 0),
          wantY - y + (cy == 0 ? left(-keep * my, 0) : 0));
    }
    if (x == 0 && y == 0) {
      return forced
          ? new Shift(Xy.ZERO, Decision.TRIM, "the panel rotation needs no panel offset with it")
          : new Shift(Xy.ZERO, Decision.LEAVE, "the panel offset " + seen + " is " + within(band));
    }
    String reason =
        passes
            ? "the panel offset is "
                + seen
                + " ("
                + NumberWords.p(tests.p(TermFamily.SHIFT))
                + ")"
                + repeatability()
            : "goes with rotation and scale, so that the middle of the panel stays where it is";
    if (forced && passes) {
      reason += "; what rotation and scale do about the panel origin is counted in it";
    }
    return accepts(TrimKind.REGISTRATION)
        ? new Shift(new Xy(x, y), Decision.TRIM, reason)
        : new Shift(
            Xy.ZERO, Decision.NOT_ACCEPTED, reason + "; the machine takes no registration trim");
  }

  private ArrayTrim array() {
    if (job.array().columns() * job.array().rows() == 1) {
      return new ArrayTrim(List.of(), Decision.LEAVE, "one board: there is no array");
    }
    if (!fits.scaleVisible()) {
      return new ArrayTrim(
          List.of(),
          Decision.CANNOT_TELL,
          "measured with the machine's own camera and axes: an array error cancels and cannot be"
              + " seen");
    }
    double[] a = fits.position().array();
    StringBuilder seen = new StringBuilder();
    if (!Double.isNaN(a[0])) {
      seen.append("per column (")
          .append(NumberWords.signedUm(a[0]))
          .append(", ")
          .append(NumberWords.signedUm(a[1]))
          .append(")");
    }
    if (!Double.isNaN(a[2])) {
      seen.append(seen.length() == 0 ? "" : ", ")
          .append("per row (")
          .append(NumberWords.signedUm(a[2]))
          .append(", ")
          .append(NumberWords.signedUm(a[3]))
          .append(")");
    }
    if (!tests.passes(TermFamily.ARRAY)) {
      return new ArrayTrim(
          List.of(),
          Decision.LEAVE,
          leaveReason(
              TermFamily.ARRAY,
              "the board array shows no error of its own",
              seen.length() == 0 ? "not in the model" : seen.toString()));
    }
    if (onlySelfCentring) {
      return new ArrayTrim(List.of(), Decision.LEAVE, REFLOWED);
    }
    int d = (Double.isNaN(a[0]) ? 0 : 2) + (Double.isNaN(a[2]) ? 0 : 2);
    double keep = Shrink.factor(tests.t2(TermFamily.ARRAY), d);
    double[] fix = new double[4];
    double worst = 0;
    for (int i = 0; i < 4; i++) {
      fix[i] = Double.isNaN(a[i]) ? 0 : -keep * a[i];
      int steps = (i < 2 ? job.array().columns() : job.array().rows()) - 1;
      worst = Math.max(worst, Math.abs(fix[i]) * steps);
    }
    DeadBand band = band();
    if (!band.beyond(worst)) {
      return new ArrayTrim(
          List.of(),
          Decision.LEAVE,
          seen + " is at most " + NumberWords.um(worst) + " across the panel, " + within(band));
    }
    String reason =
        "boards step by "
            + seen
            + " beyond the taught array ("
            + NumberWords.p(tests.p(TermFamily.ARRAY))
            + "): teach the listed boards again, or look at the axis";
    if (!accepts(TrimKind.ARRAY)) {
      return new ArrayTrim(
          List.of(), Decision.NOT_ACCEPTED, reason + "; the machine takes no array trim");
    }
    List<BoardOrigin> boards = new ArrayList<>();
    for (Board board : job.array().boards()) {
      if (!board.listed()) {
        continue;
      }
      int c = board.index().column() - 1;
      int r = board.index().row() - 1;
      boards.add(
          new BoardOrigin(
              board.index(),
              Step.round(board.origin().xMm() + fix[0] * c + fix[2] * r, machine.resolutionMm()),
              Step.round(board.origin().yMm() + fix[1] * c + fix[3] * r, machine.resolutionMm())));
    }
    if (!off.contains(TrimKind.ARRAY.key())) {
      arrayTrim = fix;
      field.array(fix);
    }
    return new ArrayTrim(boards, Decision.TRIM, reason);
  }

  private Shift common() {
    double[] m = fits.position().common();
    if (Double.isNaN(m[0])) {
      return new Shift(
          Xy.ZERO,
          Decision.LEAVE,
          Double.isNaN(fits.position().commonP())
              ? "the placements cannot show an offset that all parts share, or it was not asked for"
              : "no offset that all parts share stands out ("
                  + NumberWords.p(fits.position().commonP())
                  + "): leave it alone");
    }
    double[] se = fits.position().commonSe();
    String seen = NumberWords.um("x", m[0], se[0]) + ", " + NumberWords.um("y", m[1], se[1]);
    if (!tests.passes(TermFamily.COMMON)) {
      return new Shift(
          Xy.ZERO,
          Decision.LEAVE,
          leaveReason(TermFamily.COMMON, "no offset that all parts share stands out", seen));
    }
    if (job.stage() == Stage.REFLOWED && onlySelfCentring) {
      return new Shift(Xy.ZERO, Decision.LEAVE, REFLOWED);
    }
    double keep = Shrink.factor(tests.t2(TermFamily.COMMON), 2);
    DeadBand band = band();
    double x = trimMm(-keep * m[0], band);
    double y = trimMm(-keep * m[1], band);
    if (accepts(TrimKind.COMMON)) {
      rounding.common(left(-keep * m[0], x), left(-keep * m[1], y));
    }
    if (x == 0 && y == 0) {
      return new Shift(
          Xy.ZERO, Decision.LEAVE, "the common offset " + seen + " is " + within(band));
    }
    String reason =
        "all parts share an offset of "
            + seen
            + " that turns with them ("
            + NumberWords.p(tests.p(TermFamily.COMMON))
            + "): the axis from camera to nozzle";
    if (!accepts(TrimKind.COMMON)) {
      return new Shift(
          Xy.ZERO,
          Decision.NOT_ACCEPTED,
          reason
              + (accepts(TrimKind.PART)
                  ? "; the machine takes no common trim, so it is counted in the part types'"
                  : "; the machine takes no such trim"));
    }
    if (!off.contains(TrimKind.COMMON.key())) {
      field.common(x, y);
    }
    return new Shift(new Xy(x, y), Decision.TRIM, reason);
  }

  private double trimMm(double want, DeadBand band) {
    double r = Step.round(want, machine.resolutionMm());
    return band.beyond(want) && lowers(r, want) ? r : 0;
  }

  private double trimDeg(double want, DeadBand band) {
    double r = Step.round(want, machine.rotationResolutionDeg());
    return band.beyond(want) && lowers(r, want) ? r : 0;
  }

  private Angle rotationZero() {
    RotationFit r = fits.rotation();
    if (r == null) {
      return new Angle(0, Decision.LEAVE, "no rotation was measured");
    }
    String seen = NumberWords.deg(r.zero(), Math.sqrt(TestList.rotationZeroVariance(fits, r)));
    if (!tests.passes(TermFamily.ROTATION_ZERO)) {
      return new Angle(
          0,
          Decision.LEAVE,
          leaveReason(TermFamily.ROTATION_ZERO, "no common rotation stands out", seen));
    }
    if (onlySelfCentring) {
      return new Angle(0, Decision.LEAVE, REFLOWED);
    }
    double want = -r.zero() * Shrink.factor(tests.t2(TermFamily.ROTATION_ZERO), 1);
    double v = trimDeg(want, rotationBand());
    if (accepts(TrimKind.ROTATION_ZERO)) {
      rounding.rotationZero(want - v);
    }
    if (v == 0) {
      return new Angle(
          0,
          Decision.LEAVE,
          "the common rotation "
              + seen
              + " is finer than the machine's step of "
              + NumberWords.step(machine.rotationResolutionDeg())
              + " deg");
    }
    String reason =
        "all parts are turned by "
            + seen
            + " against the panel ("
            + NumberWords.p(tests.p(TermFamily.ROTATION_ZERO))
            + ")";
    if (!accepts(TrimKind.ROTATION_ZERO)) {
      return new Angle(
          0, Decision.NOT_ACCEPTED, reason + "; the machine takes no rotation zero trim");
    }
    if (!off.contains(TrimKind.ROTATION_ZERO.key())) {
      field.rotationZero(v);
    }
    return new Angle(v, Decision.TRIM, reason);
  }

  private final List<Folding.Term<LevelKey>> candidates = new ArrayList<>();

  /** Takes out what is too small to be worth typing, and enters the rest. */
  private void fold() {
    Set<LevelKey> folded = all ? Set.of() : Folding.fold(candidates);
    double rms2 = 0;
    for (Folding.Term<LevelKey> t : candidates) {
      TrimValue v = Objects.requireNonNull(levels.get(t.key()));
      if (folded.contains(t.key())) {
        rms2 += t.gain();
        v = folded(v);
        levels.put(t.key(), v);
        rounding.forget(t.key());
      }
      if (v.decision() == Decision.TRIM) {
        LevelKey k = t.key();
        field.level(new Level(k.factor(), k.level()), k.frame() == OffsetFrame.PART, v.whole());
      }
    }
    foldedRmsMm = Math.sqrt(Math.max(0, rms2));
    foldedTerms = folded.size();
  }

  /** A turn is never folded, the small rest beside it may be. */
  private static TrimValue folded(TrimValue v) {
    return v.turn() == 0
        ? new TrimValue(Xyr.ZERO, Decision.LEAVE, Folding.REASON + ": " + v.reason())
        : new TrimValue(
            Xyr.ZERO, v.turn(), Decision.TRIM, v.reason() + "; the rest is " + Folding.REASON);
  }

  /** Leaves everything that was to be trimmed, for one reason; whole turns of types stay. */
  public void leave(String reason) {
    batch = SheetGuard.left(batch, reason);
    levels.replaceAll((k, v) -> SheetGuard.left(v, reason));
    arrayTrim = new double[4];
    foldedTerms = 0;
    panelField.clear();
    field.clear();
    levels.forEach(
        (k, v) -> {
          if (v.decision() == Decision.TRIM) {
            field.level(new Level(k.factor(), k.level()), k.frame() == OffsetFrame.PART, v.whole());
          }
        });
  }

  private int foldedTerms;
  private double foldedRmsMm;

  /** Sentence on what was folded, or null. */
  public @Nullable String folded() {
    return foldedTerms == 0 ? null : Folding.sentence(foldedTerms, foldedRmsMm);
  }

  /** A type off by more than machines are, though the other types spread so far as well. */
  private @Nullable Apart large(Factor factor, String level, double[] v) {
    var f = fits.used().factors().get(factor);
    int l = f == null || factor != Factor.PART ? -1 : f.levels().indexOf(level);
    return f == null || l < 0 || f.counts()[l] < Apart.ENOUGH || !(Math.hypot(v[0], v[1]) >= LARGE)
        ? null
        : new Apart(factor, level, f.counts()[l], true, false, v[0], v[1], Double.NaN);
  }

  private @Nullable Apart apart(Factor factor, String level) {
    return keepOutliers ? null : fits.apart(factor, level);
  }

  private void levels(Shift common, Angle zero) {
    RotationFit r = fits.rotation();
    for (Factor factor : Factor.values()) {
      int k = r == null ? -1 : r.factors().indexOf(factor);
      var f = fits.used().factors().get(factor);
      if (f == null || !fits.factors().contains(factor)) {
        continue;
      }
      boolean carry = factor == Factor.PART && common.decision() == Decision.NOT_ACCEPTED;
      // Rotation that all parts share and that no trim of its own takes out.
      double restOfZero =
          r == null || factor != Factor.PART || zero.decision() == Decision.TRIM ? 0 : r.zero();
      for (int l = 0; l < f.levels().size(); l++) {
        String level = f.levels().get(l);
        for (Fits.Part p : fits.parts(factor)) {
          levels.put(
              new LevelKey(factor, level, p.frame()),
              new OneLevel(factor, level, l, p, r, p.rotations() ? k : -1, carry, restOfZero)
                  .value());
        }
      }
    }
    fold();
  }

  /** One level of a factor: what it is off by, and what becomes of that. */
  private final class OneLevel {
    private final Factor factor;
    private final String level;
    private final int l;
    private final Fits.Part p;
    private final @Nullable RotationFit r;
    private final int k;
    private final boolean carried;
    private final double restOfZero;
    private final @Nullable FactorEffect e;
    private final String source;
    private final int zero;
    private final @Nullable Apart apart;

    OneLevel(
        Factor factor,
        String level,
        int l,
        Fits.Part p,
        @Nullable RotationFit r,
        int k,
        boolean carryCommon,
        double restOfZero) {
      this.factor = factor;
      this.level = level;
      this.l = l;
      this.p = p;
      this.r = k >= 0 ? r : null;
      this.k = k;
      this.carried = carryCommon && tests.passes(TermFamily.COMMON);
      this.restOfZero = restOfZero;
      e = p.effect();
      source = e == null ? factor.key() : e.source();
      zero = factor == Factor.PART ? fits.zeroOrientation(level) : 0;
      apart = p.rotations() ? apart(factor, level) : null;
    }

    TrimValue value() {
      TrimValue untold = untold();
      return untold != null ? untold : told();
    }

    /** What cannot be decided, whatever its size; null when it can. */
    private @Nullable TrimValue untold() {
      if (e == null && r == null && zero == 0) {
        return new TrimValue(Xyr.ZERO, Decision.CANNOT_TELL, notInModel(factor));
      }
      if (factor == Factor.PART && relativeTypes.contains(level)) {
        return new TrimValue(
            Xyr.ZERO,
            Decision.CANNOT_TELL,
            "this type was measured against a taught sample of which nobody knows where it stood,"
                + " so its offset cannot be known");
      }
      if (job.stage() == Stage.REFLOWED
          && factor == Factor.PART
          && job.partType(level).selfCentres()) {
        return new TrimValue(
            Xyr.ZERO,
            Decision.LEAVE,
            "after reflow this type has centred itself on its lands, so its offset says nothing"
                + " about the machine");
      }
      return apart != null && !apart.systematic()
          ? new TrimValue(Xyr.ZERO, Decision.CANNOT_TELL, ApartWords.question(apart))
          : null;
    }

    private TrimValue told() {
      DeadBand band = band();
      double[] v = offsetMm();
      double[] trim = new double[2];
      for (int a = 0; a < 2; a++) {
        trim[a] = typed(a) ? trimMm(-v[a], band) : 0;
      }
      double rot = rotationDeg();
      boolean turns = turns();
      double fine = turns ? trimDeg(-rot, rotationBand()) : 0;
      int turn = zero == 0 ? 0 : TrimValue.back(zero, job.partType(level).symmetry());
      Xyr value = new Xyr(trim[0], trim[1], fine);
      TrimKind kind = factor.trim().orElse(null);
      LevelKey key = new LevelKey(factor, level, p.frame());
      boolean accepted = kind != null && accepts(kind);
      if (accepted) {
        double[] less = new double[2];
        for (int a = 0; a < 2; a++) {
          less[a] = typed(a) ? left(-v[a], trim[a]) : 0;
        }
        rounding.level(key, new Xyr(less[0], less[1], turns ? -rot - fine : 0));
      }
      String seen = seen(e, l, v, r, k, level, rot, restOfZero != 0);
      if (value.equals(Xyr.ZERO) && turn == 0) {
        return new TrimValue(Xyr.ZERO, Decision.LEAVE, leaveLevel(source, seen, band, v, rot));
      }
      String reason = reason(v, seen);
      if (off.contains(new Level(factor, level).toString())) {
        return new TrimValue(Xyr.ZERO, Decision.LEAVE, OFF);
      }
      if (accepted) {
        candidates.add(folding.term(key, new Xyr(v[0], v[1], rot), value, fine, apart != null));
        return new TrimValue(value, turn, Decision.TRIM, reason);
      }
      return new TrimValue(
          Xyr.ZERO,
          Decision.NOT_ACCEPTED,
          reason + "; the machine takes no " + factor.key() + " trim, so correct the coordinates");
    }

    /** Offset with what is common where that is carried here: x, y, mm. */
    private double[] offsetMm() {
      if (e == null) {
        return new double[2];
      }
      double[] m = carried ? fits.position().common() : new double[2];
      return new double[] {e.x()[l] + m[0], e.y()[l] + m[1]};
    }

    /** Whether an axis is worth typing, x 0, y 1. */
    private boolean typed(int axis) {
      return e != null
          && (apart != null && apart.position()
              || carried
              || tests.passes(source, axis == 0 ? OffsetAxis.X : OffsetAxis.Y));
    }

    private double rotationDeg() {
      if (r == null) {
        return 0;
      }
      int rl = r.level(k, level);
      return (rl < 0 ? 0 : r.offset(k, rl)) + restOfZero;
    }

    private boolean turns() {
      return r != null
          && (apart != null && apart.rotation() || tests.passes(factor.key(), OffsetAxis.ROTATION));
    }

    private String reason(double[] v, String seen) {
      @Nullable Apart aside = apart != null ? apart : large(factor, level, v);
      return (aside != null ? ApartWords.systematic(aside) : "sits at " + seen)
          + (factor == Factor.PART || e == null ? "" : ", an offset that " + p.frame().words())
          + (zero == 0
              ? ""
              : " and the whole type is turned by "
                  + zero
                  + " deg: another zero component orientation (IPC-7351) in its library");
    }
  }

  /** An offset with its standard errors; axes of which nothing is known are left out. */
  private static String seen(
      @Nullable FactorEffect e,
      int l,
      double[] v,
      @Nullable RotationFit r,
      int k,
      String level,
      double rot,
      boolean whole) {
    List<String> parts = new ArrayList<>();
    if (e != null) {
      parts.add(NumberWords.um("x", v[0], e.seX()[l]));
      parts.add(NumberWords.um("y", v[1], e.seY()[l]));
    }
    int rl = r == null || k < 0 ? -1 : r.level(k, level);
    if (r != null && rl >= 0) {
      parts.add(
          "rotation " + NumberWords.deg(rot, whole ? r.combinedSe(k, rl) : r.offsetSe(k, rl)));
    }
    return String.join(", ", parts);
  }

  private String notInModel(Factor factor) {
    for (String d : fits.position().droppedFactors()) {
      if (d.startsWith(factor.key() + ":")) {
        return d.substring(factor.key().length() + 2)
            + ", so its offset cannot be told from others: change one place only";
      }
    }
    return "the measurements cannot show an offset of this " + factor.key();
  }

  private String leaveLevel(String factor, String seen, DeadBand band, double[] v, double rot) {
    boolean any =
        tests.passes(factor, OffsetAxis.X)
            || tests.passes(factor, OffsetAxis.Y)
            || tests.passes(factor, OffsetAxis.ROTATION);
    if (!any) {
      return "offsets by "
          + factor
          + " do not stand out from scatter, so "
          + seen
          + " is left alone";
    }
    if (!band.beyond(v[0]) && !band.beyond(v[1])) {
      return seen + " is " + within(band);
    }
    return seen
        + ": the axes that stand out are "
        + within(band)
        + ", the others do not stand out from scatter";
  }
}
