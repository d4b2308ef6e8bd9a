package org.padtrue.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;

/** The trim sheet: one line per thing to change, in the order to enter them. */
final class TrimSheet {
  private static final String MM_DEG = "mm, mm, deg";
  private static final String ORIGIN = "panel origin (0, 0)";

  private TrimSheet() {}

  static List<TrimLine> lines(Job job, BatchTrim b, List<GroupResult> groups) {
    List<TrimLine> out = new ArrayList<>();
    double no = Double.NaN;
    boolean shift = b.shift().decision() == Decision.TRIM;
    boolean turn = b.rotation().decision() == Decision.TRIM;
    if (shift && !b.shift().value().equals(Xy.ZERO) || turn) {
      out.add(
          new TrimLine(
              "registration",
              "registration",
              "",
              b.shift().value().x(),
              b.shift().value().y(),
              turn ? b.rotation().value() : no,
              MM_DEG,
              "panel",
              ORIGIN,
              turn && shift
                  ? b.shift().reason() + "; " + b.rotation().reason()
                  : turn ? b.rotation().reason() : b.shift().reason()));
    }
    if (b.scale().decision() == Decision.TRIM) {
      out.add(
          new TrimLine(
              "axis scale and squareness",
              "scale",
              "",
              b.scale().xPpm(),
              b.scale().yPpm(),
              b.scale().squarenessMrad(),
              "ppm, ppm, mrad",
              "panel",
              ORIGIN,
              b.scale().reason()));
    }
    for (BatchTrim.BoardOrigin o : b.array().boards()) {
      Board board = job.array().find(o.board()).orElseThrow();
      double dx = clean(o.x() - board.origin().xMm());
      double dy = clean(o.y() - board.origin().yMm());
      if (dx == 0 && dy == 0) {
        continue;
      }
      out.add(
          new TrimLine(
              "board " + o.board() + " origin",
              "array",
              number(board.origin().xMm()) + ", " + number(board.origin().yMm()),
              dx,
              dy,
              no,
              MM_DEG,
              "panel",
              "",
              b.array().reason()));
    }
    if (b.common().decision() == Decision.TRIM) {
      out.add(
          new TrimLine(
              "offset common to all parts",
              "common",
              "",
              b.common().value().x(),
              b.common().value().y(),
              no,
              MM_DEG,
              "part",
              "",
              b.common().reason()));
    }
    if (b.rotationZero().decision() == Decision.TRIM) {
      out.add(
          new TrimLine(
              "rotation zero of all parts",
              "rotationZero",
              "",
              no,
              no,
              b.rotationZero().value(),
              MM_DEG,
              "part",
              "",
              b.rotationZero().reason()));
    }
    for (GroupResult g : groups) {
      if (g.trim().decision() == Decision.TRIM) {
        Xyr v = g.trim().value();
        out.add(
            new TrimLine(
                word(g.factor()) + " " + g.level(),
                g.factor(),
                "",
                v.x(),
                v.y(),
                v.rotation(),
                g.trim().turn(),
                MM_DEG,
                g.frame(),
                "",
                g.trim().reason()));
      }
    }
    return out;
  }

  private static String word(String factor) {
    return factor.equals("part") ? "part type" : factor;
  }

  private static double clean(double v) {
    return Math.rint(v * 1e6) / 1e6 + 0.0;
  }

  private static String number(double v) {
    return String.format(Locale.ROOT, "%.3f", v);
  }
}
