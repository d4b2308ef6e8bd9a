package org.padtrue.imaging.pose;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.EdgeLocator;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * Tells whether the lands of a placement lie bare: edges of the lands that a part in place would
 * hide are seen, with the same step as those that show beside any part.
 *
 * @param share how bare the lands look: 0 when the middle does not have the colour of the ground;
 *     else the share, by length, of the land edges that a part would hide and that are seen all the
 *     same; 0 too when the type has no lands or hides none of their edges so that they can be told
 *     from its own
 * @param colouredGroundBetween whether what lies between the lands has the colour of the ground
 *     around them, and that is one that no dark body could be taken for: a coloured or a light one
 */
public record BareLands(double share, boolean colouredGroundBetween) {
  /** Colours that differ by less, over three channels, are one surface: texture and noise. */
  private static final double ALIKE = 45;

  /** In a dark picture all differences are smaller: this share of the ground's own levels. */
  private static final double OF_GROUND = 0.3;

  /** Noise alone makes so much, over three channels. */
  private static final double LEAST_ALIKE = 12;

  /** Channels that differ by more make a colour, grey levels. */
  private static final double COLOURED = 30;

  /** No black body is lighter than this, grey levels. */
  private static final double LIGHT = 110;

  /** Half of the gap between two lands that could be a chip's, as a share of its length. */
  private static final double GAP = 0.1;

  /** Looks at the lands of a placement. */
  public static BareLands at(
      Plane plane, PanelToPicture map, PartType type, Pose nominal, double sigmaPx) {
    double[] step = step(plane, map, type, nominal);
    return step.length == 0 || !alike(step)
        ? new BareLands(0, false)
        : new BareLands(edges(plane, map, type, nominal, sigmaPx), noBody(step));
  }

  /**
   * Whether the middle of an outline is ground: two lands that nobody described look like a chip.
   */
  public static boolean within(Plane plane, PanelToPicture map, PartType type, Pose seen) {
    double @org.jspecify.annotations.Nullable [] step =
        type.body() == null
            ? null
            : new OutlineFit(plane, map, Outline.of(type), List.of(), seen)
                .groundStep(seen, false, GAP);
    return step != null && alike(step) && noBody(step);
  }

  /** Whether the ground has a colour, or a lightness, that no dark body has. */
  private static boolean noBody(double[] step) {
    double most = Math.max(step[3], Math.max(step[4], step[5]));
    double least = Math.min(step[3], Math.min(step[4], step[5]));
    return most - least > COLOURED || most > LIGHT;
  }

  private static double edges(
      Plane plane, PanelToPicture map, PartType type, Pose nominal, double sigmaPx) {
    double ppm = map.scaleAt(nominal.xMm(), nominal.yMm());
    Outline outline = Outline.of(type);
    double resolve = 0.06 + 2.2 * sigmaPx / ppm;
    double hidden = 0;
    double seenHidden = 0;
    double steps = 0;
    double exposed = 0;
    List<double[]> hiddenSteps = new ArrayList<>();
    for (Rect r : type.lands()) {
      for (int side = 0; side < 4; side++) {
        double nx = side == 0 ? 1 : side == 1 ? -1 : 0;
        double ny = side == 2 ? 1 : side == 3 ? -1 : 0;
        double x = r.xMm() + nx * r.lengthMm() / 2;
        double y = r.yMm() + ny * r.widthMm() / 2;
        double half = 0.35 * (nx != 0 ? r.widthMm() : r.lengthMm());
        boolean under = under(type, x, y) && clearOfEdges(outline, x, y, nx, ny, resolve);
        EdgeLocator.Seen seen = look(plane, map, nominal, x, y, nx, ny, half, sigmaPx);
        boolean there = seen.usable() && Math.abs(seen.offsetPx()) < 0.05 * ppm + 0.5;
        if (under) {
          hidden += half;
          if (there) {
            hiddenSteps.add(new double[] {seen.step(), half});
          }
        } else if (there && !near(type, x, y, 0.1)) {
          steps += seen.step();
          exposed++;
        }
      }
    }
    if (hidden == 0 || exposed < 2) {
      return 0;
    }
    double usual = steps / exposed;
    for (double[] s : hiddenSteps) {
      if (Math.abs(s[0] - usual) < 12 + 0.35 * Math.abs(usual)) {
        seenHidden += s[1];
      }
    }
    return seenHidden / hidden;
  }

  /** Ground less middle, and the ground: six numbers; none when they cannot be seen. */
  private static double[] step(Plane plane, PanelToPicture map, PartType type, Pose nominal) {
    if (type.lands().isEmpty()) {
      return new double[0];
    }
    double @org.jspecify.annotations.Nullable [] step =
        new OutlineFit(plane, map, Outline.of(type), type.lands(), nominal)
            .groundStep(nominal, true);
    return step == null ? new double[0] : step;
  }

  private static boolean alike(double[] step) {
    double ground = step[3] + step[4] + step[5];
    double alike = Math.min(ALIKE, Math.max(LEAST_ALIKE, OF_GROUND * ground));
    return Math.abs(step[0]) + Math.abs(step[1]) + Math.abs(step[2]) <= alike;
  }

  private static EdgeLocator.Seen look(
      Plane plane,
      PanelToPicture map,
      Pose nominal,
      double x,
      double y,
      double nx,
      double ny,
      double half,
      double sigma) {
    double c = Angles.cosDeg(nominal.rotationDeg());
    double s = Angles.sinDeg(nominal.rotationDeg());
    double px = nominal.xMm() + c * x - s * y;
    double py = nominal.yMm() + s * x + c * y;
    double mx = c * nx - s * ny;
    double my = s * nx + c * ny;
    double[] q = map.at(px, py);
    double[] j = map.jacobian(px, py, 0);
    double tx = j[0] * -my + j[1] * mx;
    double ty = j[2] * -my + j[3] * mx;
    double tl = Math.hypot(tx, ty);
    double sign = Math.signum((j[0] * mx + j[1] * my) * -ty + (j[2] * mx + j[3] * my) * tx);
    double band = 2 * sigma + 1.5;
    return EdgeLocator.locate(
        plane,
        new EdgeLocator.Where(
            q[0],
            q[1],
            -ty / tl * sign,
            tx / tl * sign,
            Math.max(1, half * tl),
            band,
            band,
            Double.NaN,
            0,
            1),
        sigma,
        false);
  }

  /** True when no parallel edge of the part in place lies so near that it could be mistaken. */
  private static boolean clearOfEdges(
      Outline o, double x, double y, double nx, double ny, double marginMm) {
    for (Outline.Edge e : o.edges()) {
      boolean parallel = Math.abs(e.nx() * nx + e.ny() * ny) > 0.9;
      double across = Math.abs((e.xMm() - x) * nx + (e.yMm() - y) * ny);
      double along = Math.abs((e.xMm() - x) * ny - (e.yMm() - y) * nx);
      if (parallel && across < marginMm && along < e.lengthMm() / 2 + 0.1) {
        return false;
      }
    }
    return true;
  }

  private static boolean under(PartType t, double x, double y) {
    // Well inside: an edge that a small displacement would bare says nothing.
    return near(t, x, y, -0.08);
  }

  private static boolean near(PartType t, double x, double y, double marginMm) {
    List<Rect> all = new ArrayList<>(t.terminations());
    if (t.body() != null) {
      all.add(t.body());
    }
    for (Rect r : all) {
      if (Math.abs(x - r.xMm()) < r.lengthMm() / 2 + marginMm
          && Math.abs(y - r.yMm()) < r.widthMm() / 2 + marginMm) {
        return true;
      }
    }
    return false;
  }
}
