package org.padtrue.load.standard;

import java.util.ArrayList;
import java.util.List;

/** An arc of an outline, mm. */
public final class StandardArc {
  private StandardArc() {}

  /**
   * Its left-most, right-most, lowest and highest points as far as it passes them; ends that are
   * the same make a full circle.
   */
  public static List<double[]> extremes(
      double fromX,
      double fromY,
      double toX,
      double toY,
      double centreX,
      double centreY,
      boolean clockwise) {
    double r = Math.hypot(fromX - centreX, fromY - centreY);
    double from = Math.toDegrees(Math.atan2(fromY - centreY, fromX - centreX));
    double to = Math.toDegrees(Math.atan2(toY - centreY, toX - centreX));
    double sweep = (clockwise ? from - to : to - from) % 360;
    sweep = sweep <= 1e-9 ? sweep + 360 : sweep;
    List<double[]> points = new ArrayList<>();
    for (int k = 0; k < 4; k++) {
      double d = (clockwise ? from - 90.0 * k : 90.0 * k - from) % 360;
      if ((d + 360) % 360 <= sweep) {
        double dx = k == 0 ? r : k == 2 ? -r : 0;
        double dy = k == 1 ? r : k == 3 ? -r : 0;
        points.add(new double[] {centreX + dx, centreY + dy});
      }
    }
    return points;
  }
}
