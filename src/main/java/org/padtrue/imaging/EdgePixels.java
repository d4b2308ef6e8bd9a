package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * The pixels about a part's edges, each with its place in the part's frame and the stretch of edge
 * it belongs to: the nearest. Unlike an edge's pieces, stretches go on around corners.
 */
final class EdgePixels {
  /** A stretch of edge: what lies inside and beyond it, and how far the edge fit trusted it. */
  record Tile(OutlineFit.Piece piece, int inside, int beyond, double trust) {}

  /** One pixel. */
  record Pixel(double u, double v, int tile, int[] colour) {}

  /** So many blurs from a land's edge its step still shows. */
  private static final double CLEAR = 1;

  private final Plane plane;
  private final PanelToPicture map;
  private final Outline outline;
  private final Pose pose;
  private final double cos;
  private final double sin;
  private final double bandMm;
  private final double clearMm;
  private final List<Rect> lands;
  private final Pose nominal;
  private final boolean corners;

  final List<Tile> tiles = new ArrayList<>();
  final List<Pixel> pixels = new ArrayList<>();

  /**
   * @param from the fit whose edges are looked at
   * @param lands lands that show, part frame; empty when none do
   * @param nominal where the lands are
   * @param corners whether stretches go on to and around corners
   */
  EdgePixels(
      Plane plane,
      PanelToPicture map,
      Outline outline,
      OutlineFit.Result from,
      List<Rect> lands,
      Pose nominal,
      boolean corners) {
    this.corners = corners;
    this.plane = plane;
    this.map = map;
    this.outline = outline;
    this.pose = from.pose();
    this.cos = Angles.cosDeg(pose.rotationDeg());
    this.sin = Angles.sinDeg(pose.rotationDeg());
    this.lands = lands;
    this.nominal = nominal;
    double ppm = map.scaleAt(pose.xMm(), pose.yMm());
    this.bandMm = Math.max(3, 2.5 * from.sigmaPx() + 1) / ppm;
    this.clearMm = CLEAR * from.sigmaPx() / ppm;
    for (OutlineFit.Piece p : from.pieces()) {
      boolean body =
          p.edge.group() == Outline.Group.BODY_X || p.edge.group() == Outline.Group.BODY_Y;
      // A moulded body says little of where its leads are.
      if (p.seen.usable() && p.weight > 0 && !(body && outline.leads())) {
        tiles.add(tile(p));
      }
    }
    gather();
  }

  private Tile tile(OutlineFit.Piece p) {
    Outline.Edge e = p.edge;
    boolean root = e.group() == Outline.Group.ROOT_X || e.group() == Outline.Group.ROOT_Y;
    int inside = e.body() ? PartCover.BODY : PartCover.METAL;
    return new Tile(
        p,
        inside,
        root && !e.body() && onBody(e) ? PartCover.BODY : PartCover.GROUND,
        Math.min(1, p.weight * p.trust));
  }

  private boolean onBody(Outline.Edge e) {
    Rect b = outline.rects().get(outline.rects().size() - 1);
    return Math.abs(e.xMm() + 0.01 * e.nx() - b.xMm()) < b.lengthMm() / 2
        && Math.abs(e.yMm() + 0.01 * e.ny() - b.yMm()) < b.widthMm() / 2;
  }

  private void gather() {
    int[] owner = new int[plane.width() * plane.height()];
    float[] nearest = new float[owner.length];
    float[] us = new float[owner.length];
    float[] vs = new float[owner.length];
    Arrays.fill(owner, -1);
    Arrays.fill(nearest, Float.POSITIVE_INFINITY);
    for (int t = 0; t < tiles.size(); t++) {
      claim(t, owner, nearest, us, vs);
    }
    for (int i = 0; i < owner.length; i++) {
      if (owner[i] >= 0 && shows(us[i], vs[i], tiles.get(owner[i]))) {
        int[] colour = new int[3];
        for (int c = 0; c < 3; c++) {
          colour[c] = plane.values()[3 * i + c] & 0xFF;
        }
        pixels.add(new Pixel(us[i], vs[i], owner[i], colour));
      }
    }
  }

