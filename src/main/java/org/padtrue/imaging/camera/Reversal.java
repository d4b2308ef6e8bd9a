package org.padtrue.imaging.camera;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.padtrue.imaging.map.DeviceBend;
import org.padtrue.imaging.map.MapFamily;
import org.padtrue.imaging.map.MapFit;
import org.padtrue.imaging.picture.Matrices;

/**
 * Separates the error of a scanner or camera from the panel by pictures of the same panel turned by
 * 90 or 180 degrees (error separation by reversal: Evans, Hocken and Estler, 1996, CIRP Annals 45,
 * 617, from memory).
 *
 * <p>Model: a point P of the panel (unknown) is seen in picture k at q + D(q), q = R_k P + t_k,
 * with D the device's polynomial to third order. Points, poses of the pictures and D are solved
 * together by least squares; directions of D that the pictures leave free (an eigenvalue of the
 * reduced normal matrix near zero) are reported as not known, and a common scale always is one of
 * them. Linear terms are written as scale difference and squareness.
 */
public final class Reversal {
  /** Numbers of device unknowns: 7 higher terms per axis and three linear combinations. */
  private static final int HIGHER = DeviceBend.TERMS - 2;

  private static final int SCALE_DIFFERENCE = 2 * HIGHER;
  private static final int SQUARENESS = SCALE_DIFFERENCE + 1;
  private static final int COMMON_SCALE = SCALE_DIFFERENCE + 2;
  private static final int DEVICE = SCALE_DIFFERENCE + 3;

  /** Weight of the prior on each device unknown: 1 mm. */
  private static final double PRIOR = 1;

  /**
   * A direction counts as known when its variance is below (0.05 mm)^2: well below what cheap
   * devices bend, and what is not separable at all keeps the prior's 1 mm^2.
   */
  private static final double KNOWN = 2.5e-3;

  /**
   * Points of one panel as one picture shows them.
   *
   * @param turnDeg how the panel lies in the picture, counter-clockwise, degrees, about
   * @param points name to {x, y, u}: reading in the device's frame (x right, y up, origin in the
   *     picture's middle), mm by the nominal scale, and its standard uncertainty
   */
  public record View(double turnDeg, Map<String, double[]> points) {
    public View {
      points = Map.copyOf(points);
    }
  }

  private final List<View> views;
  private final Map<String, double[]> nominal;
  private final double scaleMm;
  private final double originX;
  private final double originY;

  private Reversal(
      List<View> views,
      Map<String, double[]> nominal,
      double scaleMm,
      double originX,
      double originY) {
    this.originX = originX;
    this.originY = originY;
    this.views = views;
    this.nominal = nominal;
    this.scaleMm = scaleMm;
  }

  /**
   * Solves for the device's error.
   *
   * @param views at least two, differently turned
   * @param nominal name to nominal panel position {x, y}, mm; only a start, not taken as true
   * @param pxPerMm scale of the pictures, kept with the result
   */
  public static ReversalResult solve(
      List<View> views, Map<String, double[]> nominal, double pxPerMm) {
    // About the point that the panel was turned about the even and the odd terms part exactly.
    double[] origin = new double[2];
    int n = 0;
    for (View v : views) {
      for (double[] p : v.points().values()) {
        origin[0] += p[0];
        origin[1] += p[1];
        n++;
      }
    }
    double ox = origin[0] / Math.max(1, n);
    double oy = origin[1] / Math.max(1, n);
    double reach = 1;
    List<View> centred = new ArrayList<>();
    for (View v : views) {
      Map<String, double[]> points = new HashMap<>();
      for (Map.Entry<String, double[]> e : v.points().entrySet()) {
        double[] p = e.getValue();
        points.put(e.getKey(), new double[] {p[0] - ox, p[1] - oy, p[2]});
        reach = Math.max(reach, Math.hypot(p[0] - ox, p[1] - oy));
      }
      centred.add(new View(v.turnDeg(), points));
    }
    return new Reversal(centred, nominal, reach, ox, oy).solve(pxPerMm);
  }

