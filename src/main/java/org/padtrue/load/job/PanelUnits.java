package org.padtrue.load.job;

import java.util.List;
import org.padtrue.load.text.ProblemList;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Fiducial;
import org.padtrue.quantity.LengthUnit;

/**
 * Notices jobs in which {@code panel} is given in the unit of the placement file: it is in mm,
 * whatever {@code units} say.
 *
 * <p>Speaks where the boards (or the fiducials) make no panel in mm and a usual one in that unit:
 * boards that lie on each other, fiducials that all stand within a tenth of the board.
 */
final class PanelUnits {
  private static final double OVERLAP = 0.8;
  private static final double TENTH = 0.1;

  private PanelUnits() {}

  static void check(JobText text, Layout layout, List<Fiducial> own, ProblemList problems) {
    LengthUnit unit = text.options().unit();
    JobText.PanelText panel = text.panel();
    if (unit == null || unit == LengthUnit.MM || panel == null || layout.placements().size() < 2) {
      return;
    }
    double[] x = layout.placements().stream().mapToDouble(p -> p.pose().xMm()).toArray();
    double[] y = layout.placements().stream().mapToDouble(p -> p.pose().yMm()).toArray();
    double w = range(x);
    double h = range(y);
    boolean boards =
        !layout.wholePanel()
            && !panel.listed().isEmpty()
            && overlap(layout.array(), w, h, 1)
            && !overlap(layout.array(), w, h, unit.mm());
    double fx = range(own.stream().mapToDouble(Fiducial::xMm).toArray());
    double fy = range(own.stream().mapToDouble(Fiducial::yMm).toArray());
    double largest = Math.max(w, h);
    double mark = Math.max(fx, fy);
    boolean marks =
        own.size() > 1
            && layout.array().boards().size() == 1
            && (mark < TENTH * largest && mark * unit.mm() > TENTH * largest
                || mark * TENTH > largest && mark * unit.mm() * TENTH < largest);
    if (boards || marks) {
      problems.add(
          panel.line(),
          Integer.toString(panel.column()),
          (boards ? "the boards lie on each other" : "the fiducials do not fit the placements")
              + " in mm and would not in "
              + unit.label()
              + "; \"panel\" is always in mm, and \"units\" is the placement file's",
          "give boards and fiducials in mm");
    }
  }

  /** True when two boards cover each other's placements, their places taken times a factor. */
  private static boolean overlap(BoardArray a, double w, double h, double factor) {
    List<Board> boards = a.boards();
    for (int i = 0; i < boards.size(); i++) {
      for (int j = 0; j < i; j++) {
        double dx = factor * (boards.get(i).origin().xMm() - boards.get(j).origin().xMm());
        double dy = factor * (boards.get(i).origin().yMm() - boards.get(j).origin().yMm());
        if (Math.abs(dx) < OVERLAP * w && Math.abs(dy) < OVERLAP * h) {
          return true;
        }
      }
      if (i > 50) {
        return false;
      }
    }
    return false;
  }

  private static double range(double[] v) {
    double lo = Double.POSITIVE_INFINITY;
    double hi = Double.NEGATIVE_INFINITY;
    for (double a : v) {
      lo = Math.min(lo, a);
      hi = Math.max(hi, a);
    }
    return v.length == 0 ? 0 : hi - lo;
  }
}
