package org.padtrue.door;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Board;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.problem.AsIs;
import org.padtrue.problem.Question;
import org.padtrue.quantity.LengthUnit;

/**
 * Fiducials and board origins of the job's panel in another unit than mm.
 *
 * <p>Fiducials lie around the placements: those that span ten times as much, or a tenth, and lie
 * around them in another unit, are written in that. Boards of one orientation cannot lie in each
 * other by more than half.
 */
final class PanelValues {
  private static final String KEY = "panelUnits";
  private static final double TIMES = 10;

  /** How far from the placements fiducials may lie, as a share of what the placements span. */
  private static final double AROUND = 0.5;

  private static final double HALF = 0.5;

  private PanelValues() {}

  static Optional<Question> question(Job job, AsIs asIs) {
    return asIs.answers(KEY) || job.placements().size() < 2
        ? Optional.empty()
        : fiducials(job).or(() -> boards(job));
  }

  private static Optional<Question> ask(Job job, String found) {
    return Optional.of(new Question(KEY, job.name(), found, "write it in mm"));
  }

  private static Optional<Question> fiducials(Job job) {
    List<double[]> marks = new ArrayList<>();
    for (Fiducial f : job.fiducials()) {
      if (f.scope() == Fiducial.Scope.PANEL) {
        marks.add(new double[] {f.xMm(), f.yMm()});
      }
    }
    List<double[]> places = new ArrayList<>();
    for (Board b : job.array().boards()) {
      job.placements().forEach(p -> places.add(at(p.pose().seenFrom(b.origin()))));
    }
    if (marks.size() < 2) {
      return Optional.empty();
    }
    Box around = Box.of(places);
    Box given = Box.of(marks);
    if (given.span() < TIMES * around.span() && TIMES * given.span() > around.span()) {
      return Optional.empty();
    }
    for (LengthUnit u : LengthUnit.values()) {
      if (u == LengthUnit.MM) {
        continue;
      }
      List<double[]> read =
          marks.stream().map(m -> new double[] {m[0] * u.mm(), m[1] * u.mm()}).toList();
      if (Box.of(read).span() > around.span() / 4 && around.holds(read)) {
        return ask(
            job,
            "\"panel.fiducials\" span "
                + number(given.span())
                + " mm where the placements span "
                + number(around.span())
                + " mm, which looks like "
                + u.label());
      }
    }
    return Optional.empty();
  }

  private static Optional<Question> boards(Job job) {
    Box own = Box.of(job.placements().stream().map(Placement::pose).map(PanelValues::at).toList());
    double w = own.x1() - own.x0();
    double h = own.y1() - own.y0();
    @Nullable Board before = null;
    for (Board b : job.array().boards()) {
      if (before != null && b.origin().rotationDeg() == before.origin().rotationDeg()) {
        Pose turned = new Pose(0, 0, -b.origin().rotationDeg());
        Pose apart =
            new Pose(
                    b.origin().xMm() - before.origin().xMm(),
                    b.origin().yMm() - before.origin().yMm(),
                    0)
                .seenFrom(turned);
        if (Math.abs(apart.xMm()) < HALF * w && Math.abs(apart.yMm()) < HALF * h) {
          return ask(
              job,
              "the origins of boards "
                  + before.index()
                  + " and "
                  + b.index()
                  + " lie "
                  + number(Math.hypot(apart.xMm(), apart.yMm()))
                  + " mm apart, but the placements of one board span "
                  + number(w)
                  + " x "
                  + number(h)
                  + " mm, so \"panel.boards\" looks written in another unit");
        }
      }
      before = b;
    }
    return Optional.empty();
  }

  private static double[] at(Pose p) {
    return new double[] {p.xMm(), p.yMm()};
  }

  private static String number(double v) {
    return BigDecimal.valueOf(v).round(new MathContext(3)).stripTrailingZeros().toPlainString();
  }

  /** What points span, mm. */
  private record Box(double x0, double y0, double x1, double y1) {
    static Box of(List<double[]> points) {
      double[] b = {
        Double.POSITIVE_INFINITY,
        Double.POSITIVE_INFINITY,
        Double.NEGATIVE_INFINITY,
        Double.NEGATIVE_INFINITY
      };
      for (double[] p : points) {
        b[0] = Math.min(b[0], p[0]);
        b[1] = Math.min(b[1], p[1]);
        b[2] = Math.max(b[2], p[0]);
        b[3] = Math.max(b[3], p[1]);
      }
      return new Box(b[0], b[1], b[2], b[3]);
    }

    double span() {
      return Math.hypot(x1 - x0, y1 - y0);
    }

    boolean holds(List<double[]> points) {
      double m = AROUND * span();
      return points.stream()
          .allMatch(p -> p[0] > x0 - m && p[0] < x1 + m && p[1] > y0 - m && p[1] < y1 + m);
    }
  }
}
