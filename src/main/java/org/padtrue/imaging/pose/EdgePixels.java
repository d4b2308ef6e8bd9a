package org.padtrue.imaging.pose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * The pixels about a part's edges, each with its place in the part's frame and the stretch of edge
 * it belongs to: the nearest. Unlike an edge's pieces, stretches go on around corners.
 */
final class EdgePixels {
  /**
   * A stretch of edge: what lies inside and beyond it, how far the edge fit trusted it, and whether
   * what lies just beyond it is off the lands.
   */
  record Tile(OutlineFit.Piece piece, int inside, int beyond, double trust, boolean offLands) {}

  /**
   * Pixels come in so many classes, each spread evenly over the outline, so that the first few
   * classes are a fair sample.
   */
  static final int CLASSES = 5;

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
  private final double nominalCos;
  private final double nominalSin;
  private final boolean corners;
  private int left;
  private int top;
  private int wide;
  private int high;

  final List<Tile> tiles = new ArrayList<>();

  /** Places of the pixels in the part's frame, mm, the first class first. */
  float[] u = {};

  float[] v = {};

  /** Stretch of each pixel. */
  int[] tile = {};

  /** Blue, green, red of each pixel, one after the other. */
  byte[] colour = {};

  /** How many pixels the first classes hold: one class, two, and so on. */
  final int[] upTo = new int[CLASSES];

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
    this.nominalCos = Angles.cosDeg(nominal.rotationDeg());
    this.nominalSin = Angles.sinDeg(nominal.rotationDeg());
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
        Math.min(1, p.weight * p.trust),
        lands.isEmpty()
            || outsideLands(p.x + 0.5 * clearMm * e.nx(), p.y + 0.5 * clearMm * e.ny()) > 0);
  }

  private boolean onBody(Outline.Edge e) {
    Rect b = outline.rects().get(outline.rects().size() - 1);
    return Math.abs(e.xMm() + 0.01 * e.nx() - b.xMm()) < b.lengthMm() / 2
        && Math.abs(e.yMm() + 0.01 * e.ny() - b.yMm()) < b.widthMm() / 2;
  }

  /** The part of the plane that the stretches can claim from. */
  private void bound() {
    double[] b = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
    double around = bandMm + 1e-3;
    for (Tile t : tiles) {
      OutlineFit.Piece p = t.piece;
      double half = p.edge.lengthMm() / 2;
      for (int k = 0; k < 4; k++) {
        double along = k % 2 == 0 ? half + around : -half - around;
        double across = k < 2 ? around : -around;
        double x = p.edge.xMm() - along * p.edge.ny() + across * p.edge.nx();
        double y = p.edge.yMm() + along * p.edge.nx() + across * p.edge.ny();
        double[] q =
            map.at(
                pose.xMm() + cos * x - sin * y, pose.yMm() + sin * x + cos * y, p.edge.heightMm());
        b[0] = Math.min(b[0], q[0]);
        b[1] = Math.min(b[1], q[1]);
        b[2] = Math.max(b[2], q[0]);
        b[3] = Math.max(b[3], q[1]);
      }
    }
    // One pixel to spare: pieces are laid out by the map's tangent.
    left = (int) Math.max(plane.x0(), Math.floor(b[0]) - 1);
    top = (int) Math.max(plane.y0(), Math.floor(b[1]) - 1);
    wide =
        (int)
            Math.max(0, Math.min(plane.x0() + plane.width() - 1.0, Math.ceil(b[2]) + 1) - left + 1);
    high =
        (int)
            Math.max(0, Math.min(plane.y0() + plane.height() - 1.0, Math.ceil(b[3]) + 1) - top + 1);
  }

  private void gather() {
    bound();
    int[] owner = new int[wide * high];
    float[] nearest = new float[owner.length];
    float[] us = new float[owner.length];
    float[] vs = new float[owner.length];
    Arrays.fill(owner, -1);
    Arrays.fill(nearest, Float.POSITIVE_INFINITY);
    for (int t = 0; t < tiles.size(); t++) {
      claim(t, owner, nearest, us, vs);
    }
    for (int i = 0; i < owner.length; i++) {
      if (owner[i] >= 0 && !shows(us[i], vs[i], tiles.get(owner[i]))) {
        owner[i] = -1;
      }
    }
    sort(owner, us, vs);
  }

  /** By class, within a class by stretch. */
  private void sort(int[] owner, float[] us, float[] vs) {
    int[] start = new int[CLASSES * tiles.size() + 1];
    for (int i = 0; i < owner.length; i++) {
      if (owner[i] >= 0) {
        start[key(i, owner[i]) + 1]++;
      }
    }
    for (int k = 1; k < start.length; k++) {
      start[k] += start[k - 1];
    }
    for (int c = 0; c < CLASSES; c++) {
      upTo[c] = start[(c + 1) * tiles.size()];
    }
    int n = upTo[CLASSES - 1];
    u = new float[n];
    v = new float[n];
    tile = new int[n];
    colour = new byte[3 * n];
    for (int i = 0; i < owner.length; i++) {
      if (owner[i] >= 0) {
        int to = start[key(i, owner[i])]++;
        u[to] = us[i];
        v[to] = vs[i];
        tile[to] = owner[i];
        int from = (top + i / wide - plane.y0()) * plane.width() + left + i % wide - plane.x0();
        System.arraycopy(plane.values(), 3 * from, colour, 3 * to, 3);
      }
    }
  }

  private int key(int i, int owner) {
    return (i % wide + 2 * (i / wide)) % CLASSES * tiles.size() + owner;
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
    int x0 = (int) Math.max(left, Math.floor(q[0] - reach));
    int x1 = (int) Math.min(left + wide - 1.0, Math.ceil(q[0] + reach));
    int y0 = (int) Math.max(top, Math.floor(q[1] - reach));
    int y1 = (int) Math.min(top + high - 1.0, Math.ceil(q[1] + reach));
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
        double distance = Math.sqrt(over * over + d * d);
        if (!(own || corner) || distance > bandMm) {
          continue;
        }
        int i = (y - top) * wide + x - left;
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
    return Math.abs(here) > clearMm && here > 0 == t.offLands;
  }

  /** Distance outside the nearest land, mm; negative inside one. */
  private double outsideLands(double u, double v) {
    double x = pose.xMm() + cos * u - sin * v - nominal.xMm();
    double y = pose.yMm() + sin * u + cos * v - nominal.yMm();
    double a = nominalCos * x + nominalSin * y;
    double b = -nominalSin * x + nominalCos * y;
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