  private ReversalResult solve(double pxPerMm) {
    // Only points seen in two views and more can tell panel from device.
    Map<String, Integer> seen = new TreeMap<>();
    for (View v : views) {
      v.points().keySet().forEach(k -> seen.merge(k, 1, Integer::sum));
    }
    List<String> names =
        seen.entrySet().stream()
            .filter(e -> e.getValue() > 1 && nominal.containsKey(e.getKey()))
            .map(Map.Entry::getKey)
            .toList();
    if (names.size() < 12 || views.size() < 2) {
      return new ReversalResult(
          null,
          List.of(),
          Double.NaN,
          Double.NaN,
          List.of("fewer than twelve points are common to the turned pictures"));
    }
    List<double[]> poses = startPoses(names);
    Map<String, double[]> panel = new HashMap<>();
    names.forEach(n -> panel.put(n, java.util.Objects.requireNonNull(nominal.get(n)).clone()));
    Solved s = null;
    double[] device = new double[DEVICE];
    for (int i = 0; i < 4; i++) {
      s = iterate(names, poses, panel, device);
    }
    return report(java.util.Objects.requireNonNull(s), device, pxPerMm);
  }

  /** Eigenvalues and covariance of the device's unknowns, and what is left. */
  private record Solved(double[] share, double[][] vectors, double[][] covariance, double rms) {}

  private List<double[]> startPoses(List<String> names) {
    List<double[]> poses = new ArrayList<>();
    for (View v : views) {
      List<MapFit.Pair> pairs = new ArrayList<>();
      for (String n : names) {
        double[] p = v.points().get(n);
        double[] q = java.util.Objects.requireNonNull(nominal.get(n));
        if (p != null) {
          pairs.add(new MapFit.Pair(q[0], q[1], p[0], -p[1], 1));
        }
      }
      MapFit f =
          java.util.Objects.requireNonNull(MapFit.fit(pairs, MapFamily.SIMILARITY, false, 1));
      poses.add(new double[] {Math.atan2(-f.h[3], f.h[0]), f.h[2], -f.h[5]});
    }
    return poses;
  }

  private double[] designRow(double qx, double qy, boolean xAxis) {
    double[] t = DeviceBend.terms(qx / scaleMm, qy / scaleMm);
    double[] row = new double[DEVICE];
    for (int i = 0; i < HIGHER; i++) {
      row[(xAxis ? 0 : HIGHER) + i] = t[i + 2];
    }
    row[SCALE_DIFFERENCE] = xAxis ? t[0] : -t[1];
    row[SQUARENESS] = xAxis ? t[1] : t[0];
    row[COMMON_SCALE] = xAxis ? t[0] : t[1];
    return row;
  }

  /** One Gauss-Newton step; points are eliminated one by one. */
  private Solved iterate(
      List<String> names, List<double[]> poses, Map<String, double[]> panel, double[] device) {
    int m = DEVICE + 3 * views.size();
    double[][] n = new double[m][m];
    double[] r = new double[m];
    List<PointSums> sums = new ArrayList<>();
    double chi = 0;
    int count = 0;
    for (String name : names) {
      PointSums p = new PointSums(m);
      double[] at = java.util.Objects.requireNonNull(panel.get(name));
      for (int k = 0; k < views.size(); k++) {
        double[] seen = views.get(k).points().get(name);
        if (seen == null) {
          continue;
        }
        double[] pose = poses.get(k);
        double c = Math.cos(pose[0]);
        double s = Math.sin(pose[0]);
        double rx = c * at[0] - s * at[1];
        double ry = s * at[0] + c * at[1];
        double qx = rx + pose[1];
        double qy = ry + pose[2];
        double w = 1 / (seen[2] * seen[2]);
        for (int axis = 0; axis < 2; axis++) {
          double[] row = new double[m];
          double[] d = designRow(qx, qy, axis == 0);
          System.arraycopy(d, 0, row, 0, DEVICE);
          double model = axis == 0 ? qx : qy;
          for (int i = 0; i < DEVICE; i++) {
            model += d[i] * device[i];
          }
          row[DEVICE + 3 * k] = axis == 0 ? -ry : rx;
          row[DEVICE + 3 * k + 1 + axis] = 1;
          double y = seen[axis] - model;
          chi += y * y * w;
          count++;
          Matrices.accumulate(n, r, row, y, w);
          p.add(row, axis == 0 ? c : s, axis == 0 ? -s : c, y, w);
        }
      }
      p.reduce(n, r);
      sums.add(p);
    }
    return update(names, poses, panel, device, n, r, sums, chi, count);
  }

