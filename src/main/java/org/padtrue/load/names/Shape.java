package org.padtrue.load.names;

import java.util.TreeSet;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/**
 * What names of land patterns tell of a part type, worked out from its geometry.
 *
 * @param layout how its terminations stand
 * @param pins terminations but for one in the middle
 * @param middle side of the termination in the middle, mm; 0 when there is none
 * @param pitch least distance of neighbouring terminations along y, mm; NaN for two
 * @param span over the ends along x, mm
 * @param length body along x, mm
 * @param width body along y, mm
 */
record Shape(
    Layout layout,
    int pins,
    double middle,
    double pitch,
    double span,
    double length,
    double width) {
  /** Arrangement of terminations. */
  enum Layout {
    TWO,
    DUAL,
    QUAD,
    GRID,
    OTHER
  }

  private static final double CENTRE_MM = 0.01;
  private static final double TAB = 0.7;

  static Shape of(PartType t) {
    int pins = 0;
    double middle = 0;
    double span = 0;
    TreeSet<Double> ys = new TreeSet<>();
    TreeSet<Double> xs = new TreeSet<>();
    for (Rect r : t.terminations()) {
      boolean inMiddle = Math.hypot(r.xMm(), r.yMm()) < CENTRE_MM && t.kind() != JointKind.BALL;
      if (inMiddle) {
        middle = Math.max(r.lengthMm(), r.widthMm());
        continue;
      }
      pins++;
      span = Math.max(span, 2 * (Math.abs(r.xMm()) + r.lengthMm() / 2));
      ys.add(Math.rint(r.yMm() * 1e4) / 1e4);
      xs.add(Math.rint(Math.abs(r.xMm()) * 1e4) / 1e4);
    }
    Rect body = t.body();
    Layout layout = layout(t, pins, xs);
    return new Shape(
        layout,
        pins,
        middle,
        layout == Layout.QUAD ? pitch(column(t, span)) : pitch(ys),
        span,
        body == null ? Double.NaN : body.lengthMm(),
        body == null ? Double.NaN : body.widthMm());
  }

  private static Layout layout(PartType t, int pins, TreeSet<Double> xs) {
    if (t.kind() == JointKind.BALL) {
      return Layout.GRID;
    }
    if (pins == 2) {
      return Layout.TWO;
    }
    if (pins < 2) {
      return Layout.OTHER;
    }
    // a tab may stand a little elsewhere than the leads opposite
    return xs.first() > TAB * xs.last() ? Layout.DUAL : Layout.QUAD;
  }

  /** Least distance of the leads at the left, mm: a tab opposite is none of them. */
  static double leadPitch(PartType t) {
    TreeSet<Double> ys = new TreeSet<>();
    t.terminations().stream().filter(r -> r.xMm() < -CENTRE_MM).forEach(r -> ys.add(r.yMm()));
    return pitch(ys);
  }

  /** Where the leads of the columns at the far left and right stand: rows lie between them. */
  private static TreeSet<Double> column(PartType t, double span) {
    TreeSet<Double> ys = new TreeSet<>();
    for (Rect r : t.terminations()) {
      if (2 * (Math.abs(r.xMm()) + r.lengthMm() / 2) > span - CENTRE_MM) {
        ys.add(Math.rint(r.yMm() * 1e4) / 1e4);
      }
    }
    return ys;
  }

  private static double pitch(TreeSet<Double> ys) {
    double least = Double.NaN;
    Double before = null;
    for (double y : ys) {
      if (before != null && !(y - before >= least)) {
        least = y - before;
      }
      before = y;
    }
    return least;
  }
}
