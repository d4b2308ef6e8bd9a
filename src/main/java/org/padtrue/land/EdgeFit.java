package org.padtrue.land;

import java.util.List;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/** Judges straight edges: side and end limits and overlap of every termination. */
final class EdgeFit extends LandFit {
  /**
   * Turned farther, a termination points along the side of its land: sides and ends have changed
   * places and the limits say nothing any more. A small chip a quarter turned would pass them.
   */
  private static final double MOST_TURN = Math.PI / 4;

  private final Bounds xUpper = new Bounds(true);
  private final Bounds xLower = new Bounds(false);
  private final Bounds yUpper = new Bounds(true);
  private final Bounds yLower = new Bounds(false);

  EdgeFit(PartType part, LimitRule rule) {
    super(part, farthest(part.terminations()));
    List<EndAxis> ends = EndAxis.of(part);
    for (int i = 0; i < ends.size(); i++) {
      Rect t = part.terminations().get(i);
      Rect land = part.lands().get(i);
      EndAxis end = ends.get(i);
      if (end.x == 0) {
        sideX(t, land, rule.sideLimitMm(t.lengthMm(), land.lengthMm()));
      } else {
        endX(t, land, end.x, rule.endOverhangMm());
      }
      if (end.y == 0) {
        sideY(t, land, rule.sideLimitMm(t.widthMm(), land.widthMm()));
      } else {
        endY(t, land, end.y, rule.endOverhangMm());
      }
    }
    xUpper.prune();
    xLower.prune();
    yUpper.prune();
    yLower.prune();
  }

  /** Number of bounds looked at. */
  int bounds() {
    return xUpper.size() + xLower.size() + yUpper.size() + yLower.size();
  }

  private static double farthest(List<Rect> rects) {
    double most = 0;
    for (Rect r : rects) {
      double x = Math.abs(r.xMm()) + r.lengthMm() / 2;
      double y = Math.abs(r.yMm()) + r.widthMm() / 2;
      most = Math.max(most, Math.hypot(x, y));
    }
    return most;
  }

  private void sideX(Rect t, Rect land, double allowed) {
    addX(xUpper, t, 1, land.xMm() + land.lengthMm() / 2 + allowed);
    addX(xLower, t, 1, land.xMm() - land.lengthMm() / 2 - allowed);
  }

  private void sideY(Rect t, Rect land, double allowed) {
    addY(yUpper, t, 1, land.yMm() + land.widthMm() / 2 + allowed);
    addY(yLower, t, 1, land.yMm() - land.widthMm() / 2 - allowed);
  }

  /** Outwards the toe limit and, where that is generous, the overlap; inwards the overlap. */
  private void endX(Rect t, Rect land, int outward, double allowed) {
    Bounds out = outward > 0 ? xUpper : xLower;
    Bounds in = outward > 0 ? xLower : xUpper;
    double outer = land.xMm() + outward * land.lengthMm() / 2;
    if (!Double.isInfinite(allowed)) {
      addX(out, t, 1, outer + outward * allowed);
    }
    if (allowed > 0) {
      addX(out, t, -1, outer);
    }
    addX(in, t, -1, land.xMm() - outward * land.lengthMm() / 2);
  }

  private void endY(Rect t, Rect land, int outward, double allowed) {
    Bounds out = outward > 0 ? yUpper : yLower;
    Bounds in = outward > 0 ? yLower : yUpper;
    double outer = land.yMm() + outward * land.widthMm() / 2;
    if (!Double.isInfinite(allowed)) {
      addY(out, t, 1, outer + outward * allowed);
    }
    if (allowed > 0) {
      addY(out, t, -1, outer);
    }
    addY(in, t, -1, land.yMm() - outward * land.widthMm() / 2);
  }

  private static void addX(Bounds to, Rect t, int edge, double at) {
    to.add(t.xMm(), -t.yMm(), t.lengthMm() / 2, t.widthMm() / 2, edge, at);
  }

  private static void addY(Bounds to, Rect t, int edge, double at) {
    to.add(t.yMm(), t.xMm(), t.widthMm() / 2, t.lengthMm() / 2, edge, at);
  }

  @Override
  public double marginAt(double dxMm, double dyMm, double rotationRad) {
    double c = Math.cos(rotationRad);
    double s = Math.sin(rotationRad);
    double x = Math.min(xUpper.at(c, s) - dxMm, dxMm - xLower.at(c, s));
    double y = Math.min(yUpper.at(c, s) - dyMm, dyMm - yLower.at(c, s));
    double excess = Math.abs(rotationRad) - MOST_TURN;
    return excess > 0 ? Math.min(Math.min(x, y), -excess * reachMm()) : Math.min(x, y);
  }

  @Override
  public void chord(boolean alongX, double rotationRad, double otherMm, double[] out) {
    double c = Math.cos(rotationRad);
    double s = Math.sin(rotationRad);
    Bounds upper = alongX ? yUpper : xUpper;
    Bounds lower = alongX ? yLower : xLower;
    boolean turned = Math.abs(rotationRad) > MOST_TURN;
    if (turned || otherMm > upper.at(c, s) || otherMm < lower.at(c, s)) {
      empty(out);
      return;
    }
    out[0] = (alongX ? xLower : yLower).at(c, s);
    out[1] = (alongX ? xUpper : yUpper).at(c, s);
  }

  @Override
  public double rotationLimitRad() {
    return part().symmetry() < 4 ? MOST_TURN : Double.POSITIVE_INFINITY;
  }

  @Override
  public void limits(double rotationRad, double[] out) {
    double c = Math.cos(rotationRad);
    double s = Math.sin(rotationRad);
    out[0] = xLower.at(c, s);
    out[1] = xUpper.at(c, s);
    out[2] = yLower.at(c, s);
    out[3] = yUpper.at(c, s);
  }

  /** Turning by an angle moves no edge by more than reach times the angle, in either axis. */
  @Override
  public double safeSigmas(
      double dxMm, double dyMm, double rotationRad, double sdX, double sdY, double sdRad) {
    double c = Math.cos(rotationRad);
    double s = Math.sin(rotationRad);
    double x = Math.min(xUpper.at(c, s) - dxMm, dxMm - xLower.at(c, s));
    double y = Math.min(yUpper.at(c, s) - dyMm, dyMm - yLower.at(c, s));
    double turn = reachMm() * sdRad;
    double shifts = Math.min(ratio(x, sdX + turn), ratio(y, sdY + turn));
    return Math.min(shifts, ratio(rotationLimitRad() - Math.abs(rotationRad), sdRad));
  }
}
