package org.padtrue.imaging;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Last refinement of a pose: the pixels about the outline themselves by least squares.
 *
 * <p>Model: each pixel is a mixture of ground, body and metal by the shares that the blurred
 * outline covers ({@link PartCover}), each with one level for the whole part and a deviation for
 * each stretch of edge, drawn towards zero by the scatter that the picture itself shows. On even
 * surfaces that scatter vanishes and all stretches share three levels, which is what makes the fit
 * efficient; on mottled or unevenly lit ones each stretch keeps its own. Pixels that do not obey
 * (print, glare, solder) lose their weight by Tukey's biweight. The covariance is the normal
 * matrix's, times what the scores of the stretches scatter beyond it: texture is not independent
 * from pixel to pixel.
 */
final class ImageFit {
  private static final int POSE = 3;
  private static final int KINDS = PartCover.KINDS;
  private static final int ROUNDS = 9;

  /** Rounding to whole grey levels alone, grey levels squared. */
  private static final double ROUNDING = 1.0 / 12;

  /** Beyond this multiple of the noise a pixel counts no more. */
  private static final double CUT = 4;

  /**
   * Where the ground's level wavers by more than this share of the contrast a shadow lies beside
   * the part, and starts or ends at its corners: they are left out.
   */
  private static final double UNEVEN = 0.05;

  /** A step of more blurs than this leads nowhere. */
  private static final double FAR = 4;

  /** Fewer pixels than this say nothing. */
  private static final int ENOUGH = 60;

  /**
   * A refined pose.
   *
   * @param pose panel frame
   * @param covariance x mm, y mm, rotation rad, panel frame
   * @param unevenGround scatter of the ground's level from stretch to stretch, over the contrast of
   *     the part against it
   * @param kept share of pixels that obey the model
   * @param excess standard deviations over those that the normal matrix alone says
   */
  record Refined(
      Pose pose, double[][] covariance, double unevenGround, double kept, double excess) {}

  private final EdgePixels seen;
  private final PartCover cover;
  private final double[] prior;
  private final int np;
  private final int n;
  private final double[] p;
  private final double[][] level = new double[3][KINDS];
  private final double[][][] deviation;
  private final double[][] spread = new double[3][KINDS];
  private final double[][] noise = new double[3][KINDS];
  private final double[] weight;
  private final double[][] residual;
  private final double[][] scores;
  private double @Nullable [][] inverse;
  private double kept;

  private ImageFit(EdgePixels seen, PartCover cover, double[] start, double[] prior) {
    this.seen = seen;
    this.cover = cover;
    this.prior = prior;
    this.np = cover.count();
    this.n = np + 3 * KINDS;
    this.p = start;
    this.deviation = new double[seen.tiles.size()][3][2];
    this.weight = new double[seen.pixels.size()];
    this.residual = new double[seen.pixels.size()][3];
    this.scores = new double[seen.tiles.size()][];
    for (double[] s : spread) {
      Arrays.fill(s, 30 * 30);
    }
    for (double[] v : noise) {
      Arrays.fill(v, 100);
    }
  }

  /**
   * Refines an edge fit.
   *
   * @param nominal where the lands are
   * @return null when the picture does not obey such a model
   */
  static @Nullable Refined refine(
      Plane plane,
      PanelToPicture map,
      PartType type,
      Outline outline,
      Pose nominal,
      OutlineFit.Result from) {
    Refined whole = refine(plane, map, type, outline, nominal, from, true);
    return whole == null || whole.unevenGround < UNEVEN
        ? whole
        : refine(plane, map, type, outline, nominal, from, false);
  }

  private static @Nullable Refined refine(
      Plane plane,
      PanelToPicture map,
      PartType type,
      Outline outline,
      Pose nominal,
      OutlineFit.Result from,
      boolean corners) {
    EdgePixels seen =
        new EdgePixels(
            plane,
            map,
            outline,
            from,
            from.landsShow() ? type.lands() : List.of(),
            nominal,
            corners);
    if (seen.pixels.size() < ENOUGH || seen.tiles.size() < 4) {
      return null;
    }
    List<Outline.Group> groups = List.copyOf(from.sizes().keySet());
    PartCover cover = new PartCover(outline, Outline.sided(type), groups);
    double[] start = new double[cover.count()];
    double[] prior = new double[cover.count()];
    for (int g = 0; g < groups.size(); g++) {
      OutlineFit.Size s = java.util.Objects.requireNonNull(from.sizes().get(groups.get(g)));
      start[POSE + g] = s.mm();
      prior[POSE + g] = s.priorMm();
    }
    double ppm = map.scaleAt(from.pose().xMm(), from.pose().yMm());
    start[start.length - 1] = Math.log(from.sigmaPx() / ppm);
    prior[start.length - 1] = 0.3;
    ImageFit f = new ImageFit(seen, cover, start, prior);
    return f.run() ? f.result(from.pose()) : null;
  }

