package org.padtrue.firstarticle.decide;

import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.fitted.TestList;
import org.padtrue.firstarticle.next.NextPanel;
import org.padtrue.firstarticle.next.PartReach;
import org.padtrue.firstarticle.next.PlacementTable;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TrimEffect;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.mixed.PanelEstimate;
import org.padtrue.mixed.RotationFit;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Measured;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.quantity.Angles;

/**
 * What each line of the trim sheet takes out of the next panel, all other lines being entered: the
 * expected mean square without it minus that with it, over the placements that were used, and the
 * expected number outside likewise.
 *
 * <p>Panel terms count about the centre of what was measured: the registration line holds what
 * rotation and scale do about the panel origin, and none of them is charged with that. A rotation
 * of parts counts as what it moves their farthest edge; a whole turn counts in the number outside
 * only.
 */
public final class TrimEffects {
  /** Below this chance, with and without all trims, a placement adds nothing to what is said. */
  private static final double NO_RISK = 1e-5;

  private final Job job;
  private final Fits fits;
  private final Decisions decisions;
  private final NextPanel next;
  private final PlacementTable table;
  private final PartReach reach;
  private final Xyr[] after;
  private final double[] centre;

  /** One line's own correction at a placement: mm, mm, degrees without turn. */
  private interface Own {
    Xyr at(Pose nominal, BoardIndex board, String part, Levels levels);
  }

  public TrimEffects(
      Job job, Fits fits, Decisions decisions, NextPanel next, PlacementTable table) {
    this.job = job;
    this.fits = fits;
    this.decisions = decisions;
    this.next = next;
    this.table = table;
    reach = new PartReach(job);
    centre = fits.position().centroid();
    after = after();
  }

  /** Systematic deviation of each used placement on the next panel with every trim entered. */
  private Xyr[] after() {
    DeviationTable t = fits.used();
    Xyr[] a = new Xyr[t.size()];
    for (int i = 0; i < a.length; i++) {
      Measured m = t.rows().get(i);
      Xyr mean =
          next.mean(
              m.nominal(),
              m.board().column(),
              m.board().row(),
              Budget.levels(fits.position(), t, i),
              m.placement());
      Xyr fix =
          decisions
              .field()
              .at(t.x()[i], t.y()[i], t.theta()[i], t.column()[i], t.row()[i], m.named());
      int symmetry = job.partType(m.placement().part()).symmetry();
      double turn = mean.rotation() + fix.rotation();
      a[i] =
          new Xyr(
              mean.x() + fix.x(),
              mean.y() + fix.y(),
              Double.isNaN(turn) ? 0 : Angles.wrap(turn, symmetry));
    }
    return a;
  }

  /** Panel offset and rotation. */
  TrimEffect registration() {
    BatchTrim b = decisions.batch();
    Xyr middle = decisions.panelAt(centre[0], centre[1]);
    double[] turn = Decisions.linear(b.rotation().value(), null);
    PanelEstimate e = fits.panels().get(0);
    double arc = fits.turn().variance() * Math.toRadians(1) * Math.toRadians(1);
    boolean stretch = b.scale().decision() == Decision.TRIM;
    double kx = stretch ? 1e-6 * e.se()[3] * centre[0] : 0;
    double ky = stretch ? 1e-6 * e.se()[4] * centre[1] : 0;
    boolean turned = b.rotation().decision() == Decision.TRIM;
    return effect(
        new Xyr(
            Math.sqrt(
                fits.shiftX().variance() + (turned ? arc * centre[1] * centre[1] : 0) + kx * kx),
            Math.sqrt(
                fits.shiftY().variance() + (turned ? arc * centre[0] * centre[0] : 0) + ky * ky),
            turned ? Math.sqrt(fits.turn().variance()) : Double.NaN),
        Double.NaN,
        (p, board, part, l) -> {
          Xyr r = about(turn, p);
          return new Xyr(middle.x() + r.x(), middle.y() + r.y(), b.rotation().value());
        });
  }

  private Xyr about(double[] linear, Pose p) {
    double x = p.xMm() - centre[0];
    double y = p.yMm() - centre[1];
    return new Xyr(linear[0] * x + linear[1] * y, linear[2] * x + linear[3] * y, 0);
  }

  /** Scale of the axes. */
  TrimEffect scale() {
    BatchTrim.Scale s = decisions.batch().scale();
    PanelEstimate e = fits.panels().get(0);
    double[] b = stretch(s.xPpm(), s.yPpm(), 0);
    return effect(
        new Xyr(e.se()[3], e.se()[4], Double.NaN), Double.NaN, (p, board, part, l) -> about(b, p));
  }

