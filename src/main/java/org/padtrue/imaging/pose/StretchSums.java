package org.padtrue.imaging.pose;

import java.util.Arrays;

/**
 * Sums over pixels for {@link ImageFit}: the normal equations of pose, sizes and blur (shared by
 * the channels) and of the three levels of each channel, with the two deviations of each stretch
 * eliminated. Parameters in this order: what the channels share, then the levels channel by
 * channel.
 */
final class StretchSums {
  private static final int KINDS = PartCover.KINDS;

  private final int np;
  private final int n;
  private final int[] inside;
  private final int[] beyond;

  /** Of what the channels share, over all stretches; lower half. */
  private final double[] poses;

  /**
   * Of each stretch and channel: pose by level, pose by residual, level by level, level by
   * residual.
   */
  private final double[] sums;

  private final int stride;
  private final double[] xz0;
  private final double[] xz1;
  private final double[] f0;
  private final double[] f1;

  /**
   * @param np parameters that the channels share
   * @param inside kind within each stretch's edge
   * @param beyond kind beyond it
   */
  StretchSums(int np, int[] inside, int[] beyond) {
    this.np = np;
    this.n = np + 3 * KINDS;
    this.inside = inside;
    this.beyond = beyond;
    this.poses = new double[np * np];
    this.stride = np * KINDS + np + KINDS * KINDS + KINDS;
    this.sums = new double[3 * inside.length * stride];
    this.xz0 = new double[np + KINDS];
    this.xz1 = new double[np + KINDS];
    this.f0 = new double[np + KINDS];
    this.f1 = new double[np + KINDS];
  }

  void clear() {
    Arrays.fill(poses, 0);
    Arrays.fill(sums, 0);
  }

  /**
   * Adds a pixel.
   *
   * @param t stretch
   * @param cover looked at the pixel
   * @param local levels of the stretch, channel by channel, from {@code 3 * KINDS * t} on
   * @param residual of each channel
   * @param weight of each channel
   */
  void add(int t, PartCover cover, double[] local, double[] residual, double[] weight) {
    double g = cover.share[PartCover.GROUND];
    double b = cover.share[PartCover.BODY];
    double m = cover.share[PartCover.METAL];
    boolean steep = cover.bodySteep || cover.metalSteep;
    double bodies = 0;
    double mixed = 0;
    double metals = 0;
    for (int c = 0; c < 3; c++) {
      double w = weight[c];
      double wy = w * residual[c];
      double wg = w * g;
      double wb = w * b;
      double wm = w * m;
      int o = (3 * t + c) * stride;
      int levels = o + np * KINDS + np;
      sums[levels] += wg * g;
      sums[levels + 1] += wg * b;
      sums[levels + 2] += wg * m;
      sums[levels + 4] += wb * b;
      sums[levels + 5] += wb * m;
      sums[levels + 8] += wm * m;
      sums[levels + 9] += wy * g;
      sums[levels + 10] += wy * b;
      sums[levels + 11] += wy * m;
      if (!steep) {
        continue;
      }
      int l = (3 * t + c) * KINDS;
      double body = local[l + PartCover.BODY] - local[l + PartCover.GROUND];
      double metal = local[l + PartCover.METAL] - local[l + PartCover.GROUND];
      bodies += w * body * body;
      mixed += w * body * metal;
      metals += w * metal * metal;
      int r = o + np * KINDS;
      for (int k = 0; k < np; k++) {
        double x = body * cover.body[k] + metal * cover.metal[k];
        sums[o] += x * wg;
        sums[o + 1] += x * wb;
        sums[o + 2] += x * wm;
        sums[r + k] += x * wy;
        o += KINDS;
      }
    }
    if (steep) {
      addPoses(cover, bodies, mixed, metals);
    }
  }

  private void addPoses(PartCover cover, double bodies, double mixed, double metals) {
    double[] b = cover.body;
    double[] m = cover.metal;
    boolean both = cover.bodySteep && cover.metalSteep;
    double[] one = cover.bodySteep ? b : m;
    double scale = cover.bodySteep ? bodies : metals;
    int k = 0;
    for (int i = 0; i < np; i++) {
      double toB = both ? bodies * b[i] + mixed * m[i] : scale * one[i];
      double toM = both ? mixed * b[i] + metals * m[i] : 0;
      k = i * np;
      for (int j = 0; j <= i; j++) {
        poses[k + j] += both ? toB * b[j] + toM * m[j] : toB * one[j];
      }
    }
  }

