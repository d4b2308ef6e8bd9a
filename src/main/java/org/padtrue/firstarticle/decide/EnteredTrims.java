package org.padtrue.firstarticle.decide;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.padtrue.firstarticle.next.TrimField;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Level;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Pose;
import org.padtrue.panel.TrimKind;

/**
 * The corrections of an analysis as a field over placements: what the trims of chosen kinds, once
 * entered, add to a placement. Only what was decided to be trimmed counts.
 *
 * <p>Rotation and scale act about the panel origin; part-frame trims turn with the placement's
 * rotation; array trims are the steps per column and row that the new board coordinates stand for.
 */
public final class EnteredTrims {
  private final TrimField field = new TrimField();
  private final double[] linear;
  private final double[] steps;

  private EnteredTrims(double[] linear, double[] steps) {
    this.linear = linear;
    this.steps = steps;
  }

  /**
   * The field of some kinds.
   *
   * @param batch corrections for the batch
   * @param groups levels with their trims
   * @param array the boards as the job has them
   * @param kinds kinds that count
   */
  public static EnteredTrims of(
      BatchTrim batch, List<GroupResult> groups, BoardArray array, Set<TrimKind> kinds) {
    double turn = kinds.contains(TrimKind.ROTATION) ? value(batch.rotation()) : 0;
    boolean stretch = kinds.contains(TrimKind.SCALE) && batch.scale().decision() == Decision.TRIM;
    double[] steps = new double[4];
    if (kinds.contains(TrimKind.ARRAY) && batch.array().decision() == Decision.TRIM) {
      steps = steps(batch.array(), array);
    }
    EnteredTrims t =
        new EnteredTrims(Decisions.linear(turn, stretch ? batch.scale() : null), steps);
    t.field.linear(turn, t.linear);
    t.field.array(steps);
    if (kinds.contains(TrimKind.REGISTRATION) && batch.shift().decision() == Decision.TRIM) {
      t.field.shift(batch.shift().value().x(), batch.shift().value().y());
    }
    if (kinds.contains(TrimKind.COMMON) && batch.common().decision() == Decision.TRIM) {
      t.field.common(batch.common().value().x(), batch.common().value().y());
    }
    if (kinds.contains(TrimKind.ROTATION_ZERO)) {
      t.field.rotationZero(value(batch.rotationZero()));
    }
    for (GroupResult g : groups) {
      TrimKind kind = g.factor().trim().orElse(null);
      if (kind != null && kinds.contains(kind) && g.trim().decision() == Decision.TRIM) {
        t.field.level(g.named(), g.frame().equals("part"), known(g.trim().whole()));
      }
    }
    return t;
  }

  private static double value(BatchTrim.Angle a) {
    return a.decision() == Decision.TRIM ? a.value() : 0;
  }

  private static Xyr known(Xyr v) {
    return new Xyr(known(v.x()), known(v.y()), known(v.rotation()));
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  /** Steps per column (x, y) and row (x, y) that take the job's boards to the new ones. */
  private static double[] steps(BatchTrim.ArrayTrim trim, BoardArray array) {
    double cc = 0;
    double cr = 0;
    double rr = 0;
    double[] c = new double[2];
    double[] r = new double[2];
    List<double[]> moves = new ArrayList<>();
    for (BatchTrim.BoardOrigin o : trim.boards()) {
      Board b = array.find(o.board()).orElse(null);
      if (b == null) {
        continue;
      }
      double col = o.board().column() - 1;
      double row = o.board().row() - 1;
      double[] d = {o.x() - b.origin().xMm(), o.y() - b.origin().yMm()};
      moves.add(d);
      cc += col * col;
      cr += col * row;
      rr += row * row;
      for (int k = 0; k < 2; k++) {
        c[k] += col * d[k];
        r[k] += row * d[k];
      }
    }
    double det = cc * rr - cr * cr;
    double[] steps = new double[4];
    for (int k = 0; k < 2 && !moves.isEmpty(); k++) {
      if (det > 0) {
        steps[k] = (rr * c[k] - cr * r[k]) / det;
        steps[2 + k] = (cc * r[k] - cr * c[k]) / det;
      } else {
        steps[k] = cc > 0 ? c[k] / cc : 0;
        steps[2 + k] = rr > 0 && cc == 0 ? r[k] / rr : 0;
      }
    }
    return steps;
  }

  /** Steps per column (x, y) and row (x, y), mm. */
  public double[] arraySteps() {
    return steps.clone();
  }

  /**
   * What is added to a placement.
   *
   * @param nominal nominal pose in the panel frame
   * @param board its board
   * @param part part type
   * @param levels what files list of it: its nozzle, ...
   * @return correction in the panel frame, mm and degrees
   */
  public Xyr at(Pose nominal, BoardIndex board, String part, Levels levels) {
    return field.at(
        nominal.xMm(),
        nominal.yMm(),
        nominal.rotationDeg(),
        board.column(),
        board.row(),
        Level.of(part, levels, board));
  }

  /** What rotation and scale add at a point of the panel frame, about the panel origin, mm. */
  public Xy turnAndStretch(double xMm, double yMm) {
    return new Xy(linear[0] * xMm + linear[1] * yMm, linear[2] * xMm + linear[3] * yMm);
  }
}