  /** Squareness of the axes. */
  TrimEffect squareness() {
    double[] b = stretch(0, 0, decisions.batch().scale().squarenessMrad());
    double se = fits.panels().get(0).se()[5];
    return effect(Xyr.UNKNOWN, se, (p, board, part, l) -> about(b, p));
  }

  private static double[] stretch(double xPpm, double yPpm, double squarenessMrad) {
    return Decisions.linear(0, new BatchTrim.Scale(xPpm, yPpm, squarenessMrad, Decision.TRIM, ""));
  }

  /** New origin of a board; what it takes out is that of the whole array. */
  TrimEffect board(BoardIndex board) {
    double[] a = decisions.arrayTrim();
    double[] se = fits.position().arraySe();
    double c = board.column() - 1.0;
    double r = board.row() - 1.0;
    return effect(
        new Xyr(
            Math.hypot(c == 0 ? 0 : c * se[0], r == 0 ? 0 : r * se[2]),
            Math.hypot(c == 0 ? 0 : c * se[1], r == 0 ? 0 : r * se[3]),
            Double.NaN),
        Double.NaN,
        (p, of, part, l) ->
            new Xyr(
                a[0] * (of.column() - 1) + a[2] * (of.row() - 1),
                a[1] * (of.column() - 1) + a[3] * (of.row() - 1),
                0));
  }

  /** Offset that all parts share. */
  TrimEffect common() {
    Xy v = decisions.batch().common().value();
    double[] se = fits.position().commonSe();
    return effect(
        new Xyr(se[0], se[1], Double.NaN),
        Double.NaN,
        (p, board, part, l) -> turned(v.x(), v.y(), 0, p.rotationDeg()));
  }

  /** Rotation that all parts share. */
  TrimEffect rotationZero() {
    double v = decisions.batch().rotationZero().value();
    RotationFit r = fits.rotation();
    double se = r == null ? Double.NaN : Math.sqrt(TestList.rotationZeroVariance(fits, r));
    return effect(
        new Xyr(Double.NaN, Double.NaN, se), Double.NaN, (p, board, part, l) -> new Xyr(0, 0, v));
  }

  private static Xyr turned(double x, double y, double rotation, double thetaDeg) {
    double c = Angles.cosDeg(thetaDeg);
    double s = Angles.sinDeg(thetaDeg);
    return new Xyr(c * x - s * y, s * x + c * y, rotation);
  }

  /** A part type, nozzle, feeder or head. */
  TrimEffect level(GroupResult g) {
    Xyr v = g.trim().value();
    double rotation = Double.isNaN(v.rotation()) ? 0 : v.rotation();
    boolean part = g.frame().equals(OffsetFrame.PART.key());
    Xyr se = g.factor() == Factor.PART ? g.combinedStandardErrors() : g.standardErrors();
    return effect(
        se,
        Double.NaN,
        (p, board, type, l) ->
            !g.level().equals(g.factor().level(type, l, board))
                ? Xyr.ZERO
                : turned(v.x(), v.y(), rotation, part ? p.rotationDeg() : 0),
        g.factor() == Factor.PART ? g.level() : "",
        g.trim().turn());
  }

  private TrimEffect effect(Xyr se, double squarenessError, Own own) {
    return effect(se, squarenessError, own, "", 0);
  }

  private TrimEffect effect(Xyr se, double squarenessError, Own own, String type, int turn) {
    return new TrimEffect(se, squarenessError, takesOut(own), fewerOutside(own, type, turn));
  }

  private double takesOut(Own own) {
    double sum = 0;
    int n = after.length;
    for (int i = 0; i < n; i++) {
      Measured m = fits.used().rows().get(i);
      String part = m.placement().part();
      Xyr t = own.at(m.nominal(), m.board(), part, m.levels());
      Xyr a = after[i];
      double arc = Math.toRadians(1) * reach.of(part);
      sum += more(a.x(), t.x()) + more(a.y(), t.y()) + arc * arc * more(a.rotation(), t.rotation());
    }
    return Math.sqrt(Math.max(0, sum / n));
  }

  /** Mean square without a correction minus that with it. */
  private static double more(double after, double trim) {
    return (after - trim) * (after - trim) - after * after;
  }

  private double fewerOutside(Own own, String type, int turn) {
    return table.fewerOutside(
        (nominal, board, p) -> {
          Xyr t = own.at(nominal, board, p.part(), p.levels());
          double whole = t.rotation() + (p.part().equals(type) ? turn : 0);
          return t.x() == 0 && t.y() == 0 && whole == 0 ? null : new Xyr(t.x(), t.y(), whole);
        },
        NO_RISK);
  }
}
