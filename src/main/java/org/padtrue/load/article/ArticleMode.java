package org.padtrue.load.article;

import java.util.List;
import java.util.function.DoublePredicate;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.text.ProblemList;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.problem.AsIs;
import org.padtrue.problem.Question;
import org.padtrue.problem.QuestionException;
import org.padtrue.quantity.Angles;

/**
 * Whether an article gives poses or deviations.
 *
 * <p>With both x, y and dx, dy the former are nominal when every row has the job's nominal position
 * in them (a measuring plan filled in), and the deviations are taken. A column of rotations beside
 * deviations without a column of their own is taken as measured rotations or as deviations,
 * whichever all rows agree with.
 */
final class ArticleMode {
  private static final double SAME_MM = 0.0006;

  /** Half of the last decimal that a measuring plan is written with. */
  private static final double EXACT = 0.6e-6;

  private static final double SMALL_DEG = 20;

  /** Rounding of two columns that say the same. */
  private static final double BOTH_MM = 0.0025;

  private static final int LEAST_ROWS = 3;
  private static final double SHARE = 0.8;

  private final boolean hasPose;
  private final boolean hasDeviation;
  private final boolean hasDRotation;
  private final boolean hasRotation;
  private final boolean isPlan;
  private boolean rotationIsDeviation;

  private ArticleMode(Header h) {
    hasPose = h.has(Field.X) && h.has(Field.Y);
    hasDeviation = h.has(Field.DX) && h.has(Field.DY);
    hasDRotation = h.has(Field.DROTATION);
    hasRotation = h.has(Field.ROTATION);
    isPlan = hasPose && h.has(Field.ORDER) && h.has(Field.PART);
  }

  static ArticleMode of(Header h) {
    return new ArticleMode(h);
  }

  boolean poses() {
    return !hasDeviation;
  }

  /** True for a row that has the nominal position but no deviation. */
  boolean notMeasured(MeasuredRow r) {
    return hasDeviation && Double.isNaN(r.dx());
  }

  /** Rotation deviation of a row, in (-180, 180]; NaN when not measured. */
  double dRotation(MeasuredRow r, double nominalDeg) {
    if (hasDRotation) {
      return Angles.wrap(r.dRotation());
    }
    if (hasDeviation && hasPose) {
      return Double.NaN;
    }
    return Angles.wrap(rotationIsDeviation ? r.rotation() : r.rotation() - nominalDeg);
  }

  /** Settles what several columns leave open; adds a problem where nothing settles it. */
  void settle(
      Job job,
      List<MeasuredRow> rows,
      RefIndex refs,
      Header h,
      ProblemList problems,
      String file,
      AsIs asIs) {
    boolean two = hasPose && hasDeviation && !both(job, rows, refs, 1);
    if (two && both(job, rows, refs, -1)) {
      if (!asIs.answers("sign")) {
        throw new QuestionException(
            new Question(
                "sign",
                file,
                h.name(Field.DX)
                    + " and "
                    + h.name(Field.DY)
                    + " look like nominal minus measured: they have the opposite sign of "
                    + h.name(Field.X)
                    + " and "
                    + h.name(Field.Y)
                    + " minus the nominal position",
                "give measured minus nominal, or leave only the measured positions"));
      }
    } else if (two && !allNominal(job, rows, refs)) {
      problems.add(
          h.line(),
          "the article has both "
              + h.name(Field.X)
              + " and "
              + h.name(Field.DX)
              + ", and the former are not the nominal positions",
          "leave only measured positions or only deviations");
    }
    if (!hasDeviation && isPlan && !rows.isEmpty() && unchanged(job, rows, refs)) {
      problems.add(
          h.line(),
          "this is a measuring plan: every row holds the nominal pose, so nothing is measured",
          "add columns dx, dy, drotation and fill them in, or write what was measured over x, y,"
              + " rotation");
    }
    if (hasDeviation && !hasPose && hasRotation && !hasDRotation) {
      boolean asDeviation = rows.stream().allMatch(r -> small(r.rotation()));
      boolean asMeasured =
          rows.stream().allMatch(r -> nominal(job, r, refs, n -> small(r.rotation() - n)));
      boolean same = rows.stream().allMatch(r -> nominal(job, r, refs, n -> n == 0));
      rotationIsDeviation = asDeviation && !asMeasured;
      if (asDeviation == asMeasured && !same) {
        problems.add(
            h.line(),
            h.name(Field.ROTATION),
            "the column may hold measured rotations or deviations",
            "name it drotation when it holds deviations");
      }
    }
  }

  private static boolean small(double deg) {
    return Double.isNaN(deg) || Math.abs(Angles.wrap(deg)) <= SMALL_DEG;
  }

  private static boolean nominal(Job job, MeasuredRow r, RefIndex refs, DoublePredicate test) {
    int p = refs.find(r.ref());
    return p < 0 || test.test(job.placements().get(p).pose().rotationDeg());
  }

  private static boolean allNominal(Job job, List<MeasuredRow> rows, RefIndex refs) {
    for (MeasuredRow r : rows) {
      int p = refs.find(r.ref());
      if (p >= 0 && !Double.isNaN(r.x()) && !nominal(job, r, p, SAME_MM)) {
        return false;
      }
    }
    return true;
  }

  /**
   * True when the positions beside deviations are measured ones, and the deviations are these minus
   * the nominal ones, times {@code sign}, in eight rows of ten.
   */
  private static boolean both(Job job, List<MeasuredRow> rows, RefIndex refs, int sign) {
    int same = 0;
    int all = 0;
    for (MeasuredRow r : rows) {
      int p = refs.find(r.ref());
      if (p < 0 || Double.isNaN(r.x()) || Double.isNaN(r.dx())) {
        continue;
      }
      all++;
      Pose own = job.placements().get(p).pose();
      for (Board b : job.array().boards()) {
        Pose n = own.seenFrom(b.origin());
        double ex = r.x() - n.xMm() - sign * r.dx();
        double ey = r.y() - n.yMm() - sign * r.dy();
        boolean moved = Math.hypot(r.dx(), r.dy()) > 2 * BOTH_MM;
        boolean named =
            r.column() == 0
                || b.index().column() == r.column() && b.index().row() == Math.max(1, r.row());
        if (named && moved && Math.abs(ex) < BOTH_MM && Math.abs(ey) < BOTH_MM) {
          same++;
          break;
        }
      }
    }
    return all >= LEAST_ROWS && same >= SHARE * all;
  }

  /** True when the poses are the nominal ones to the last decimal. */
  private static boolean unchanged(Job job, List<MeasuredRow> rows, RefIndex refs) {
    for (MeasuredRow r : rows) {
      int p = refs.find(r.ref());
      if (p < 0 || !nominal(job, r, p, EXACT)) {
        return false;
      }
      double turn = r.rotation() - job.placements().get(p).pose().rotationDeg();
      double board = 180 * Math.rint(turn / 180);
      if (!(Math.abs(turn - board) <= EXACT)) {
        return false;
      }
    }
    return true;
  }

  private static boolean nominal(Job job, MeasuredRow r, int placement, double tolMm) {
    Pose own = job.placements().get(placement).pose();
    for (Board b : job.array().boards()) {
      boolean named =
          b.index().column() == Math.max(1, r.column()) && b.index().row() == Math.max(1, r.row());
      Pose n = own.seenFrom(b.origin());
      if (named && Math.abs(n.xMm() - r.x()) < tolMm && Math.abs(n.yMm() - r.y()) < tolMm) {
        return true;
      }
    }
    return false;
  }
}
