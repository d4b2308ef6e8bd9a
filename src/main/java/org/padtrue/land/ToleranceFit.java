package org.padtrue.land;

import org.padtrue.panel.Envelope;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Tolerance;

/** Judges by the tolerance of the part file; a component that is NaN limits nothing. */
final class ToleranceFit extends LandFit {
  private final double xMm;
  private final double yMm;
  private final double rotationRad;
  private final double leverMm;

  ToleranceFit(PartType part, Tolerance t) {
    super(part, 0);
    xMm = unlessNaN(t.xMm());
    yMm = unlessNaN(t.yMm());
    rotationRad = Math.toRadians(unlessNaN(t.rotationDeg()));
    leverMm = lever(part, Math.min(xMm, yMm), rotationRad);
  }

  private static double unlessNaN(double v) {
    return Double.isNaN(v) ? Double.POSITIVE_INFINITY : v;
  }

  /** Half the longest side of what is known of the part; else a full tolerance per tolerance. */
  private static double lever(PartType part, double tolMm, double tolRad) {
    Rect body = part.body();
    if (body != null) {
      return Math.max(body.lengthMm(), body.widthMm()) / 2;
    }
    Envelope e = part.envelope();
    if (e != null) {
      return Math.max(e.lengthMm(), e.widthMm()) / 2;
    }
    double most = 0;
    for (Rect r : part.terminations()) {
      most = Math.max(most, Math.abs(r.xMm()) + r.lengthMm() / 2);
      most = Math.max(most, Math.abs(r.yMm()) + r.widthMm() / 2);
    }
    return most > 0 ? most : tolMm / Math.max(tolRad, Math.toRadians(0.01));
  }

  @Override
  public double marginAt(double dxMm, double dyMm, double rotation) {
    double left = Math.min(xMm - Math.abs(dxMm), yMm - Math.abs(dyMm));
    double excess = Math.abs(rotation) - rotationRad;
    return excess > 0 ? Math.min(left, -excess * leverMm) : left;
  }

  @Override
  public void chord(boolean alongX, double rotation, double otherMm, double[] out) {
    if (Math.abs(otherMm) > (alongX ? yMm : xMm) || Math.abs(rotation) > rotationRad) {
      empty(out);
      return;
    }
    double half = alongX ? xMm : yMm;
    out[0] = -half;
    out[1] = half;
  }

  @Override
  public void limits(double rotation, double[] out) {
    out[0] = -xMm;
    out[1] = xMm;
    out[2] = -yMm;
    out[3] = yMm;
  }

  @Override
  public double rotationLimitRad() {
    return rotationRad;
  }

  @Override
  public double safeSigmas(
      double dxMm, double dyMm, double rotation, double sdX, double sdY, double sdRad) {
    double x = ratio(xMm - Math.abs(dxMm), sdX);
    double y = ratio(yMm - Math.abs(dyMm), sdY);
    return Math.min(Math.min(x, y), ratio(rotationRad - Math.abs(rotation), sdRad));
  }
}