  private Solved update(
      List<String> names,
      List<double[]> poses,
      Map<String, double[]> panel,
      double[] device,
      double[][] n,
      double[] r,
      List<PointSums> sums,
      double chi,
      int count) {
    int m = n.length;
    // A weak prior holds what the pictures leave free, and tells which that is.
    double info = 0;
    for (int i = 0; i < DEVICE; i++) {
      info = Math.max(info, n[i][i]);
      n[i][i] += PRIOR;
      r[i] -= PRIOR * device[i];
    }
    // The panel's own frame is free: hold the first picture.
    for (int i = DEVICE; i < DEVICE + 3; i++) {
      n[i][i] += 1e6 * info;
    }
    double[][] inverse = java.util.Objects.requireNonNull(Matrices.inverse(n));
    double[] x = Matrices.times(inverse, r);
    for (int i = 0; i < DEVICE; i++) {
      device[i] += x[i];
    }
    for (int k = 0; k < poses.size(); k++) {
      for (int i = 0; i < 3; i++) {
        poses.get(k)[i] += x[DEVICE + 3 * k + i];
      }
    }
    for (int i = 0; i < names.size(); i++) {
      double[] d = sums.get(i).back(x);
      double[] at = java.util.Objects.requireNonNull(panel.get(names.get(i)));
      at[0] += d[0];
      at[1] += d[1];
    }
    double[][] cov = new double[DEVICE][DEVICE];
    for (int i = 0; i < DEVICE; i++) {
      System.arraycopy(inverse[i], 0, cov[i], 0, DEVICE);
    }
    EigenDecomposition e = new EigenDecomposition(new Array2DRowRealMatrix(symmetric(cov)));
    double[] share = new double[DEVICE];
    double[][] vectors = new double[DEVICE][];
    for (int i = 0; i < DEVICE; i++) {
      share[i] = e.getRealEigenvalue(i);
      vectors[i] = e.getEigenvector(i).toArray();
    }
    cov = known(share, vectors);
    int freedom = Math.max(1, count - 2 * names.size() - DEVICE - 3 * (poses.size() - 1));
    double scale = Math.max(1, chi / freedom);
    for (double[] row : cov) {
      for (int j = 0; j < row.length; j++) {
        row[j] *= scale;
      }
    }
    return new Solved(share, vectors, cov, Math.sqrt(chi / count) * typicalU());
  }

  /** Covariance of the directions that are known. */
  private static double[][] known(double[] share, double[][] vectors) {
    double[][] c = new double[DEVICE][DEVICE];
    for (int e = 0; e < DEVICE; e++) {
      for (int i = 0; share[e] < KNOWN && i < DEVICE; i++) {
        for (int j = 0; j < DEVICE; j++) {
          c[i][j] += share[e] * vectors[e][i] * vectors[e][j];
        }
      }
    }
    return c;
  }

  private double typicalU() {
    double s = 0;
    int n = 0;
    for (View v : views) {
      for (double[] p : v.points().values()) {
        s += 1 / (p[2] * p[2]);
        n++;
      }
    }
    return Math.sqrt(n / s);
  }