  private void claim(int t, int[] owner, float[] nearest, float[] us, float[] vs) {
    OutlineFit.Piece p = tiles.get(t).piece;
    double z = p.edge.heightMm();
    double px = pose.xMm() + cos * p.x - sin * p.y;
    double py = pose.yMm() + sin * p.x + cos * p.y;
    double[] q = map.at(px, py, z);
    double[] j = map.jacobian(px, py, z);
    double det = j[0] * j[3] - j[1] * j[2];
    double margin = 0.5 * (p.edge.lengthMm() - p.spanMm);
    double half = p.lengthMm / 2;
    double along = p.x * -p.edge.ny() + p.y * p.edge.nx();
    double middle = p.edge.xMm() * -p.edge.ny() + p.edge.yMm() * p.edge.nx();
    double t0 = along - middle - half;
    double t1 = along - middle + half;
    double end = p.edge.lengthMm() / 2;
    // The first and the last piece reach to the corner, and around it where the edge ends freely.
    double around = outline.leads() ? 0 : bandMm;
    double s0 = corners && t0 < -end + margin + 1e-6 ? -end : t0;
    double s1 = corners && t1 > end - margin - 1e-6 ? end : t1;
    double reach = Math.sqrt(Math.abs(det)) * (Math.max(s1 - s0, bandMm) + bandMm) + 1;
    int x0 = (int) Math.max(plane.x0(), Math.floor(q[0] - reach));
    int x1 = (int) Math.min(plane.x0() + plane.width() - 1.0, Math.ceil(q[0] + reach));
    int y0 = (int) Math.max(plane.y0(), Math.floor(q[1] - reach));
    int y1 = (int) Math.min(plane.y0() + plane.height() - 1.0, Math.ceil(q[1] + reach));
    for (int y = y0; y <= y1; y++) {
      for (int x = x0; x <= x1; x++) {
        double dx = x - q[0];
        double dy = y - q[1];
        double gx = (j[3] * dx - j[1] * dy) / det;
        double gy = (-j[2] * dx + j[0] * dy) / det;
        double u = p.x + cos * gx + sin * gy;
        double v = p.y - sin * gx + cos * gy;
        double a = u * -p.edge.ny() + v * p.edge.nx() - middle;
        double d = (u - p.edge.xMm()) * p.edge.nx() + (v - p.edge.yMm()) * p.edge.ny();
        double over = Math.max(0, Math.max(s0 - a, a - s1));
        boolean own = a > t0 - 1e-9 && a <= t1;
        boolean corner =
            a <= t0 && s0 < t0 && a > s0 - around || a > t1 && s1 > t1 && a < s1 + around;
        double distance = Math.hypot(over, d);
        if (!(own || corner) || distance > bandMm) {
          continue;
        }
        int i = (y - plane.y0()) * plane.width() + x - plane.x0();
        if (distance < nearest[i]) {
          nearest[i] = (float) distance;
          owner[i] = t;
          us[i] = (float) u;
          vs[i] = (float) v;
        }
      }
    }
  }

  /** False where something shows that the model of ground, body and metal does not know. */
  private boolean shows(double u, double v, Tile t) {
    if (outline.leads()) {
      Rect b = outline.rects().get(outline.rects().size() - 1);
      double m = clearMm + 0.08;
      if (Math.abs(u - b.xMm()) < b.lengthMm() / 2 + m
          && Math.abs(v - b.yMm()) < b.widthMm() / 2 + m) {
        return false;
      }
    }
    if (lands.isEmpty() || t.beyond != PartCover.GROUND) {
      return true;
    }
    Outline.Edge e = t.piece.edge;
    double d = (u - e.xMm()) * e.nx() + (v - e.yMm()) * e.ny();
    if (d < -clearMm) {
      return true;
    }
    double here = outsideLands(u, v);
    double edge =
        outsideLands(t.piece.x + 0.5 * clearMm * e.nx(), t.piece.y + 0.5 * clearMm * e.ny());
    return Math.abs(here) > clearMm && here > 0 == edge > 0;
  }

  /** Distance outside the nearest land, mm; negative inside one. */
  private double outsideLands(double u, double v) {
    double x = pose.xMm() + cos * u - sin * v - nominal.xMm();
    double y = pose.yMm() + sin * u + cos * v - nominal.yMm();
    double c = Angles.cosDeg(nominal.rotationDeg());
    double s = Angles.sinDeg(nominal.rotationDeg());
    double a = c * x + s * y;
    double b = -s * x + c * y;
    double least = Double.POSITIVE_INFINITY;
    for (Rect r : lands) {
      least =
          Math.min(
              least,
              Math.max(
                  Math.abs(a - r.xMm()) - r.lengthMm() / 2,
                  Math.abs(b - r.yMm()) - r.widthMm() / 2));
    }
    return least;
  }
}
