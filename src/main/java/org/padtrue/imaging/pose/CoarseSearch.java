package org.padtrue.imaging.pose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.Plane;
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
public final class CoarseSearch {
  /** How far a part may be turned, degrees. */
  public static final double REACH_DEG = 15;

  private static final int MAX_EDGES = 64;

  /** So much beside the outline is looked at, mm. */
  private static final double BESIDE_MM = 0.25;

  /** Variance of a channel that counts as noise, grey levels squared. */
  private static final double NOISE = 30;

  /**
   * A pose worth a closer look.
   *
   * @param pose panel frame
   * @param score 0 to 1; 0 where no edge is seen
   */
  public record Candidate(Pose pose, double score) {}

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
  public CoarseSearch(
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
  public record Refined(Pose pose, double score, double cellMm) {}

  /** Looks again around a candidate, finer each time, down to about a pixel. */
  public Refined refine(Candidate c) {
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
  public double scoreAt(Pose pose) {
    double pixel = 1 / map.scaleAt(pose.xMm(), pose.yMm());
    double extent = Math.max(outline.halfLengthMm(), outline.halfWidthMm());
    double fine = Math.min(cell, Math.max(pixel, extent / 150));
    List<Candidate> one = new CoarseSearch(picture, map, outline, height, 0, fine).find(pose, 0, 1);
    return one.isEmpty() ? 0 : one.get(0).score();
  }

  /** Whether a candidate is where something else already is, as far as its grid can tell. */
  public boolean same(Refined r, Pose o) {
    double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
    double turn = Math.abs(Angles.wrap(r.pose.rotationDeg() - o.rotationDeg(), outline.symmetry()));
    double off = Math.hypot(r.pose.xMm() - o.xMm(), r.pose.yMm() - o.yMm());
    return off < 1.2 * r.cellMm && Math.toRadians(turn) * arm < 2 * r.cellMm;
  }

  private double angleStepDeg() {
    double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
    return Math.max(0.5, Math.min(5, Math.toDegrees(0.9 * cell / arm)));
  }

  /** The best poses around a prediction, best first, at most {@code count}. */
  public List<Candidate> find(Pose predicted, double angleReachDeg, int count) {
    double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
    float[] base = crop(predicted, arm);
    // What edges and their strips can reach; the crop's corners are for turning it.
    halfX = Math.min(side / 2, cells(outline.halfLengthMm() + reachMm + BESIDE_MM));
    halfY = Math.min(side / 2, cells(outline.halfWidthMm() + reachMm + BESIDE_MM));
    double[] integral = new double[4 * (2 * halfX + 2) * (2 * halfY + 2)];
    double stepDeg = angleStepDeg();
    int steps = (int) Math.ceil(angleReachDeg / stepDeg);
    List<Strip> strips = strips();
    List<Candidate> all = new ArrayList<>();
    for (int k = -steps; k <= steps; k++) {
      double turn = steps == 0 ? 0 : angleReachDeg * k / steps;
      integrate(base, predicted.rotationDeg() + turn, integral);
      searchAngle(integral, predicted, turn, angleReachDeg, strips, all);
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

  /** A box of whole cells from the part's middle, part frame: first, and one past the last. */
  private record Box(int x0, int y0, int x1, int y1, double cells) {
    static Box of(double x0, double y0, double x1, double y1) {
      int a = (int) Math.round(x0 + 0.5);
      int b = (int) Math.round(y0 + 0.5);
      int c = Math.max(a + 1, (int) Math.round(x1 + 0.5));
      int d = Math.max(b + 1, (int) Math.round(y1 + 0.5));
      return new Box(a, b, c, d, (double) (c - a) * (d - b));
    }
  }

  /** What lies before an edge and what lies beyond it. */
  private record Strip(double weight, Box before, Box beyond) {}

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
      out.add(new Strip(e.lengthMm(), box(e, ax, ay, -in), box(e, ax, ay, beyond)));
    }
    return out;
  }

  /** From the edge so many cells along its normal. */
  private Box box(Outline.Edge e, double ax, double ay, double deep) {
    double x0 = e.xMm() / cell - ax;
    double x1 = e.xMm() / cell + ax;
    double y0 = e.yMm() / cell - ay;
    double y1 = e.yMm() / cell + ay;
    return Box.of(
        Math.min(x0, x0 + e.nx() * deep),
        Math.min(y0, y0 + e.ny() * deep),
        Math.max(x1, x1 + e.nx() * deep),
        Math.max(y1, y1 + e.ny() * deep));
  }

  private int side = 0;
  private int halfX = 0;
  private int halfY = 0;

  private int cells(double mm) {
    return (int) Math.ceil(mm / cell) + 1;
  }

  /** Square crop along the panel's axes, three channels per cell, averaged from the pixels. */
  private float[] crop(Pose at, double arm) {
    int half = cells(arm + reachMm + BESIDE_MM);
    side = 2 * half + 1;
    double ppm = map.scaleAt(at.xMm(), at.yMm());
    int sub = Math.max(1, Math.min(5, (int) Math.round(ppm * cell)));
    double[] p = map.at(at.xMm(), at.yMm(), height);
    double[] j = map.jacobian(at.xMm(), at.yMm(), height);
    double extent = (half + 0.5) * cell;
    double spanX = (Math.abs(j[0]) + Math.abs(j[1])) * extent + 1;
    double spanY = (Math.abs(j[2]) + Math.abs(j[3])) * extent + 1;
    // What lies outside the picture repeats its border; a crop wholly outside has one pixel.
    double middleX = Math.max(0, Math.min(picture.width() - 1.0, p[0]));
    double middleY = Math.max(0, Math.min(picture.height() - 1.0, p[1]));
    Plane seen =
        picture.plane(
            Math.min(middleX, p[0] - spanX),
            Math.min(middleY, p[1] - spanY),
            Math.max(middleX, p[0] + spanX),
            Math.max(middleY, p[1] + spanY));
    byte[] v = seen.values();
    int right = seen.width() - 1;
    int low = seen.height() - 1;
    double x0 = p[0] - seen.x0();
    double y0 = p[1] - seen.y0();
    float[] out = new float[3 * side * side];
    float share = 1f / (sub * sub);
    for (int iy = 0; iy < side; iy++) {
      for (int ix = 0; ix < side; ix++) {
        int b = 0;
        int g = 0;
        int r = 0;
        for (int sy = 0; sy < sub; sy++) {
          double w = (iy - half + (sy + 0.5) / sub - 0.5) * cell;
          for (int sx = 0; sx < sub; sx++) {
            double u = (ix - half + (sx + 0.5) / sub - 0.5) * cell;
            int x = (int) Math.floor(x0 + j[0] * u + j[1] * w + 0.5);
            int y = (int) Math.floor(y0 + j[2] * u + j[3] * w + 0.5);
            x = Math.max(0, Math.min(right, x));
            y = Math.max(0, Math.min(low, y));
            int k = 3 * (y * seen.width() + x);
            b += v[k] & 0xFF;
            g += v[k + 1] & 0xFF;
            r += v[k + 2] & 0xFF;
          }
        }
        int k = 3 * (iy * side + ix);
        out[k] = b * share;
        out[k + 1] = g * share;
        out[k + 2] = r * share;
      }
    }
    return out;
  }

  private void searchAngle(
      double[] integral,
      Pose predicted,
      double turnDeg,
      double angleReachDeg,
      List<Strip> strips,
      List<Candidate> out) {
    double angle = predicted.rotationDeg() + turnDeg;
    int reach = (int) Math.round(reachMm / cell);
    double c = Angles.cosDeg(angle);
    double s = Angles.sinDeg(angle);
    for (int iy = -reach; iy <= reach; iy++) {
      for (int ix = -reach; ix <= reach; ix++) {
        double off = Math.hypot(ix, iy) / Math.max(1, reach);
        if (off > 1.05) {
          continue;
        }
        double score = score(integral, strips, halfX + ix, halfY + iy);
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

  private double score(double[] integral, List<Strip> strips, int cx, int cy) {
    double sum = 0;
    double weight = 0;
    for (int i = 0; i < strips.size(); i++) {
      Strip s = strips.get(i);
      sum += s.weight * contrast(integral, s, cx, cy);
      weight += s.weight;
    }
    return sum / weight;
  }

  private double contrast(double[] integral, Strip s, int cx, int cy) {
    if (!sums(integral, s.before, cx, cy, in) || !sums(integral, s.beyond, cx, cy, beyond)) {
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

  /** Means of the channels and the sum of their variances over a box about a cell. */
  private boolean sums(double[] integral, Box box, int cx, int cy, double[] out) {
    int a = cx + box.x0;
    int b = cy + box.y0;
    int c = cx + box.x1;
    int d = cy + box.y1;
    int w = 2 * halfX + 2;
    if (a < 0 || b < 0 || c >= w || d > 2 * halfY + 1) {
      return false;
    }
    int dc = 4 * (d * w + c);
    int bc = 4 * (b * w + c);
    int da = 4 * (d * w + a);
    int ba = 4 * (b * w + a);
    double square = 0;
    for (int k = 0; k < 3; k++) {
      double v = (integral[dc + k] - integral[bc + k] - integral[da + k] + integral[ba + k]);
      v /= box.cells;
      out[k] = v;
      square += v * v;
    }
    double v = integral[dc + 3] - integral[bc + 3] - integral[da + 3] + integral[ba + 3];
    out[3] = Math.max(0, v / box.cells - square);
    return true;
  }

  /**
   * Integral pictures of the three channels and of their squares, one beside the other, of the crop
   * in the part frame.
   */
  private void integrate(float[] base, double angleDeg, double[] t) {
    int half = side / 2;
    int w = 2 * halfX + 2;
    double c = Angles.cosDeg(angleDeg);
    double s = Angles.sinDeg(angleDeg);
    double end = side - 1.001;
    for (int iy = 0; iy <= 2 * halfY; iy++) {
      double r0 = 0;
      double r1 = 0;
      double r2 = 0;
      double r3 = 0;
      double q = iy - halfY;
      for (int ix = 0; ix <= 2 * halfX; ix++) {
        double u = ix - halfX;
        double x = Math.max(0, Math.min(end, half + c * u - s * q));
        double y = Math.max(0, Math.min(end, half + s * u + c * q));
        int xi = (int) x;
        int yi = (int) y;
        double fx = x - xi;
        double fy = y - yi;
        double w11 = fx * fy;
        double w10 = fx - w11;
        double w01 = fy - w11;
        double w00 = 1 - fx - w01;
        int k0 = 3 * (yi * side + xi);
        int k1 = k0 + 3 * side;
        double v0 = w00 * base[k0] + w10 * base[k0 + 3] + w01 * base[k1] + w11 * base[k1 + 3];
        double v1 =
            w00 * base[k0 + 1] + w10 * base[k0 + 4] + w01 * base[k1 + 1] + w11 * base[k1 + 4];
        double v2 =
            w00 * base[k0 + 2] + w10 * base[k0 + 5] + w01 * base[k1 + 2] + w11 * base[k1 + 5];
        r0 += v0;
        r1 += v1;
        r2 += v2;
        r3 += v0 * v0 + v1 * v1 + v2 * v2;
        int k = 4 * ((iy + 1) * w + ix + 1);
        int up = k - 4 * w;
        t[k] = t[up] + r0;
        t[k + 1] = t[up + 1] + r1;
        t[k + 2] = t[up + 2] + r2;
        t[k + 3] = t[up + 3] + r3;
      }
    }
  }
}