  private boolean run() {
    Arrays.fill(weight, 1);
    firstLevels();
    for (int k = 0; k < ROUNDS; k++) {
      double moved = step();
      if (!(moved < FAR)) {
        return false;
      }
      if (k >= 1) {
        judge();
      }
      if (k > 4 && moved < 0.02) {
        return true;
      }
    }
    return true;
  }

  /** Median of what is nearly one kind only, so that first residuals mean something. */
  private void firstLevels() {
    double[][] sum = new double[3][KINDS];
    double[] count = new double[KINDS];
    for (EdgePixels.Pixel q : seen.pixels) {
      cover.look(q.u(), q.v(), p);
      for (int k = 0; k < KINDS; k++) {
        double w = cover.share[k] > 0.8 ? seen.tiles.get(q.tile()).trust() : 0;
        count[k] += w;
        for (int c = 0; c < 3; c++) {
          sum[c][k] += w * q.colour()[c];
        }
      }
    }
    for (int c = 0; c < 3; c++) {
      for (int k = 0; k < KINDS; k++) {
        level[c][k] = count[k] > 0 ? sum[c][k] / count[k] : 100;
      }
    }
  }

  /** Sums of one stretch in one channel, its own two deviations still in. */
  private final class Sums {
    final int m = np + KINDS;
    final double[][] xx = new double[m][m];
    final double[][] xz = new double[m][2];
    final double[] zz = new double[3];
    final double[] xy = new double[m];
    final double[] zy = new double[2];

    void add(double[] x, double z0, double z1, double y, double w) {
      for (int i = 0; i < m; i++) {
        double wx = w * x[i];
        if (wx == 0) {
          continue;
        }
        for (int j = 0; j <= i; j++) {
          xx[i][j] += wx * x[j];
        }
        xz[i][0] += wx * z0;
        xz[i][1] += wx * z1;
        xy[i] += wx * y;
      }
      zz[0] += w * z0 * z0;
      zz[1] += w * z0 * z1;
      zz[2] += w * z1 * z1;
      zy[0] += w * z0 * y;
      zy[1] += w * z1 * y;
    }

    /** Inverse of the deviations' own matrix with their prior. */
    double[] inverse(double prior0, double prior1) {
      double a = zz[0] + prior0;
      double d = zz[2] + prior1;
      double det = a * d - zz[1] * zz[1];
      return new double[] {d / det, -zz[1] / det, a / det};
    }
  }

  /**
   * One step of Gauss and Newton.
   *
   * @return how far it went, in blurs
   */
  private double step() {
    Sums[][] sums = gather();
    double[][] a = new double[n][n];
    double[] r = new double[n];
    for (int i = 0; i < POSE; i++) {
      a[i][i] += 1;
    }
    for (int i = POSE; i < np; i++) {
      double w = 1 / (prior[i] * prior[i]);
      a[i][i] += w;
      // The blur has no level to be drawn to but where it started.
      r[i] -= i < np - 1 ? w * p[i] : 0;
    }
    for (int i = np; i < n; i++) {
      a[i][i] += 1e-6;
    }
    for (int t = 0; t < sums.length; t++) {
      scores[t] = new double[n];
      for (int c = 0; c < 3; c++) {
        eliminate(sums[t][c], t, c, a, r);
      }
    }
    inverse = Matrices.inverse(a);
    if (inverse == null) {
      return Double.POSITIVE_INFINITY;
    }
    double[] d = Matrices.times(inverse, r);
    for (int t = 0; t < sums.length; t++) {
      for (int c = 0; c < 3; c++) {
        follow(sums[t][c], t, c, d);
      }
    }
    double sigma = Math.exp(p[np - 1]);
    for (int i = 0; i < np; i++) {
      double limit = i == 2 ? 0.03 : i == np - 1 ? 0.2 : sigma;
      p[i] += Math.max(-limit, Math.min(limit, d[i]));
    }
    for (int c = 0; c < 3; c++) {
      for (int k = 0; k < KINDS; k++) {
        level[c][k] += d[np + c * KINDS + k];
      }
    }
    return Math.hypot(d[0], d[1]) / sigma;
  }

