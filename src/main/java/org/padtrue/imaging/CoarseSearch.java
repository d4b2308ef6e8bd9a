package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Looks for a part around its predicted pose, up to half a millimetre and 15 degrees off.
 *
 * <p>At each trial pose every edge of the outline compares the strip before it with the strip
 * beyond it: squared colour difference over that plus the variances within. Polarity does not
 * matter, and each edge judges its own surroundings, so uneven ground does little harm. Strips are
 * summed from integral pictures of the crop turned to the trial angle.
 */
final class CoarseSearch {
  private static final int MAX_EDGES = 64;

  /** Variance of a channel that counts as noise, grey levels squared. */
  private static final double NOISE = 30;

  /**
   * A pose worth a closer look.
   *
   * @param pose panel frame
   * @param score 0 (no edge anywhere) to 1
   */
  record Candidate(Pose pose, double score) {}

  private final Picture picture;
  private final PanelToPicture map;
  private final Outline outline;
  private final double height;
  private final double cell;
  private final double reachMm;

  /**
   * @param heightMm height of the part's top, for parallax
   * @param reachMm how far off to look, mm
   */
  CoarseSearch(
      Picture picture, PanelToPicture map, Outline outline, double heightMm, double reachMm) {
    this(picture, map, outline, heightMm, reachMm, cell(outline));
  }

  private CoarseSearch(
      Picture picture,
      PanelToPicture map,
      Outline outline,
      double heightMm,
      double reachMm,
      double cellMm) {
    this.picture = picture;
    this.map = map;
    this.outline = outline;
    this.height = heightMm;
    this.reachMm = reachMm;
    this.cell = cellMm;
  }

  /** Cell of the search grid, mm: fine enough for the smallest visible rectangle. */
  private static double cell(Outline o) {
    double small = Double.POSITIVE_INFINITY;
    for (org.padtrue.panel.Rect r : o.rects()) {
      small = Math.min(small, Math.min(r.lengthMm(), r.widthMm()));
    }
    double extent = Math.max(o.halfLengthMm(), o.halfWidthMm());
    return Math.max(Math.min(0.12, Math.max(0.04, small / 3)), extent / 110);
  }

  /** A candidate looked at again on a finer grid; how fine, mm. */
  record Refined(Pose pose, double score, double cellMm) {}

  /** Looks again around a candidate, finer each time, down to about a pixel. */
  Refined refine(Candidate c) {
    double pixel = 1 / map.scaleAt(c.pose.xMm(), c.pose.yMm());
    double grid = cell;
    double turn = angleStepDeg();
    Candidate best = c;
    while (grid > 1.3 * pixel) {
      double finer = Math.max(pixel, grid / 2.5);
      double extent = Math.max(outline.halfLengthMm(), outline.halfWidthMm());
      finer = Math.max(finer, extent / 150);
      if (finer > 0.8 * grid) {
        break;
      }
      CoarseSearch s = new CoarseSearch(picture, map, outline, height, 0.8 * grid + finer, finer);
      List<Candidate> found = s.find(best.pose, turn, 1);
      if (found.isEmpty()) {
        break;
      }
      best = found.get(0);
      grid = finer;
      turn /= 2;
    }
    return new Refined(best.pose, best.score, grid);
  }

  /** How much of the outline's edges shows at one pose, 0 to 1, at about a pixel. */
  double scoreAt(Pose pose) {
    double pixel = 1 / map.scaleAt(pose.xMm(), pose.yMm());
    double extent = Math.max(outline.halfLengthMm(), outline.halfWidthMm());
    double fine = Math.min(cell, Math.max(pixel, extent / 150));
    List<Candidate> one = new CoarseSearch(picture, map, outline, height, 0, fine).find(pose, 0, 1);
    return one.isEmpty() ? 0 : one.get(0).score();
  }

  private double angleStepDeg() {
    double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
    return Math.max(0.5, Math.min(5, Math.toDegrees(0.9 * cell / arm)));
  }

  /** The best poses around a prediction, best first, at most {@code count}. */
  List<Candidate> find(Pose predicted, double angleReachDeg, int count) {
    double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
    double[] base = crop(predicted, arm);
    double stepDeg = angleStepDeg();
    int steps = (int) Math.ceil(angleReachDeg / stepDeg);
    List<Strip> strips = strips();
    List<Candidate> all = new ArrayList<>();
    for (int k = -steps; k <= steps; k++) {
      double turn = steps == 0 ? 0 : angleReachDeg * k / steps;
      searchAngle(base, predicted, turn, angleReachDeg, strips, all);
    }
    all.sort(Comparator.comparingDouble(Candidate::score).reversed());
    return distinct(all, count);
  }

