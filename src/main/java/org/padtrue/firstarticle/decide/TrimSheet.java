package org.padtrue.firstarticle.decide;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TrimEffect;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;
import org.padtrue.panel.TrimKind;

/** The trim sheet: one line per thing to change, what takes out most first. */
public final class TrimSheet {
  private static final String MM_DEG = "mm, mm, deg";
  private static final String ORIGIN = "panel origin (0, 0)";
  private static final double NO = Double.NaN;

  private final List<TrimLine> out = new ArrayList<>();
  private final TrimEffects effects;

  private TrimSheet(TrimEffects effects) {
    this.effects = effects;
  }

  /**
   * The sheet. A whole turn of a type comes first, boards of the array stay together, else the line
   * that takes out most.
   */
  public static List<TrimLine> lines(
      Job job, BatchTrim b, List<GroupResult> groups, TrimEffects effects) {
    TrimSheet s = new TrimSheet(effects);
    s.panel(b);
    s.array(job, b);
    s.parts(b);
    s.levels(groups);
    s.sort();
    return s.out;
  }

  private void panel(BatchTrim b) {
    boolean shift = b.shift().decision() == Decision.TRIM;
    boolean turn = b.rotation().decision() == Decision.TRIM;
    if (shift && !b.shift().value().equals(Xy.ZERO) || turn) {
      out.add(
          new TrimLine(
                  TrimKind.REGISTRATION.key(),
                  TrimKind.REGISTRATION.key(),
                  "",
                  b.shift().value().x(),
                  b.shift().value().y(),
                  turn ? b.rotation().value() : NO,
                  MM_DEG,
                  "panel",
                  ORIGIN,
                  turn && shift
                      ? b.shift().reason() + "; " + b.rotation().reason()
                      : turn ? b.rotation().reason() : b.shift().reason())
              .with(effects.registration()));
    }
    BatchTrim.Scale s = b.scale();
    if (s.decision() != Decision.TRIM) {
      return;
    }
    if (s.xPpm() != 0 || s.yPpm() != 0) {
      out.add(
          new TrimLine(
                  TrimLine.AXIS_SCALE,
                  TrimKind.SCALE.key(),
                  "",
                  s.xPpm(),
                  s.yPpm(),
                  NO,
                  "ppm, ppm",
                  "panel",
                  ORIGIN,
                  s.reason())
              .with(effects.scale()));
    }
    if (s.squarenessMrad() != 0) {
      out.add(
          new TrimLine(
              "squareness",
              TrimKind.SCALE.key(),
              "",
              NO,
              NO,
              NO,
              0,
              s.squarenessMrad(),
              "mrad",
              "panel",
              ORIGIN,
              s.reason(),
              effects.squareness()));
    }
  }

  private void array(Job job, BatchTrim b) {
    boolean said = false;
    for (BatchTrim.BoardOrigin o : b.array().boards()) {
      Board board = job.array().find(o.board()).orElseThrow();
      double dx = clean(o.x() - board.origin().xMm());
      double dy = clean(o.y() - board.origin().yMm());
      if (dx == 0 && dy == 0) {
        continue;
      }
      TrimEffect e = effects.board(o.board());
      out.add(
          new TrimLine(
                  TrimLine.originOf(o.board()),
                  TrimKind.ARRAY.key(),
                  number(board.origin().xMm()) + ", " + number(board.origin().yMm()),
                  dx,
                  dy,
                  NO,
                  MM_DEG,
                  "panel",
                  "",
                  b.array().reason())
              .with(said ? e.saidElsewhere() : e));
      said = true;
    }
  }

  private void parts(BatchTrim b) {
    if (b.common().decision() == Decision.TRIM) {
      out.add(
          new TrimLine(
                  "offset common to all parts",
                  TrimKind.COMMON.key(),
                  "",
                  b.common().value().x(),
                  b.common().value().y(),
                  NO,
                  MM_DEG,
                  "part",
                  "",
                  b.common().reason())
              .with(effects.common()));
    }
    if (b.rotationZero().decision() == Decision.TRIM) {
      out.add(
          new TrimLine(
                  "rotation zero of all parts",
                  TrimKind.ROTATION_ZERO.key(),
                  "",
                  NO,
                  NO,
                  b.rotationZero().value(),
                  MM_DEG,
                  "part",
                  "",
                  b.rotationZero().reason())
              .with(effects.rotationZero()));
    }
  }

  private void levels(List<GroupResult> groups) {
    for (GroupResult g : groups) {
      if (g.trim().decision() == Decision.TRIM) {
        Xyr v = g.trim().value();
        out.add(
            new TrimLine(
                g.named().words(),
                g.factor().key(),
                "",
                v.x(),
                v.y(),
                v.rotation(),
                g.trim().turn(),
                NO,
                MM_DEG,
                g.frame(),
                "",
                g.trim().reason(),
                effects.level(g)));
      }
    }
  }

  private void sort() {
    double array = 0;
    for (TrimLine t : out) {
      array =
          t.kind().equals(TrimKind.ARRAY.key())
              ? Math.max(array, known(t.effect().takesOutMm()))
              : array;
    }
    double boards = array;
    out.sort(
        Comparator.<TrimLine>comparingInt(t -> t.addTurn() != 0 ? 0 : 1)
            .thenComparingDouble(
                t ->
                    t.kind().equals(TrimKind.ARRAY.key())
                        ? -boards
                        : -known(t.effect().takesOutMm())));
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  private static double clean(double v) {
    return Math.rint(v * 1e6) / 1e6 + 0.0;
  }

  private static String number(double v) {
    return String.format(Locale.ROOT, "%.3f", v);
  }
}