  private Sums[][] gather() {
    Sums[][] sums = new Sums[seen.tiles.size()][3];
    for (Sums[] s : sums) {
      for (int c = 0; c < 3; c++) {
        s[c] = new Sums();
      }
    }
    double[] x = new double[np + KINDS];
    for (int i = 0; i < weight.length; i++) {
      EdgePixels.Pixel q = seen.pixels.get(i);
      EdgePixels.Tile tile = seen.tiles.get(q.tile());
      cover.look(q.u(), q.v(), p);
      for (int c = 0; c < 3; c++) {
        double[] l = level[c].clone();
        double[] dev = deviation[q.tile()][c];
        l[tile.inside()] += dev[0];
        l[tile.beyond()] += dev[1];
        double model = 0;
        double v = ROUNDING;
        for (int k = 0; k < KINDS; k++) {
          model += cover.share[k] * l[k];
          v += Math.max(0, cover.share[k]) * noise[c][k];
          x[np + k] = cover.share[k];
        }
        double body = l[PartCover.BODY] - l[PartCover.GROUND];
        double metal = l[PartCover.METAL] - l[PartCover.GROUND];
        for (int k = 0; k < np; k++) {
          x[k] = body * cover.body[k] + metal * cover.metal[k];
        }
        double y = q.colour()[c] - model;
        residual[i][c] = y / Math.sqrt(v);
        double w = weight[i] * tile.trust() / v;
        if (w > 0) {
          sums[q.tile()][c].add(x, cover.share[tile.inside()], cover.share[tile.beyond()], y, w);
        }
      }
    }
    return sums;
  }

  private double[] local(Sums s, int t, int c) {
    EdgePixels.Tile tile = seen.tiles.get(t);
    return s.inverse(1 / spread[c][tile.inside()], 1 / spread[c][tile.beyond()]);
  }

  private int global(int i, int c) {
    return i < np ? i : np + c * KINDS + i - np;
  }

  private void eliminate(Sums s, int t, int c, double[][] a, double[] r) {
    double[] inv = local(s, t, c);
    EdgePixels.Tile tile = seen.tiles.get(t);
    double z0 = s.zy[0] - deviation[t][c][0] / spread[c][tile.inside()];
    double z1 = s.zy[1] - deviation[t][c][1] / spread[c][tile.beyond()];
    for (int i = 0; i < s.m; i++) {
      double f0 = s.xz[i][0] * inv[0] + s.xz[i][1] * inv[1];
      double f1 = s.xz[i][0] * inv[1] + s.xz[i][1] * inv[2];
      int gi = global(i, c);
      double score = s.xy[i] - f0 * z0 - f1 * z1;
      r[gi] += score;
      scores[t][gi] += score;
      for (int j = 0; j <= i; j++) {
        double v = s.xx[i][j] - f0 * s.xz[j][0] - f1 * s.xz[j][1];
        int gj = global(j, c);
        a[gi][gj] += v;
        if (gi != gj) {
          a[gj][gi] += v;
        }
      }
    }
  }

  /** The deviations that go with a step of everything else. */
  private void follow(Sums s, int t, int c, double[] d) {
    double[] inv = local(s, t, c);
    EdgePixels.Tile tile = seen.tiles.get(t);
    double z0 = s.zy[0] - deviation[t][c][0] / spread[c][tile.inside()];
    double z1 = s.zy[1] - deviation[t][c][1] / spread[c][tile.beyond()];
    for (int i = 0; i < s.m; i++) {
      double di = d[global(i, c)];
      z0 -= s.xz[i][0] * di;
      z1 -= s.xz[i][1] * di;
    }
    deviation[t][c][0] += inv[0] * z0 + inv[1] * z1;
    deviation[t][c][1] += inv[1] * z0 + inv[2] * z1;
  }

