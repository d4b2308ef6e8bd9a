package org.padtrue.land;

import java.util.Arrays;
import org.padtrue.panel.PartType;

/** Nothing to judge by: no number rather than a guess. */
final class NoFit extends LandFit {
  NoFit(PartType part) {
    super(part, Double.NaN);
  }

  @Override
  public boolean judged() {
    return false;
  }

  @Override
  public double marginAt(double dxMm, double dyMm, double rotationRad) {
    return Double.NaN;
  }

  @Override
  public void chord(boolean alongX, double rotationRad, double otherMm, double[] out) {
    out[0] = Double.NaN;
    out[1] = Double.NaN;
  }

  @Override
  public void limits(double rotationRad, double[] out) {
    Arrays.fill(out, Double.NaN);
  }

  @Override
  public double safeSigmas(
      double dxMm, double dyMm, double rotationRad, double sdX, double sdY, double sdRad) {
    return Double.NaN;
  }
}