  private List<Candidate> distinct(List<Candidate> all, int count) {
    List<Candidate> out = new ArrayList<>();
    for (Candidate c : all) {
      boolean fresh = true;
      for (Candidate o : out) {
        double d = Math.hypot(c.pose.xMm() - o.pose.xMm(), c.pose.yMm() - o.pose.yMm());
        fresh &= d > 2.1 * cell;
      }
      if (fresh) {
        out.add(c);
      }
      if (out.size() == count) {
        break;
      }
    }
    return out;
  }

  /** Edge strips in cells, relative to the part's middle, part frame. */
  private record Strip(
      double weight,
      double x0,
      double y0,
      double x1,
      double y1,
      double nx,
      double ny,
      double in,
      double outwards) {}

  private List<Strip> strips() {
    List<Outline.Edge> edges = outline.edges();
    int stride = Math.max(1, edges.size() / MAX_EDGES);
    List<Strip> out = new ArrayList<>();
    for (int i = 0; i < edges.size(); i += stride) {
      Outline.Edge e = edges.get(i);
      double half = e.lengthMm() / 2 - Math.min(0.5 * cell, 0.2 * e.lengthMm());
      double ax = Math.abs(e.ny()) * half / cell;
      double ay = Math.abs(e.nx()) * half / cell;
      double in = Math.max(1, Math.min(0.2, 0.8 * e.innerGapMm()) / cell);
      double beyond = Math.max(1, Math.min(0.2, 0.8 * e.outerGapMm()) / cell);
      out.add(
          new Strip(
              e.lengthMm(),
              e.xMm() / cell - ax,
              e.yMm() / cell - ay,
              e.xMm() / cell + ax,
              e.yMm() / cell + ay,
              e.nx(),
              e.ny(),
              in,
              beyond));
    }
    return out;
  }

  private int side = 0;

  /** Square crop along the panel's axes, three channels per cell, averaged from the pixels. */
  private double[] crop(Pose at, double arm) {
    int half = (int) Math.ceil((arm + reachMm + 0.25) / cell) + 1;
    side = 2 * half + 1;
    double[] out = new double[3 * side * side];
    double ppm = map.scaleAt(at.xMm(), at.yMm());
    int sub = Math.max(1, Math.min(5, (int) Math.round(ppm * cell)));
    double[] p = map.at(at.xMm(), at.yMm(), height);
    double[] j = map.jacobian(at.xMm(), at.yMm(), height);
    for (int iy = 0; iy < side; iy++) {
      for (int ix = 0; ix < side; ix++) {
        double b = 0;
        double g = 0;
        double r = 0;
        for (int s = 0; s < sub * sub; s++) {
          double u = (ix - half + ((s % sub) + 0.5) / sub - 0.5) * cell;
          double v = (iy - half + ((s / sub) + 0.5) / sub - 0.5) * cell;
          double x = p[0] + j[0] * u + j[1] * v;
          double y = p[1] + j[2] * u + j[3] * v;
          b += picture.nearest(x, y, 0);
          g += picture.nearest(x, y, 1);
          r += picture.nearest(x, y, 2);
        }
        int k = 3 * (iy * side + ix);
        out[k] = b / (sub * sub);
        out[k + 1] = g / (sub * sub);
        out[k + 2] = r / (sub * sub);
      }
    }
    return out;
  }

  private void searchAngle(
      double[] base,
      Pose predicted,
      double turnDeg,
      double angleReachDeg,
      List<Strip> strips,
      List<Candidate> out) {
    double angle = predicted.rotationDeg() + turnDeg;
    double[][] integral = integrals(base, angle);
    int reach = (int) Math.round(reachMm / cell);
    int half = side / 2;
    double c = Angles.cosDeg(angle);
    double s = Angles.sinDeg(angle);
    for (int iy = -reach; iy <= reach; iy++) {
      for (int ix = -reach; ix <= reach; ix++) {
        double off = Math.hypot(ix, iy) / Math.max(1, reach);
        if (off > 1.05) {
          continue;
        }
        double score = score(integral, strips, half + ix, half + iy);
        double tilt = angleReachDeg > 0 ? turnDeg / angleReachDeg : 0;
        score -= 0.04 * off * off + 0.02 * tilt * tilt;
        double u = ix * cell;
        double v = iy * cell;
        Pose pose =
            new Pose(
                predicted.xMm() + c * u - s * v,
                predicted.yMm() + s * u + c * v,
                Angles.wrap(angle));
        keep(out, new Candidate(pose, score));
      }
    }
  }

