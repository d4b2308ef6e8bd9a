package org.padtrue.imaging.picture;

import org.apache.commons.math3.special.Erf;

/**
 * Finds where a short straight edge lies, to a fraction of a pixel.
 *
 * <p>Model: brightness a + b Phi((s - delta) / sigma), s the distance along the normal, Phi the
 * normal distribution (a step blurred by optics and pixel). Linearised about delta = 0 it has three
 * unknowns per edge and colour channel, solved by least squares over the pixels themselves, without
 * resampling. The channels are joined by generalised least squares: what counts is contrast against
 * scatter, so a black body on a green mask is seen in green, and a glaring one where it glares
 * least. The standard uncertainty follows from the curvature and the residuals.
 */
public final class EdgeLocator {
  /** Phi and phi by s / sigma, tabulated: both are needed for every pixel. */
  private static final int TABLE = 1024;

  private static final double RANGE = 6;

  /** Pixel noise assumed when weighing what is known of a second edge, grey levels. */
  private static final double PRIOR_NOISE = 4;

  private static final float[] CUMULATIVE = new float[2 * TABLE + 1];
  private static final float[] DENSITY = new float[2 * TABLE + 1];

  static {
    for (int i = 0; i <= 2 * TABLE; i++) {
      double z = (i - TABLE) * RANGE / TABLE;
      CUMULATIVE[i] = (float) (0.5 * Erf.erfc(-z / Math.sqrt(2)));
      DENSITY[i] = (float) (Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI));
    }
  }

  /**
   * What was seen at an edge.
   *
   * @param offsetPx edge minus predicted, along the normal, px
   * @param variance of the offset, px^2; infinite when there is no edge to see
   * @param contrast step across the edge in the joined channels, grey levels, positive
   * @param noise residual standard deviation in the joined channels, grey levels
   * @param blue brightness beyond the edge minus before it, grey levels
   * @param green likewise, grey levels
   * @param red likewise, grey levels
   * @param sharper pure number: chi-square with a smaller sigma, minus that with the nominal one
   * @param blunter likewise a pure number, with a larger sigma
   */
  public record Seen(
      double offsetPx,
      double variance,
      double contrast,
      double noise,
      double blue,
      double green,
      double red,
      double sharper,
      double blunter) {
    public static final Seen NOTHING = new Seen(0, Double.POSITIVE_INFINITY, 0, 0, 0, 0, 0, 0, 0);

    /** Mean step of the channels, grey levels. */
    public double step() {
      return (blue + green + red) / 3;
    }

    private Seen moved(double px) {
      return new Seen(offsetPx + px, variance, contrast, noise, blue, green, red, sharper, blunter);
    }

    public boolean usable() {
      return variance < Double.POSITIVE_INFINITY;
    }
  }

  /**
   * A predicted edge; px unless said otherwise.
   *
   * @param x middle
   * @param y middle
   * @param nx unit normal
   * @param ny unit normal
   * @param half half length
   * @param before band before the edge
   * @param beyond band beyond it
   * @param second where along the normal a second, known edge lies (a land's); NaN when none
   * @param secondStep grey levels: brightness beyond the second edge minus before it, as seen
   *     elsewhere
   * @param secondSd how sure that is, grey levels
   */
  public record Where(
      double x,
      double y,
      double nx,
      double ny,
      double half,
      double before,
      double beyond,
      double second,
      double secondStep,
      double secondSd) {
    private Where moved(double px) {
      return new Where(
          x + px * nx,
          y + px * ny,
          nx,
          ny,
          half,
          before,
          beyond,
          second - px,
          secondStep,
          secondSd);
    }
  }

  private EdgeLocator() {}

  /**
   * Locates one edge.
   *
   * @param sigmaPx blur
   * @param judgeBlur also try sigma a fifth smaller and a quarter larger
   */
  public static Seen locate(Plane p, Where w, double sigmaPx, boolean judgeBlur) {
    double reach = Math.max(w.before, w.beyond);
    double ex = Math.abs(w.nx) * reach + Math.abs(w.ny) * w.half;
    double ey = Math.abs(w.ny) * reach + Math.abs(w.nx) * w.half;
    int x0 = (int) Math.ceil(w.x - ex);
    int x1 = (int) Math.floor(w.x + ex);
    int y0 = (int) Math.ceil(w.y - ey);
    int y1 = (int) Math.floor(w.y + ey);
    if (!p.holds(x0, y0) || !p.holds(x1, y1)) {
      return Seen.NOTHING;
    }
    Sums s = new Sums(w);
    gather(p, w, sigmaPx, s, x0, x1, y0, y1);
    Seen seen = s.solve(sigmaPx, reach);
    if (!seen.usable() || !judgeBlur) {
      return seen;
    }
    double chi = s.residual();
    s.clear();
    gather(p, w, sigmaPx * 0.8, s, x0, x1, y0, y1);
    double sharper = s.regress() ? s.residual() - chi : 0;
    s.clear();
    gather(p, w, sigmaPx * 1.25, s, x0, x1, y0, y1);
    double blunter = s.regress() ? s.residual() - chi : 0;
    double per = 1 / (seen.noise * seen.noise);
    return new Seen(
        seen.offsetPx,
        seen.variance,
        seen.contrast,
        seen.noise,
        seen.blue,
        seen.green,
        seen.red,
        sharper * per,
        blunter * per);
  }

  /**
   * Looks for a sharp edge aside of the predicted place, within the bands. About a place that is
   * off by more than the blur the linear model sees a step but not where it is.
   *
   * @param seen what was seen at the predicted place
   * @return the clearest of what was seen there and aside
   */
  public static Seen aside(Plane p, Where w, double sigmaPx, boolean judgeBlur, Seen seen) {
    double step = Math.max(0.8, 1.5 * sigmaPx);
    Seen best = seen;
    for (int k = 1; k * step < Math.max(w.before, w.beyond); k++) {
      for (int sign = -1; sign <= 1; sign += 2) {
        double d = sign * k * step;
        if (d < -w.before || d > w.beyond) {
          continue;
        }
        Seen s = locate(p, w.moved(d), sigmaPx, judgeBlur);
        boolean own = Math.abs(s.offsetPx) < 0.75 * step;
        boolean same = s.contrast > 0.6 * seen.contrast;
        if (s.usable() && own && same && s.noise * best.contrast < 0.7 * best.noise * s.contrast) {
          best = s.moved(d);
        }
      }
    }
    return best;
  }

  private static void gather(
      Plane p, Where w, double sigma, Sums sums, int x0, int x1, int y0, int y1) {
    byte[] v = p.values();
    double scale = TABLE / (RANGE * sigma);
    boolean two = !Double.isNaN(w.second);
    for (int y = y0; y <= y1; y++) {
      int at = (y - p.y0()) * p.width() - p.x0();
      double dy = y - w.y;
      for (int x = x0; x <= x1; x++) {
        double dx = x - w.x;
        double t = dy * w.nx - dx * w.ny;
        double s = dx * w.nx + dy * w.ny;
        if (t <= -w.half || t > w.half || s < -w.before || s > w.beyond) {
          continue;
        }
        int i = index(s * scale);
        int k = 3 * (at + x);
        sums.add(
            CUMULATIVE[i],
            DENSITY[i],
            two ? CUMULATIVE[index((s - w.second) * scale)] : 0,
            v[k] & 0xFF,
            v[k + 1] & 0xFF,
            v[k + 2] & 0xFF);
      }
    }
  }

  private static int index(double z) {
    // Half for rounding; what lies below the table is cut to its first entry.
    int i = (int) (z + (TABLE + 0.5));
    return i < 0 ? 0 : Math.min(i, 2 * TABLE);
  }

  /**
   * Normal equations of the fit: step, its derivative and, if there is one, the second step; right
   * sides for three channels. Terms 0 to 2 are the columns, 3 to 5 the channels.
   */
  private static final class Sums {
    private final int columns;
    private int n;
    private final double[] sum = new double[6];
    private final double[] product = new double[36];
    private final double[][] a = new double[3][3];
    private final double[][] inverse = new double[3][3];

    /** Solution by column and channel. */
    private final double[][] x = new double[3][3];

    /** How the channels are joined. */
    private final double[] join = {0, 1, 0};

    /** Weight and value of the prior on the second step. */
    private double prior;

    private final double step2;
    private final double step2Sd;

    Sums(Where w) {
      boolean two = !Double.isNaN(w.second);
      columns = two ? 3 : 2;
      step2 = w.secondStep;
      step2Sd = w.secondSd;
      prior = two ? PRIOR_NOISE * PRIOR_NOISE / (step2Sd * step2Sd) : 0;
    }

    void clear() {
      n = 0;
      java.util.Arrays.fill(sum, 0);
      java.util.Arrays.fill(product, 0);
    }

    int freedom() {
      return n - columns - 1;
    }

    void add(double step, double density, double second, double b, double g, double r) {
      n++;
      sum[0] += step;
      sum[1] += density;
      sum[3] += b;
      sum[4] += g;
      sum[5] += r;
      product[0] += step * step;
      product[1] += step * density;
      product[7] += density * density;
      product[3] += step * b;
      product[4] += step * g;
      product[5] += step * r;
      product[9] += density * b;
      product[10] += density * g;
      product[11] += density * r;
      product[21] += b * b;
      product[22] += b * g;
      product[23] += b * r;
      product[28] += g * g;
      product[29] += g * r;
      product[35] += r * r;
      if (columns == 3) {
        sum[2] += second;
        product[2] += step * second;
        product[8] += density * second;
        product[14] += second * second;
        product[15] += second * b;
        product[16] += second * g;
        product[17] += second * r;
      }
    }

    /** Centred product of two terms, i not above j. */
    private double centred(int i, int j) {
      return product[6 * i + j] - sum[i] * sum[j] / n;
    }

    /** Solves for each channel; false when the pixels cannot carry the fit. */
    boolean regress() {
      if (freedom() < 3 || !(centred(0, 0) > 0.05)) {
        return false;
      }
      for (int i = 0; i < columns; i++) {
        for (int j = i; j < columns; j++) {
          a[i][j] = a[j][i] = centred(i, j);
        }
      }
      a[2][2] += prior;
      if (!invert()) {
        return false;
      }
      for (int c = 0; c < 3; c++) {
        for (int i = 0; i < columns; i++) {
          x[i][c] = 0;
          for (int j = 0; j < columns; j++) {
            x[i][c] += inverse[i][j] * right(j, c);
          }
        }
      }
      return true;
    }

    private double right(int column, int channel) {
      double pull = column == 2 ? prior * step2 : 0;
      return centred(column, 3 + channel) + pull;
    }

    /** Residual products of two channels after the fit. */
    private double residual(int c, int d) {
      double r = centred(3 + Math.min(c, d), 3 + Math.max(c, d)) + prior * step2 * step2;
      for (int i = 0; i < columns; i++) {
        r -= x[i][c] * right(i, d);
      }
      return r;
    }

    /** Residual sum of squares of the joined channels. */
    double residual() {
      double s = 0;
      for (int c = 0; c < 3; c++) {
        for (int d = 0; d < 3; d++) {
          s += join[c] * join[d] * residual(c, d);
        }
      }
      return Math.max(0, s);
    }

    private boolean invert() {
      if (columns == 2) {
        double det = a[0][0] * a[1][1] - a[0][1] * a[0][1];
        if (!(det > 1e-6 * a[0][0] * Math.max(a[1][1], 1e-3))) {
          return false;
        }
        inverse[0][0] = a[1][1] / det;
        inverse[1][1] = a[0][0] / det;
        inverse[0][1] = inverse[1][0] = -a[0][1] / det;
        return true;
      }
      double c00 = a[1][1] * a[2][2] - a[1][2] * a[1][2];
      double c01 = a[0][2] * a[1][2] - a[0][1] * a[2][2];
      double c02 = a[0][1] * a[1][2] - a[0][2] * a[1][1];
      double det = a[0][0] * c00 + a[0][1] * c01 + a[0][2] * c02;
      if (!(det > 1e-7 * a[0][0] * Math.max(a[1][1], 1e-3) * Math.max(a[2][2], 1e-3))) {
        return false;
      }
      inverse[0][0] = c00 / det;
      inverse[0][1] = inverse[1][0] = c01 / det;
      inverse[0][2] = inverse[2][0] = c02 / det;
      inverse[1][1] = (a[0][0] * a[2][2] - a[0][2] * a[0][2]) / det;
      inverse[1][2] = inverse[2][1] = (a[0][1] * a[0][2] - a[0][0] * a[1][2]) / det;
      inverse[2][2] = (a[0][0] * a[1][1] - a[0][1] * a[0][1]) / det;
      return true;
    }

    /**
     * Channel weights: inverse scatter times contrast, the scatter drawn towards equal channels.
     */
    private void joinChannels() {
      double[] s = new double[9];
      double mean = 0;
      for (int c = 0; c < 3; c++) {
        for (int d = 0; d < 3; d++) {
          s[3 * c + d] = residual(c, d) / freedom();
        }
        mean += s[4 * c] / 3;
      }
      mean = Math.max(mean, 1.0 / 12);
      for (int c = 0; c < 3; c++) {
        s[4 * c] = s[4 * c] + 0.3 * mean;
      }
      double[] inv = Matrices.inverse3(s);
      double length = 0;
      for (int c = 0; c < 3; c++) {
        join[c] = inv[3 * c] * x[0][0] + inv[3 * c + 1] * x[0][1] + inv[3 * c + 2] * x[0][2];
        length += Math.abs(join[c]);
      }
      for (int c = 0; c < 3; c++) {
        join[c] = length > 0 ? join[c] / length : 1.0 / 3;
      }
    }

    private double joined(double[] v) {
      return join[0] * v[0] + join[1] * v[1] + join[2] * v[2];
    }

    Seen solve(double sigma, double reach) {
      if (!regress()) {
        return Seen.NOTHING;
      }
      joinChannels();
      if (columns == 3) {
        // Once more, with the noise that was seen against what is known of the second step.
        double n2 = Math.max(residual() / freedom(), 1.0 / 12);
        prior = n2 / (step2Sd * step2Sd);
        if (!regress()) {
          return Seen.NOTHING;
        }
        joinChannels();
      }
      // Rounding to whole grey levels alone has a variance of 1/12.
      double noise2 = Math.max(residual() / freedom(), 1.0 / 12);
      double b = joined(x[0]);
      double varB = noise2 * inverse[0][0];
      double varC = noise2 * inverse[1][1];
      if (b * b < 16 * varB || b < 4) {
        return Seen.NOTHING;
      }
      double delta = -joined(x[1]) * sigma / b;
      double variance = varC * sigma * sigma / (b * b);
      if (!(Math.abs(delta) <= reach)) {
        return Seen.NOTHING;
      }
      return new Seen(delta, variance, b, Math.sqrt(noise2), x[0][0], x[0][1], x[0][2], 0, 0);
    }
  }
}