  private static double[][] symmetric(double[][] a) {
    double[][] s = new double[a.length][a.length];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < a.length; j++) {
        s[i][j] = (a[i][j] + a[j][i]) / 2;
      }
    }
    return s;
  }

  private ReversalResult report(Solved s, double[] device, double pxPerMm) {
    double[] known = device.clone();
    boolean[] free = new boolean[DEVICE];
    for (int e = 0; e < DEVICE; e++) {
      if (s.share[e] < KNOWN) {
        continue;
      }
      double along = 0;
      for (int i = 0; i < DEVICE; i++) {
        along += s.vectors[e][i] * device[i];
      }
      for (int i = 0; i < DEVICE; i++) {
        // What the pictures leave free is taken out of the correction.
        known[i] -= along * s.vectors[e][i];
        free[i] |= Math.abs(s.vectors[e][i]) > 0.1;
      }
    }
    List<ReversalResult.Term> terms = new ArrayList<>();
    for (int i = 0; i < DEVICE; i++) {
      double u = Math.sqrt(s.covariance[i][i]);
      terms.add(
          new ReversalResult.Term(
              name(i), free[i] ? Double.NaN : known[i], free[i] ? Double.NaN : u));
    }
    DeviceBend bend = bend(known, pxPerMm);
    List<String> notes = new ArrayList<>();
    List<String> unknown = new ArrayList<>();
    for (int i = 0; i < DEVICE; i++) {
      if (free[i]) {
        unknown.add(name(i));
      }
    }
    notes.add(
        "the common scale is not known without a length that is trusted; the fiducials' distances"
            + " are taken as true");
    unknown.remove(name(COMMON_SCALE));
    if (!unknown.isEmpty()) {
      notes.add("not separable with these turns: " + String.join(", ", unknown));
    }
    return new ReversalResult(bend, terms, bend.largestMm(scaleMm / 1.5), s.rms, notes);
  }

  private DeviceBend bend(double[] d, double pxPerMm) {
    double[] cx = new double[DeviceBend.TERMS];
    double[] cy = new double[DeviceBend.TERMS];
    for (int i = 0; i < HIGHER; i++) {
      cx[i + 2] = d[i];
      cy[i + 2] = d[HIGHER + i];
    }
    cx[0] = d[SCALE_DIFFERENCE] + d[COMMON_SCALE];
    cy[1] = -d[SCALE_DIFFERENCE] + d[COMMON_SCALE];
    cx[1] = d[SQUARENESS];
    cy[0] = d[SQUARENESS];
    return new DeviceBend(cx, cy, scaleMm, pxPerMm, originX, originY);
  }

  private static String name(int i) {
    if (i == SCALE_DIFFERENCE) {
      return "scale difference";
    }
    if (i == SQUARENESS) {
      return "squareness";
    }
    if (i == COMMON_SCALE) {
      return "common scale";
    }
    String axis = i < HIGHER ? "x" : "y";
    return axis + ": " + DeviceBend.NAMES[i % HIGHER + 2];
  }

  /** Sums of one point, whose two coordinates are eliminated from the normal equations. */
  private static final class PointSums {
    private final double[][] cross;
    private double a;
    private double b;
    private double d;
    private final double[] right = new double[2];

    PointSums(int m) {
      cross = new double[2][m];
    }

    void add(double[] row, double px, double py, double y, double w) {
      a += w * px * px;
      b += w * px * py;
      d += w * py * py;
      right[0] += w * px * y;
      right[1] += w * py * y;
      for (int i = 0; i < row.length; i++) {
        cross[0][i] += w * px * row[i];
        cross[1][i] += w * py * row[i];
      }
    }

    void reduce(double[][] n, double[] r) {
      double det = a * d - b * b;
      for (int i = 0; i < r.length; i++) {
        double u = (d * cross[0][i] - b * cross[1][i]) / det;
        double v = (a * cross[1][i] - b * cross[0][i]) / det;
        if (u == 0 && v == 0) {
          continue;
        }
        r[i] -= u * right[0] + v * right[1];
        for (int j = 0; j < r.length; j++) {
          n[i][j] -= u * cross[0][j] + v * cross[1][j];
        }
      }
    }

    double[] back(double[] x) {
      double u = right[0];
      double v = right[1];
      for (int i = 0; i < x.length; i++) {
        u -= cross[0][i] * x[i];
        v -= cross[1][i] * x[i];
      }
      double det = a * d - b * b;
      return new double[] {(d * u - b * v) / det, (a * v - b * u) / det};
    }
  }
}