  /** Keeps the list short while it grows: only what may still matter. */
  private static void keep(List<Candidate> out, Candidate c) {
    if (out.size() < 4000) {
      out.add(c);
      return;
    }
    out.sort(Comparator.comparingDouble(Candidate::score).reversed());
    out.subList(400, out.size()).clear();
    out.add(c);
  }

  private double score(double[][] integral, List<Strip> strips, int cx, int cy) {
    double sum = 0;
    double weight = 0;
    for (Strip s : strips) {
      double q = contrast(integral, s, cx, cy);
      sum += s.weight * q;
      weight += s.weight;
    }
    return sum / weight;
  }

  private double contrast(double[][] integral, Strip s, int cx, int cy) {
    // Outer corner of each strip from the edge, along the normal.
    double ix0 = Math.min(s.x0, s.x0 - s.nx * s.in);
    double ix1 = Math.max(s.x1, s.x1 - s.nx * s.in);
    double iy0 = Math.min(s.y0, s.y0 - s.ny * s.in);
    double iy1 = Math.max(s.y1, s.y1 - s.ny * s.in);
    double ox0 = Math.min(s.x0, s.x0 + s.nx * s.outwards);
    double ox1 = Math.max(s.x1, s.x1 + s.nx * s.outwards);
    double oy0 = Math.min(s.y0, s.y0 + s.ny * s.outwards);
    double oy1 = Math.max(s.y1, s.y1 + s.ny * s.outwards);
    if (!sums(integral, cx + ix0, cy + iy0, cx + ix1, cy + iy1, in)
        || !sums(integral, cx + ox0, cy + oy0, cx + ox1, cy + oy1, beyond)) {
      return 0;
    }
    double between = 0;
    double within = 3 * NOISE;
    for (int c = 0; c < 3; c++) {
      double d = in[c] - beyond[c];
      between += d * d;
    }
    within += in[3] + beyond[3];
    return between / (between + within);
  }

  private final double[] in = new double[4];
  private final double[] beyond = new double[4];

  /** Means of the channels and the sum of their variances over a box of whole cells. */
  private boolean sums(
      double[][] integral, double x0, double y0, double x1, double y1, double[] out) {
    int a = (int) Math.round(x0 + 0.5);
    int b = (int) Math.round(y0 + 0.5);
    int c = Math.max(a + 1, (int) Math.round(x1 + 0.5));
    int d = Math.max(b + 1, (int) Math.round(y1 + 0.5));
    if (a < 0 || b < 0 || c > side || d > side) {
      return false;
    }
    int w = side + 1;
    double n = (double) (c - a) * (d - b);
    double square = 0;
    for (int k = 0; k < 4; k++) {
      double[] t = integral[k];
      double v = (t[d * w + c] - t[b * w + c] - t[d * w + a] + t[b * w + a]) / n;
      if (k < 3) {
        out[k] = v;
        square += v * v;
      } else {
        out[3] = Math.max(0, v - square);
      }
    }
    return true;
  }

  /**
   * Integral pictures of the three channels and of their squares, of the crop in the part frame.
   */
  private double[][] integrals(double[] base, double angleDeg) {
    int half = side / 2;
    int w = side + 1;
    double[][] t = new double[4][w * w];
    double c = Angles.cosDeg(angleDeg);
    double s = Angles.sinDeg(angleDeg);
    double[] v = new double[3];
    for (int iy = 0; iy < side; iy++) {
      double r0 = 0;
      double r1 = 0;
      double r2 = 0;
      double r3 = 0;
      for (int ix = 0; ix < side; ix++) {
        double u = ix - half;
        double q = iy - half;
        bilinear(base, half + c * u - s * q, half + s * u + c * q, v);
        r0 += v[0];
        r1 += v[1];
        r2 += v[2];
        r3 += v[0] * v[0] + v[1] * v[1] + v[2] * v[2];
        int k = (iy + 1) * w + ix + 1;
        t[0][k] = t[0][k - w] + r0;
        t[1][k] = t[1][k - w] + r1;
        t[2][k] = t[2][k - w] + r2;
        t[3][k] = t[3][k - w] + r3;
      }
    }
    return t;
  }

  private void bilinear(double[] base, double x, double y, double[] out) {
    double xc = Math.max(0, Math.min(side - 1.001, x));
    double yc = Math.max(0, Math.min(side - 1.001, y));
    int xi = (int) xc;
    int yi = (int) yc;
    double fx = xc - xi;
    double fy = yc - yi;
    int k = 3 * (yi * side + xi);
    for (int c = 0; c < 3; c++) {
      double top = base[k + c] * (1 - fx) + base[k + 3 + c] * fx;
      double low = base[k + 3 * side + c] * (1 - fx) + base[k + 3 * side + 3 + c] * fx;
      out[c] = top * (1 - fy) + low * fy;
    }
  }
}
