package org.padtrue.load;

import java.util.List;
import java.util.function.DoublePredicate;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.text.ProblemList;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
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
  private static final double SMALL_DEG = 20;

  private final boolean hasPose;
  private final boolean hasDeviation;
  private final boolean hasDRotation;
  private final boolean hasRotation;
  private boolean rotationIsDeviation;

  private ArticleMode(Header h) {
    hasPose = h.has(Field.X) && h.has(Field.Y);
    hasDeviation = h.has(Field.DX) && h.has(Field.DY);
    hasDRotation = h.has(Field.DROTATION);
    hasRotation = h.has(Field.ROTATION);
  }

  static ArticleMode of(Header h) {
    return new ArticleMode(h);
  }

  boolean poses() {
    return !hasDeviation;
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
  void settle(Job job, List<MeasuredRow> rows, RefIndex refs, Header h, ProblemList problems) {
    if (hasPose && hasDeviation && !allNominal(job, rows, refs)) {
      problems.add(
          h.line(),
          "the article has both "
              + h.name(Field.X)
              + " and "
              + h.name(Field.DX)
              + ", and the former are not the nominal positions",
          "leave only measured positions or only deviations");
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
      if (p >= 0 && !Double.isNaN(r.x()) && !nominalAnywhere(job, r, p)) {
        return false;
      }
    }
    return true;
  }

  private static boolean nominalAnywhere(Job job, MeasuredRow r, int placement) {
    Pose own = job.placements().get(placement).pose();
    for (Board b : job.array().boards()) {
      boolean named =
          b.index().column() == Math.max(1, r.column()) && b.index().row() == Math.max(1, r.row());
      Pose n = own.seenFrom(b.origin());
      if (named && Math.abs(n.xMm() - r.x()) < SAME_MM && Math.abs(n.yMm() - r.y()) < SAME_MM) {
        return true;
      }
    }
    return false;
  }
}