  /** Noise of each kind, scatter of levels from stretch to stretch, weights of pixels. */
  private void judge() {
    int tiles = seen.tiles.size();
    double[][][] sum = new double[tiles][3][KINDS];
    double[][] count = new double[tiles][KINDS];
    double[][][] square = new double[3][KINDS][2];
    double within = 0;
    for (int i = 0; i < weight.length; i++) {
      EdgePixels.Pixel q = seen.pixels.get(i);
      EdgePixels.Tile tile = seen.tiles.get(q.tile());
      cover.look(q.u(), q.v(), p);
      double worst = 0;
      double[] raw = new double[3];
      for (int c = 0; c < 3; c++) {
        double[] l = level[c].clone();
        double[] dev = deviation[q.tile()][c];
        l[tile.inside()] += dev[0];
        l[tile.beyond()] += dev[1];
        double model = 0;
        double v = ROUNDING;
        for (int k = 0; k < KINDS; k++) {
          model += cover.share[k] * l[k];
          v += Math.max(0, cover.share[k]) * noise[c][k];
        }
        raw[c] = q.colour()[c] - model;
        worst += raw[c] * raw[c] / v / 3;
      }
      double u2 = worst / (CUT * CUT);
      weight[i] = u2 >= 1 ? 0 : (1 - u2) * (1 - u2);
      within += u2 < 1 ? 1 : 0;
      for (int k = 0; k < KINDS; k++) {
        if (cover.share[k] < 0.7) {
          continue;
        }
        double own = k == tile.inside() ? 0 : k == tile.beyond() ? 1 : -1;
        double w = cover.share[k] > 0.9 && own >= 0 ? weight[i] * tile.trust() : 0;
        count[q.tile()][k] += w;
        for (int c = 0; c < 3; c++) {
          double dev = own < 0 ? 0 : deviation[q.tile()][c][(int) own];
          sum[q.tile()][c][k] += w * (raw[c] + dev);
          square[c][k][0] += weight[i] * raw[c] * raw[c];
          square[c][k][1] += weight[i];
        }
      }
    }
    kept = within / weight.length;
    for (int c = 0; c < 3; c++) {
      for (int k = 0; k < KINDS; k++) {
        double[] s = square[c][k];
        if (s[1] > 12) {
          noise[c][k] = Math.max(ROUNDING, s[0] / s[1]);
        }
        spread[c][k] = spread(sum, count, c, k);
      }
    }
  }

  private double spread(double[][][] sum, double[][] count, int c, int k) {
    double s = 0;
    int m = 0;
    for (int t = 0; t < count.length; t++) {
      double w = count[t][k];
      if (w < 3) {
        continue;
      }
      double mean = sum[t][c][k] / w;
      s += mean * mean - noise[c][k] / w;
      m++;
    }
    // Never quite none: a stretch that does differ must be able to.
    double least = 1e-3 * noise[c][k] + 1e-4;
    return m < 3 ? 30 * 30 : Math.max(least, s / m);
  }

  private @Nullable Refined result(Pose start) {
    step();
    double[][] inv = inverse;
    if (inv == null) {
      return null;
    }
    double excess = Math.sqrt(excess(inv));
    double c = Angles.cosDeg(start.rotationDeg());
    double s = Angles.sinDeg(start.rotationDeg());
    double[][] q = {{c, -s, 0}, {s, c, 0}, {0, 0, 1}};
    double[][] v = new double[3][3];
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        for (int a = 0; a < 3; a++) {
          for (int b = 0; b < 3; b++) {
            v[i][j] += excess * excess * q[i][a] * inv[a][b] * q[j][b];
          }
        }
      }
    }
    Pose pose =
        new Pose(
            start.xMm() + c * p[0] - s * p[1],
            start.yMm() + s * p[0] + c * p[1],
            Angles.wrap(start.rotationDeg() + Math.toDegrees(p[2])));
    return new Refined(pose, v, uneven(), kept, excess);
  }

  /** Scatter of the stretches' scores over what the normal matrix says, squared, at least 1. */
  private double excess(double[][] inv) {
    double[] v = new double[POSE];
    for (double[] score : scores) {
      for (int i = 0; i < POSE; i++) {
        double h = 0;
        for (int j = 0; j < n; j++) {
          h += inv[i][j] * score[j];
        }
        v[i] += h * h;
      }
    }
    double mean = 0;
    for (int i = 0; i < POSE; i++) {
      mean += v[i] / inv[i][i] / POSE;
    }
    int t = scores.length;
    return Math.max(1, mean * t / Math.max(1.0, t - POSE));
  }

  private double uneven() {
    double contrast = 0;
    double scatter = 0;
    for (int c = 0; c < 3; c++) {
      double d = 0;
      for (EdgePixels.Tile t : seen.tiles) {
        d = Math.max(d, Math.abs(level[c][t.inside()] - level[c][t.beyond()]));
      }
      contrast += d;
      scatter += Math.sqrt(spread[c][PartCover.GROUND]);
    }
    return contrast > 0 ? scatter / contrast : 1;
  }
}
