package org.padtrue.imaging.pose;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Matrices;
import org.padtrue.imaging.picture.Plane;
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

  /** Rounds on a sample of the pixels, then on all of them. */
  private static final int SAMPLED = 6;

  private static final int WHOLE = 5;

  /** Weights need a few rounds to settle. */
  private static final int LEAST_SAMPLED = 4;

  /** A sample has at least so many pixels, and so many for each stretch. */
  private static final int SAMPLE = 300;

  private static final int SAMPLE_EACH = 7;

  /** A step of less than this share of its own standard uncertainty is the last. */
  private static final double STILL = 0.5;

  /** Rounding to whole grey levels alone, grey levels squared. */
  private static final double ROUNDING = 1.0 / 12;

  /** Beyond this multiple of the noise a pixel counts no more. */
  private static final double CUT = 4;

  /**
   * Where the ground's level wavers by more than this share of the contrast a shadow lies beside
   * the part, and starts or ends at its corners: they are left out.
   */
  private static final double UNEVEN = 0.05;

  /** What is further from a pixel than so many blurs will not come to show there. */
  private static final double REACH = 12;

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
  private final int[] inside;
  private final int[] beyond;
  private final double[] trust;
  private final int[][] near;
  private final double[][] level = new double[3][KINDS];
  private final double[][][] deviation;
  private final double[][] spread = new double[3][KINDS];
  private final double[][] noise = new double[3][KINDS];
  private final StretchSums sums;
  private final LevelScatter scatter;
  private final double[] local;
  private final double[] residual = new double[3];
  private final double[] precision = new double[3];
  private final double[][] scores;
  private double @Nullable [][] inverse;
  private double kept;
  private boolean judging;

  private ImageFit(EdgePixels seen, PartCover cover, double[] start, double[] prior) {
    this.seen = seen;
    this.cover = cover;
    this.prior = prior;
    this.np = cover.count();
    this.p = start;
    int tiles = seen.tiles.size();
    this.inside = seen.tiles.stream().mapToInt(EdgePixels.Tile::inside).toArray();
    this.beyond = seen.tiles.stream().mapToInt(EdgePixels.Tile::beyond).toArray();
    this.trust = seen.tiles.stream().mapToDouble(EdgePixels.Tile::trust).toArray();
    this.near = near();
    this.deviation = new double[tiles][3][2];
    this.sums = new StretchSums(np, inside, beyond);
    this.n = sums.count();
    this.scatter = new LevelScatter(inside, beyond);
    this.local = new double[3 * KINDS * tiles];
    this.scores = new double[tiles][n];
    for (double[] s : spread) {
      Arrays.fill(s, LevelScatter.UNKNOWN);
    }
    for (double[] v : noise) {
      Arrays.fill(v, 100);
    }
  }

  /** For each stretch, what can show at its pixels. */
  private int[][] near() {
    double within = REACH * Math.exp(p[np - 1]);
    int[][] out = new int[trust.length][];
    double[][] box = new double[trust.length][];
    for (int i = 0; i < seen.tile.length; i++) {
      double[] b = box[seen.tile[i]];
      if (b == null) {
        box[seen.tile[i]] = new double[] {seen.u[i], seen.v[i], seen.u[i], seen.v[i]};
        continue;
      }
      b[0] = Math.min(b[0], seen.u[i]);
      b[1] = Math.min(b[1], seen.v[i]);
      b[2] = Math.max(b[2], seen.u[i]);
      b[3] = Math.max(b[3], seen.v[i]);
    }
    for (int t = 0; t < out.length; t++) {
      double[] b = box[t];
      out[t] = b == null ? new int[0] : cover.near(b[0], b[1], b[2], b[3], within);
    }
    return out;
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
    ImageFit whole = start(plane, map, type, outline, nominal, from, true);
    if (whole == null || !whole.rounds(whole.sample(), LEAST_SAMPLED, LEAST_SAMPLED)) {
      return null;
    }
    if (whole.uneven() < UNEVEN) {
      return whole.rounds(whole.sample(), SAMPLED - LEAST_SAMPLED, 1)
          ? whole.finished(from.pose(), 1)
          : null;
    }
    // From the edges again: a pose drawn aside by a shadow, and what it took for print, keep it
    // there.
    ImageFit sides = start(plane, map, type, outline, nominal, from, false);
    return sides != null && sides.sampled() ? sides.finished(from.pose(), 2) : null;
  }

  private static @Nullable ImageFit start(
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
    if (seen.tile.length < ENOUGH || seen.tiles.size() < 4) {
      return null;
    }
    List<Outline.Group> groups = List.copyOf(from.sizes().keySet());
    PartCover cover = new PartCover(outline, Outline.sided(type), groups);
    double[] start = new double[cover.count()];
    double[] prior = new double[cover.count()];
    for (int g = 0; g < groups.size(); g++) {
      OutlineFit.Size s = Objects.requireNonNull(from.sizes().get(groups.get(g)));
      start[POSE + g] = s.mm();
      prior[POSE + g] = s.priorMm();
    }
    double ppm = map.scaleAt(from.pose().xMm(), from.pose().yMm());
    start[start.length - 1] = Math.log(from.sigmaPx() / ppm);
    prior[start.length - 1] = 0.3;
    ImageFit f = new ImageFit(seen, cover, start, prior);
    f.firstLevels(f.sample());
    return f;
  }

  /** How many pixels are enough to start with. */
  private int sample() {
    int enough = Math.max(SAMPLE, SAMPLE_EACH * trust.length);
    for (int n : seen.upTo) {
      if (n >= enough) {
        return n;
      }
    }
    return seen.tile.length;
  }

  private boolean sampled() {
    return rounds(sample(), SAMPLED, LEAST_SAMPLED);
  }

  private @Nullable Refined finished(Pose start, int least) {
    return rounds(seen.tile.length, WHOLE, least) ? result(start) : null;
  }

  /** At most and at least so many steps on the first pixels; false when they lead nowhere. */
  private boolean rounds(int count, int most, int least) {
    for (int k = 0; k < most; k++) {
      double[] d = step(count, judging);
      // The first step is only a start: until then nobody knows what obeys.
      judging = true;
      if (!(Math.hypot(d[0], d[1]) < FAR * Math.exp(p[np - 1]))) {
        return false;
      }
      if (k + 1 >= least && still(d)) {
        break;
      }
    }
    return true;
  }

  /** Whether a step is small beside what the picture lets anyone know. */
  private boolean still(double[] d) {
    double[][] inv = Objects.requireNonNull(inverse);
    double most = STILL * STILL * excess(inv);
    for (int i = 0; i < np; i++) {
      if (!(d[i] * d[i] < most * inv[i][i])) {
        return false;
      }
    }
    return true;
  }

  /** Means of what is nearly one kind only, so that first residuals mean something. */
  private void firstLevels(int count) {
    double[][] sum = new double[3][KINDS];
    double[] weights = new double[KINDS];
    cover.set(p);
    for (int i = 0; i < count; i++) {
      int t = seen.tile[i];
      cover.look(seen.u[i], seen.v[i], near[t]);
      for (int k = 0; k < KINDS; k++) {
        double w = cover.share[k] > 0.8 ? trust[t] : 0;
        weights[k] += w;
        for (int c = 0; c < 3; c++) {
          sum[c][k] += w * (seen.colour[3 * i + c] & 0xFF);
        }
      }
    }
    for (int c = 0; c < 3; c++) {
      for (int k = 0; k < KINDS; k++) {
        level[c][k] = weights[k] > 0 ? sum[c][k] / weights[k] : 100;
      }
    }
  }

  /**
   * One step of Gauss and Newton.
   *
   * @param count pixels to take, from the first
   * @param judging whether pixels that do not obey lose their weight, and noise and spread follow
   * @return the step, before it was limited; not a number where none can be said
   */
  private double[] step(int count, boolean judging) {
    look(count, judging);
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
    sums.shared(a);
    for (int t = 0; t < scores.length; t++) {
      Arrays.fill(scores[t], 0);
      for (int c = 0; c < 3; c++) {
        sums.eliminate(t, c, deviation[t][c], spread, a, r, scores[t]);
      }
    }
    inverse = Matrices.inverse(a);
    if (inverse == null) {
      return new double[] {Double.NaN, Double.NaN};
    }
    double[] d = Matrices.times(inverse, r);
    if (judging) {
      // Seen from where the pixels were looked at, so before anything moves.
      scatter.judge(deviation, noise, ROUNDING);
    }
    for (int t = 0; t < scores.length; t++) {
      for (int c = 0; c < 3; c++) {
        sums.follow(t, c, deviation[t][c], spread, d);
      }
    }
    if (judging) {
      scatter.spread(noise, spread);
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
    return d;
  }

  /** Looks at the pixels once and gathers all that a step needs. */
  private void look(int count, boolean judging) {
    cover.set(p);
    sums.clear();
    scatter.clear();
    for (int t = 0; t < trust.length; t++) {
      for (int c = 0; c < 3; c++) {
        int l = (3 * t + c) * KINDS;
        System.arraycopy(level[c], 0, local, l, KINDS);
        local[l + inside[t]] += deviation[t][c][0];
        local[l + beyond[t]] += deviation[t][c][1];
      }
    }
    int within = 0;
    double[] share = cover.share;
    for (int i = 0; i < count; i++) {
      int t = seen.tile[i];
      cover.look(seen.u[i], seen.v[i], near[t]);
      double worst = 0;
      for (int c = 0; c < 3; c++) {
        int l = (3 * t + c) * KINDS;
        double[] s = noise[c];
        double model = share[0] * local[l] + share[1] * local[l + 1] + share[2] * local[l + 2];
        double v =
            ROUNDING
                + Math.max(0, share[0]) * s[0]
                + Math.max(0, share[1]) * s[1]
                + Math.max(0, share[2]) * s[2];
        residual[c] = (seen.colour[3 * i + c] & 0xFF) - model;
        precision[c] = 1 / v;
        worst += residual[c] * residual[c] / v / 3;
      }
      double obeys = 1;
      if (judging) {
        double u2 = worst / (CUT * CUT);
        obeys = u2 >= 1 ? 0 : (1 - u2) * (1 - u2);
        within += u2 < 1 ? 1 : 0;
        scatter.add(t, share, residual, obeys, trust[t]);
      }
      double w = obeys * trust[t];
      if (w > 0) {
        precision[0] *= w;
        precision[1] *= w;
        precision[2] *= w;
        sums.add(t, cover, local, residual, precision);
      }
    }
    kept = (double) within / count;
  }

  private @Nullable Refined result(Pose start) {
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
