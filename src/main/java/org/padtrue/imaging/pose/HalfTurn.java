package org.padtrue.imaging.pose;

import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * Holds a part against itself turned by half: nearly every body, with its ends, looks the same
 * then, but only about its own middle. Needs no size of the drawing to be right, so that it notices
 * a fit that took the wrong edges for the right ones.
 */
public final class HalfTurn {
  /** Points along the longer side of the body. */
  private static final int POINTS = 24;

  private static final double STEP_MM = 0.05;

  /** Half the window of trial middles, in steps. */
  private static final int STEPS = 5;

  /** Differences above this count no more: a mark, a glare, grey levels over three channels. */
  private static final double MOST = 150;

  /** A middle so far from the fit's speaks against it, mm. */
  private static final double ASIDE_MM = 0.09;

  /** It must match that much better than the fit's. */
  private static final double BETTER = 0.6;

  /** Mean difference that texture and noise leave anywhere, grey levels over three channels. */
  private static final double NOISE = 8;

  private HalfTurn() {}

  /** How little a part at that pose looks like itself turned by half, 0 to 1. */
  public static double unevenness(Picture p, PanelToPicture map, PartType type, Pose pose) {
    Rect body = rect(type);
    return difference(p, map, body, Outline.bodyHeight(type), pose, 0, 0, MOST) / MOST;
  }

  /** True when the part plainly has its middle elsewhere than the pose says. */
  public static boolean contradicts(
      Picture p, PanelToPicture map, PartType type, Pose fit, Pose nominal) {
    Rect body = rect(type);
    double height = Outline.bodyHeight(type);
    double here = difference(p, map, body, height, fit, 0, 0, MOST);
    double enough = BETTER * (here + NOISE) - NOISE;
    if (enough <= 0) {
      return false;
    }
    boolean better = elsewhere(p, map, body, height, fit, fit, enough);
    double off = Math.hypot(fit.xMm() - nominal.xMm(), fit.yMm() - nominal.yMm());
    if (!better && off > STEPS * STEP_MM / 2) {
      Pose unmoved = new Pose(nominal.xMm(), nominal.yMm(), fit.rotationDeg());
      better = elsewhere(p, map, body, height, unmoved, fit, enough);
    }
    return better;
  }

  /** Whether about a middle around a pose, well off the fit's, the difference is below that. */
  private static boolean elsewhere(
      Picture p,
      PanelToPicture map,
      Rect body,
      double height,
      Pose about,
      Pose fit,
      double enough) {
    double c = Angles.cosDeg(fit.rotationDeg());
    double s = Angles.sinDeg(fit.rotationDeg());
    for (int i = -STEPS; i <= STEPS; i++) {
      for (int j = -STEPS; j <= STEPS; j++) {
        double u = i * STEP_MM;
        double v = j * STEP_MM;
        double x = about.xMm() + c * u - s * v;
        double y = about.yMm() + s * u + c * v;
        if (Math.hypot(x - fit.xMm(), y - fit.yMm()) > ASIDE_MM
            && difference(p, map, body, height, about, u, v, enough) < enough) {
          return true;
        }
      }
    }
    return false;
  }

  private static Rect rect(PartType t) {
    if (t.body() != null) {
      return t.body();
    }
    Outline o = Outline.of(t);
    return new Rect(0, 0, 2 * o.halfLengthMm(), 2 * o.halfWidthMm());
  }

  /**
   * Mean difference of opposite points about a middle moved by u, v in the part's axes; or the most
   * that is asked for, as soon as it is plainly above it.
   */
  private static double difference(
      Picture p,
      PanelToPicture map,
      Rect body,
      double height,
      Pose pose,
      double u,
      double v,
      double most) {
    double c = Angles.cosDeg(pose.rotationDeg());
    double s = Angles.sinDeg(pose.rotationDeg());
    double bx = body.xMm() + u;
    double by = body.yMm() + v;
    double[] at = map.at(pose.xMm() + c * bx - s * by, pose.yMm() + s * bx + c * by, height);
    double[] j = map.jacobian(pose.xMm(), pose.yMm(), height);
    double step = Math.max(body.lengthMm(), body.widthMm()) / POINTS;
    int n = 0;
    double sum = 0;
    double stop = most * (POINTS + 1) * Math.ceil(body.widthMm() / 2 / step);
    for (double y = step / 2; y < body.widthMm() / 2; y += step) {
      for (double x = step / 2 - body.lengthMm() / 2; x < body.lengthMm() / 2; x += step) {
        double px = c * x - s * y;
        double py = s * x + c * y;
        double dx = j[0] * px + j[1] * py;
        double dy = j[2] * px + j[3] * py;
        double d = 0;
        for (int k = 0; k < 3; k++) {
          d +=
              Math.abs(p.nearest(at[0] + dx, at[1] + dy, k) - p.nearest(at[0] - dx, at[1] - dy, k));
        }
        sum += Math.min(MOST, d);
        n++;
      }
      if (sum > stop) {
        return most;
      }
    }
    return n == 0 ? 0 : sum / n;
  }
}
