package org.padtrue.check;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.decide.Decisions;
import org.padtrue.firstarticle.decide.EnteredTrims;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Level;
import org.padtrue.panel.Measured;
import org.padtrue.panel.TrimKind;
import org.padtrue.quantity.Angles;

/** The deviation that the analysis and its trims promise for a placement of the next panel. */
final class TrimCheckPromise {
  private final TrimCheckBefore before;
  private final EnteredTrims trims;
  private final List<double[]> linear = new ArrayList<>();
  private final TransformValues mean;
  private final Map<Level, List<GroupResult>> groups = new HashMap<>();

  TrimCheckPromise(TrimCheckBefore before, BoardArray array) {
    this.before = before;
    trims =
        EnteredTrims.of(before.batchTrim(), before.groups(), array, EnumSet.allOf(TrimKind.class));
    mean = TrimCheckItem.mean(before.transforms());
    for (TransformValues v : before.transforms()) {
      linear.add(
          Decisions.linear(
              TrimCheckItem.known(v.rotation()),
              new BatchTrim.Scale(
                  TrimCheckItem.known(v.scaleXPpm()),
                  TrimCheckItem.known(v.scaleYPpm()),
                  TrimCheckItem.known(v.squarenessMrad()),
                  Decision.TRIM,
                  "")));
    }
    for (GroupResult g : before.groups()) {
      groups.computeIfAbsent(g.named(), k -> new ArrayList<>()).add(g);
    }
  }

  /** x and y in mm, rotation in degrees (not wrapped). */
  Xyr at(Measured m) {
    double x = m.nominal().xMm();
    double y = m.nominal().yMm();
    double dx = TrimCheckItem.known(mean.shiftX());
    double dy = TrimCheckItem.known(mean.shiftY());
    for (double[] a : linear) {
      dx += (a[0] * x + a[1] * y) / linear.size();
      dy += (a[2] * x + a[3] * y) / linear.size();
    }
    double dr = TrimCheckItem.known(mean.rotation());
    dr += before.rotationZero() == null ? 0 : before.rotationZero().value();
    ArrayError array = before.array();
    if (array != null) {
      int c = m.board().column() - 1;
      int r = m.board().row() - 1;
      dx += times(c, array.perColumn().x()) + times(r, array.perRow().x());
      dy += times(c, array.perColumn().y()) + times(r, array.perRow().y());
    }
    double px = before.common() == null ? 0 : before.common().value().x();
    double py = before.common() == null ? 0 : before.common().value().y();
    for (Level key : m.named()) {
      for (GroupResult g : groups.getOrDefault(key, List.of())) {
        dr += TrimCheckItem.known(g.offset().rotation()) + g.zeroOrientation();
        boolean turns = g.frame().equals("part");
        px += turns ? TrimCheckItem.known(g.offset().x()) : 0;
        py += turns ? TrimCheckItem.known(g.offset().y()) : 0;
        dx += turns ? 0 : TrimCheckItem.known(g.offset().x());
        dy += turns ? 0 : TrimCheckItem.known(g.offset().y());
      }
    }
    double c = Angles.cosDeg(m.nominal().rotationDeg());
    double s = Angles.sinDeg(m.nominal().rotationDeg());
    Xyr t = trims.at(m.nominal(), m.board(), m.placement().part(), m.levels());
    return new Xyr(dx + c * px - s * py + t.x(), dy + s * px + c * py + t.y(), dr + t.rotation());
  }

  private static double times(int steps, double perStep) {
    return steps == 0 || Double.isNaN(perStep) ? 0 : steps * perStep;
  }
}
