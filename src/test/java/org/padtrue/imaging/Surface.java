package org.padtrue.imaging;

/** Colour of a surface at a picture position, in linear grey levels 0 to 255. */
interface Surface {
  /** Writes blue, green, red. */
  void colour(double x, double y, double[] out);

  /** One colour with cloudy texture: smooth value noise of a given amplitude and grain. */
  static Surface cloudy(int[] bgr, double amplitude, double grainPx, long seed) {
    return (x, y, out) -> {
      double n = amplitude == 0 ? 0 : amplitude * (noise(x / grainPx, y / grainPx, seed));
      for (int c = 0; c < 3; c++) {
        out[c] = bgr[c] * (1 + n);
      }
    };
  }

  /** Bright metal with a soft band of glare across it. */
  static Surface metal(int[] bgr, double glare, double cx, double cy, double widthPx, long seed) {
    return (x, y, out) -> {
      double t = (0.6 * (x - cx) + 0.8 * (y - cy)) / widthPx;
      double n = 0.5 * glare * noise(x / 3, y / 3, seed);
      double g = glare * Math.exp(-t * t) + n;
      for (int c = 0; c < 3; c++) {
        out[c] = Math.min(255, bgr[c] * (1 + g));
      }
    };
  }

  /** Smooth noise in -1 to 1, the same for the same place and seed. */
  static double noise(double x, double y, long seed) {
    long xi = (long) Math.floor(x);
    long yi = (long) Math.floor(y);
    double fx = smooth(x - xi);
    double fy = smooth(y - yi);
    double top = hash(xi, yi, seed) * (1 - fx) + hash(xi + 1, yi, seed) * fx;
    double low = hash(xi, yi + 1, seed) * (1 - fx) + hash(xi + 1, yi + 1, seed) * fx;
    return top * (1 - fy) + low * fy;
  }

  private static double smooth(double t) {
    return t * t * (3 - 2 * t);
  }

  private static double hash(long x, long y, long seed) {
    long h = x * 0x9E3779B97F4A7C15L ^ y * 0xC2B2AE3D27D4EB4FL ^ seed * 0x165667B19E3779F9L;
    h = (h ^ (h >>> 32)) * 0xD6E8FEB86659FD93L;
    h = (h ^ (h >>> 32)) * 0xD6E8FEB86659FD93L;
    h ^= h >>> 32;
    return (h >> 11) * (1.0 / (1L << 52));
  }
}