  /** Adds what the channels share to a normal matrix; once, before {@link #eliminate}. */
  void shared(double[][] a) {
    for (int i = 0; i < np; i++) {
      for (int j = 0; j <= i; j++) {
        a[i][j] += poses[i * np + j];
        if (i != j) {
          a[j][i] += poses[i * np + j];
        }
      }
    }
  }

  /** The stretch's own deviations with their prior: inverse of their matrix, residual sums. */
  private void own(int t, int c, double[] deviation, double[][] spread, double[] out) {
    int levels = (3 * t + c) * stride + np * KINDS + np;
    int in = inside[t];
    int be = beyond[t];
    double zz0 = sums[levels + KINDS * in + in] + 1 / spread[c][in];
    double zz2 = sums[levels + KINDS * be + be] + 1 / spread[c][be];
    double zz1 = sums[levels + KINDS * Math.min(in, be) + Math.max(in, be)];
    double det = zz0 * zz2 - zz1 * zz1;
    out[0] = zz2 / det;
    out[1] = -zz1 / det;
    out[2] = zz0 / det;
    int r = levels + KINDS * KINDS;
    out[3] = sums[r + in] - deviation[0] / spread[c][in];
    out[4] = sums[r + be] - deviation[1] / spread[c][be];
  }

  private void columns(int t, int c) {
    int o = (3 * t + c) * stride;
    int levels = o + np * KINDS + np;
    int in = inside[t];
    int be = beyond[t];
    for (int i = 0; i < np; i++) {
      xz0[i] = sums[o + KINDS * i + in];
      xz1[i] = sums[o + KINDS * i + be];
    }
    for (int k = 0; k < KINDS; k++) {
      xz0[np + k] = sums[levels + KINDS * Math.min(k, in) + Math.max(k, in)];
      xz1[np + k] = sums[levels + KINDS * Math.min(k, be) + Math.max(k, be)];
    }
  }

  /**
   * Adds a stretch's channel to the normal equations.
   *
   * @param deviation so far
   * @param spread variance of the deviations by channel and kind
   * @param a normal matrix
   * @param r right side
   * @param score what this stretch alone adds to it
   */
  void eliminate(
      int t,
      int c,
      double[] deviation,
      double[][] spread,
      double[][] a,
      double[] r,
      double[] score) {
    double[] q = new double[5];
    own(t, c, deviation, spread, q);
    columns(t, c);
    int o = (3 * t + c) * stride;
    int levels = o + np * KINDS + np;
    int m = np + KINDS;
    for (int i = 0; i < m; i++) {
      f0[i] = xz0[i] * q[0] + xz1[i] * q[1];
      f1[i] = xz0[i] * q[1] + xz1[i] * q[2];
      double xy = i < np ? sums[o + np * KINDS + i] : sums[levels + KINDS * KINDS + i - np];
      int gi = global(i, c);
      double s = xy - f0[i] * q[3] - f1[i] * q[4];
      r[gi] += s;
      score[gi] += s;
      for (int j = 0; j <= i; j++) {
        double v = -f0[i] * xz0[j] - f1[i] * xz1[j];
        if (i >= np) {
          v += j < np ? sums[o + KINDS * j + i - np] : sums[levels + KINDS * (j - np) + i - np];
        }
        int gj = global(j, c);
        a[gi][gj] += v;
        if (gi != gj) {
          a[gj][gi] += v;
        }
      }
    }
  }

  /** Moves a stretch's deviations as goes with a step of everything else. */
  void follow(int t, int c, double[] deviation, double[][] spread, double[] step) {
    double[] q = new double[5];
    own(t, c, deviation, spread, q);
    columns(t, c);
    for (int i = 0; i < np + KINDS; i++) {
      double d = step[global(i, c)];
      q[3] -= xz0[i] * d;
      q[4] -= xz1[i] * d;
    }
    deviation[0] += q[0] * q[3] + q[1] * q[4];
    deviation[1] += q[1] * q[3] + q[2] * q[4];
  }

  private int global(int i, int c) {
    return i < np ? i : np + c * KINDS + i - np;
  }

  /** Parameters in all. */
  int count() {
    return n;
  }
}
