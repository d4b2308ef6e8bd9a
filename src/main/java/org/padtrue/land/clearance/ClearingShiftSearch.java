package org.padtrue.land.clearance;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.land.LandFit;
import org.padtrue.land.PartFrame;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Looks in every direction for the shortest shift that clears a part: in each, the length at which
 * the wanted gap is reached (the shifts that are too near form a convex set, so going on only
 * widens the gap), then what lands and other neighbours say. Directions in steps of 3 degrees, the
 * sides of both parts among them, then finer around the best.
 */
final class ClearingShiftSearch {
  private static final double COARSE_DEG = 3;
  private static final double FINE_DEG = 0.05;

  /** Rounding of sums must not call a shift onto the limit too long. */
  private static final double SLACK_MM = 1e-9;

  private final ClearanceItem item;
  private final LandFit fit;
  private final Standing self;
  private final Standing other;
  private final List<Standing> rest;
  private final double[] restNow;
  private final double wanted;
  private final double cos;
  private final double sin;
  private final double dxPart;
  private final double dyPart;
  private final double drotation;

  ClearingShiftSearch(
      ClearanceItem item,
      LandFit fit,
      Standing self,
      Standing other,
      List<Standing> rest,
      double wanted) {
    this.item = item;
    this.fit = fit;
    this.self = self;
    this.other = other;
    this.rest = rest;
    this.wanted = wanted;
    Pose n = item.nominal();
    Pose p = item.afterTrim();
    cos = Angles.cosDeg(n.rotationDeg());
    sin = Angles.sinDeg(n.rotationDeg());
    dxPart = PartFrame.x(p.xMm() - n.xMm(), p.yMm() - n.yMm(), n.rotationDeg());
    dyPart = PartFrame.y(p.xMm() - n.xMm(), p.yMm() - n.yMm(), n.rotationDeg());
    drotation =
        Double.isNaN(p.rotationDeg()) ? Double.NaN : Angles.wrap(p.rotationDeg() - n.rotationDeg());
    restNow = rest.stream().mapToDouble(self::gap).toArray();
  }

  Optional<ClearingShift> smallest() {
    ClearingShift coarse = null;
    for (double deg = 0; deg < 360; deg += COARSE_DEG) {
      coarse = shorter(coarse, at(Math.toRadians(deg)));
    }
    for (Standing s : new Standing[] {self, other}) {
      double side = Math.atan2(s.sin(), s.cos());
      for (int quarter = 0; quarter < 4; quarter++) {
        coarse = shorter(coarse, at(side + quarter * Math.PI / 2));
      }
    }
    return Optional.ofNullable(coarse == null ? null : finer(coarse));
  }

  private ClearingShift finer(ClearingShift start) {
    double middle = Math.atan2(start.dyMm(), start.dxMm());
    ClearingShift best = start;
    for (double deg = -COARSE_DEG; deg <= COARSE_DEG; deg += FINE_DEG) {
      ClearingShift s = at(middle + Math.toRadians(deg));
      if (s != null && s.sizeMm() < best.sizeMm() - SLACK_MM) {
        best = s;
      }
    }
    return best;
  }

  private static @Nullable ClearingShift shorter(
      @Nullable ClearingShift a, @Nullable ClearingShift b) {
    if (a == null || b == null) {
      return a == null ? b : a;
    }
    return b.sizeMm() < a.sizeMm() - SLACK_MM ? b : a;
  }

  /** The shift in a direction; null when lands or neighbours forbid it. */
  private @Nullable ClearingShift at(double direction) {
    double ux = Math.cos(direction);
    double uy = Math.sin(direction);
    double length = exit(ux, uy);
    double dx = length * ux;
    double dy = length * uy;
    double marginAfter = margin(dx, dy);
    if (!(marginAfter >= -SLACK_MM)) {
      return null;
    }
    Standing there = self.shifted(dx, dy);
    for (int i = 0; i < restNow.length; i++) {
      if (there.nearer(rest.get(i), Math.min(wanted, restNow[i]) - SLACK_MM)) {
        return null;
      }
    }
    double gap = there.gap(other);
    return new ClearingShift(item.id(), dx, dy, gap, margin(0, 0), Math.max(0, marginAfter));
  }

  private double margin(double dx, double dy) {
    return fit.margin(dxPart + cos * dx + sin * dy, dyPart + cos * dy - sin * dx, drotation);
  }

  /** Length along a direction at which the wanted gap is reached, by bisection from above. */
  private double exit(double ux, double uy) {
    double in = 0;
    double out = wanted + 2 * (span(self) + span(other));
    while (out - in > 1e-7) {
      double mid = (in + out) / 2;
      if (self.shifted(mid * ux, mid * uy).nearer(other, wanted)) {
        in = mid;
      } else {
        out = mid;
      }
    }
    return out;
  }

  private static double span(Standing s) {
    return Math.hypot(s.halfLength(), s.halfWidth());
  }
}
