package org.padtrue.firstarticle.next;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Level;
import org.padtrue.quantity.Angles;

/** The corrections that are entered, as a field over placements: values that are ADDED. */
public final class TrimField {
  private double shiftX;
  private double shiftY;
  private double[] linear = {0, 0, 0, 0};
  private double rotation;
  private double[] array = {0, 0, 0, 0};
  private double commonX;
  private double commonY;
  private double rotationZero;
  private final Map<Level, Xyr> partFrame = new HashMap<>();
  private final Map<Level, Xyr> panelFrame = new HashMap<>();

  /** Takes every correction out. */
  public void clear() {
    shift(0, 0);
    linear(0, new double[4]);
    array(new double[4]);
    common(0, 0);
    rotationZero(0);
    partFrame.clear();
    panelFrame.clear();
  }

  public void shift(double x, double y) {
    shiftX = x;
    shiftY = y;
  }

  /** Rotation in degrees and the whole linear part of the correction, about the panel origin. */
  public void linear(double rotationDeg, double[] b) {
    rotation = rotationDeg;
    linear = b.clone();
  }

  public void array(double[] perColumnPerRow) {
    array = perColumnPerRow.clone();
  }

  public void common(double x, double y) {
    commonX = x;
    commonY = y;
  }

  public void rotationZero(double deg) {
    rotationZero = deg;
  }

  public void level(Level level, boolean inPartFrame, Xyr value) {
    (inPartFrame ? partFrame : panelFrame).put(level, value);
  }

  /**
   * Correction of one placement.
   *
   * @param levels of the placement
   */
  public Xyr at(double x, double y, double thetaDeg, int column, int row, List<Level> levels) {
    double c = Angles.cosDeg(thetaDeg);
    double s = Angles.sinDeg(thetaDeg);
    double px = commonX;
    double py = commonY;
    double dx = shiftX + linear[0] * x + linear[1] * y;
    double dy = shiftY + linear[2] * x + linear[3] * y;
    double dr = rotation + rotationZero;
    dx += array[0] * (column - 1) + array[2] * (row - 1);
    dy += array[1] * (column - 1) + array[3] * (row - 1);
    for (Level key : levels) {
      Xyr p = partFrame.get(key);
      if (p != null) {
        px += p.x();
        py += p.y();
        dr += p.rotation();
      }
      Xyr q = panelFrame.get(key);
      if (q != null) {
        dx += q.x();
        dy += q.y();
        dr += q.rotation();
      }
    }
    return new Xyr(dx + c * px - s * py, dy + s * px + c * py, dr);
  }
}
