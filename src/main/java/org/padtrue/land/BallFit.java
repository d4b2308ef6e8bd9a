package org.padtrue.land;

import java.util.List;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/** Balls: how far a ball's centre may be from its land's centre. */
final class BallFit extends LandFit {
  private final double[] ballX;
  private final double[] ballY;
  private final double[] landX;
  private final double[] landY;
  private final double[] allowed;

  BallFit(PartType part, LimitRule rule) {
    super(part, farthest(part.terminations()));
    int[] keep = outermost(part, rule);
    ballX = new double[keep.length];
    ballY = new double[keep.length];
    landX = new double[keep.length];
    landY = new double[keep.length];
    allowed = new double[keep.length];
    for (int i = 0; i < keep.length; i++) {
      Rect ball = part.terminations().get(keep[i]);
      Rect land = part.lands().get(keep[i]);
      ballX[i] = ball.xMm();
      ballY[i] = ball.yMm();
      landX[i] = land.xMm();
      landY[i] = land.yMm();
      allowed[i] = rule.offsetLimitMm(land);
    }
  }

  private static int[] outermost(PartType part, LimitRule rule) {
    int n = part.terminations().size();
    double[] x = new double[n];
    double[] y = new double[n];
    double[][] alike = new double[n][];
    for (int i = 0; i < n; i++) {
      Rect ball = part.terminations().get(i);
      Rect land = part.lands().get(i);
      x[i] = ball.xMm();
      y[i] = ball.yMm();
      alike[i] = new double[] {x[i] - land.xMm(), y[i] - land.yMm(), rule.offsetLimitMm(land)};
    }
    return Outermost.of(x, y, alike);
  }

  /** Number of balls looked at. */
  int balls() {
    return allowed.length;
  }

  private static double farthest(List<Rect> balls) {
    return balls.stream().mapToDouble(b -> Math.hypot(b.xMm(), b.yMm())).max().orElse(0);
  }

  @Override
  public double marginAt(double dxMm, double dyMm, double rotationRad) {
    double c = Math.cos(rotationRad);
    double s = Math.sin(rotationRad);
    double best = Double.POSITIVE_INFINITY;
    for (int i = 0; i < allowed.length; i++) {
      double x = c * ballX[i] - s * ballY[i] + dxMm - landX[i];
      double y = s * ballX[i] + c * ballY[i] + dyMm - landY[i];
      best = Math.min(best, allowed[i] - Math.sqrt(x * x + y * y));
    }
    return best;
  }

  @Override
  public void chord(boolean alongX, double rotationRad, double otherMm, double[] out) {
    double c = Math.cos(rotationRad);
    double s = Math.sin(rotationRad);
    out[0] = Double.NEGATIVE_INFINITY;
    out[1] = Double.POSITIVE_INFINITY;
    for (int i = 0; i < allowed.length; i++) {
      double x = c * ballX[i] - s * ballY[i] - landX[i];
      double y = s * ballX[i] + c * ballY[i] - landY[i];
      double held = otherMm + (alongX ? y : x);
      double half2 = allowed[i] * allowed[i] - held * held;
      if (half2 < 0) {
        empty(out);
        return;
      }
      double half = Math.sqrt(half2);
      double centre = alongX ? x : y;
      out[0] = Math.max(out[0], -centre - half);
      out[1] = Math.min(out[1], -centre + half);
    }
  }

  @Override
  public boolean rectangular() {
    return false;
  }

  @Override
  public void limits(double rotationRad, double[] out) {
    throw new IllegalStateException("balls have no rectangle of shifts; use chord");
  }

  /** A ball is carried by at most the shift's length plus reach times the angle. */
  @Override
  public double safeSigmas(
      double dxMm, double dyMm, double rotationRad, double sdX, double sdY, double sdRad) {
    double spread = Math.hypot(sdX, sdY) + reachMm() * sdRad;
    return ratio(marginAt(dxMm, dyMm, rotationRad), spread);
  }
}
