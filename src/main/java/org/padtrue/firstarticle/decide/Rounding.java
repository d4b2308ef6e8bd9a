package org.padtrue.firstarticle.decide;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.next.PartReach;
import org.padtrue.firstarticle.next.TrimField;
import org.padtrue.firstarticle.result.RoundingCost;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;
import org.padtrue.panel.Machine;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.article.DeviationTable;

/** Gathers what rounding to the machine's steps leaves, and what that costs on the next panel. */
final class Rounding {
  private double turnDeg;
  private double shiftX;
  private double shiftY;
  private double commonX;
  private double commonY;
  private double zeroDeg;
  private final Map<LevelKey, Xyr> levels = new HashMap<>();

  /** Wanted minus entered, degrees. */
  void turn(double deg) {
    turnDeg = deg;
  }

  /** Wanted minus entered, mm. */
  void shift(double x, double y) {
    shiftX = x;
    shiftY = y;
  }

  /** Wanted minus entered, mm. */
  void common(double x, double y) {
    commonX = x;
    commonY = y;
  }

  /** Wanted minus entered, degrees. */
  void rotationZero(double deg) {
    zeroDeg = deg;
  }

  /** Wanted minus entered of a level: mm, mm, degrees. */
  void level(LevelKey key, Xyr left) {
    levels.put(key, left);
  }

  /** A level that is left for another reason. */
  void forget(LevelKey key) {
    levels.remove(key);
  }

  /** The cost by kind, the largest first; what is nought is left out. */
  List<RoundingCost> costs(Fits fits, Machine m, PartReach reach) {
    DeviationTable t = fits.used();
    TrimField plane = new TrimField();
    plane.shift(shiftX, shiftY);
    plane.common(commonX, commonY);
    TrimField rotation = new TrimField();
    rotation.rotationZero(zeroDeg);
    levels.forEach(
        (k, v) -> {
          boolean part = k.frame() == OffsetFrame.PART;
          plane.level(new Level(k.factor(), k.level()), part, new Xyr(v.x(), v.y(), 0));
          rotation.level(new Level(k.factor(), k.level()), part, new Xyr(0, 0, v.rotation()));
        });
    double[] c = fits.position().centroid();
    double[] sum = new double[3];
    for (int i = 0; i < t.size(); i++) {
      List<Level> keys = t.rows().get(i).named();
      Xyr p = plane.at(0, 0, t.theta()[i], 1, 1, keys);
      sum[0] += p.x() * p.x() + p.y() * p.y();
      double lever = Math.hypot(t.x()[i] - c[0], t.y()[i] - c[1]);
      sum[1] += square(Math.toRadians(turnDeg) * lever);
      double r = rotation.at(0, 0, 0, 1, 1, keys).rotation();
      sum[2] += square(Math.toRadians(r) * reach.of(t.rows().get(i).placement().part()));
    }
    List<RoundingCost> out = new ArrayList<>();
    add(out, "offsets", m.resolutionMm(), "mm", sum[0] / t.size());
    add(out, "panel rotation", m.panelRotationResolutionDeg(), "deg", sum[1] / t.size());
    add(out, Factor.PART.key() + " rotation", m.rotationResolutionDeg(), "deg", sum[2] / t.size());
    out.sort(Comparator.comparingDouble(RoundingCost::rmsMm).reversed());
    return out;
  }

  private static void add(
      List<RoundingCost> out, String what, double step, String unit, double meanSquare) {
    if (meanSquare > 0) {
      out.add(new RoundingCost(what, step, unit, Math.sqrt(meanSquare)));
    }
  }

  private static double square(double v) {
    return v * v;
  }
}
