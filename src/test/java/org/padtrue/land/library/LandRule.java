package org.padtrue.land.library;

/**
 * Size of lands from an outline, IPC-7351 nominal (level B), all in mm.
 *
 * <p>Z = Lmin + 2 toe + sqrt(CL^2 + F^2 + P^2), G = Smax - 2 heel - sqrt(CS^2 + F^2 + P^2), X =
 * Wmin + 2 side + sqrt(CW^2 + F^2 + P^2): Z over both lands, G between them, X across. L span, S
 * span between the inner ends, W width; C = greatest minus least. S and its C are combined from
 * span and termination in quadrature, as the standard does. F = 0.10 and P = 0.05 are in common use
 * (from memory). Goals as in {@link Goals}. Rounded to 0.01.
 */
record LandRule(double z, double g, double x) {
  private static final double FABRICATION = 0.10;
  private static final double PLACEMENT = 0.05;

  /** Solder goals, IPC-7351 nominal. */
  record Goals(double toe, double heel, double side) {
    /**
     * Goals of a part. Chips, gull wings and no-leads: table of the standard as listed in {@code
     * shared/README.md}; MELF, flat and inward-bent leads from memory.
     */
    static Goals of(String kind, double span, double pitch) {
      switch (kind) {
        case "chip":
          return span < 1.4 ? new Goals(0.20, 0, 0) : new Goals(0.35, 0, 0);
        case "melf":
          return new Goals(0.40, 0.10, 0.05);
        case "gullWing":
          // two-lead parts have no pitch: they count as coarse
          return pitch > 0 && pitch <= 0.625
              ? new Goals(0.35, 0.35, -0.02)
              : new Goals(0.35, 0.35, 0.03);
        case "flatLead":
          // IPC-7351 SODFL, SOTFL; judged as gull wings
          return new Goals(0.20, 0, 0);
        case "noLead":
          return new Goals(0.30, 0, -0.04);
        case "other":
          return new Goals(0.35, 0.35, 0.03);
        default:
          throw new IllegalArgumentException(kind);
      }
    }
  }

  static LandRule of(
      Goals j,
      double spanMin,
      double spanMax,
      double termMin,
      double termMax,
      double widthMin,
      double widthMax) {
    double cl = spanMax - spanMin;
    double ct = termMax - termMin;
    double sMin = spanMin - 2 * termMax;
    double sMax = spanMax - 2 * termMin;
    double cs = Math.sqrt(cl * cl + 2 * ct * ct);
    double sMaxStatistical = sMax - (sMax - sMin - cs) / 2;
    double z = spanMin + 2 * j.toe + rms(cl);
    double g = sMaxStatistical - 2 * j.heel - rms(cs);
    // A heel goal that would bring the lands together gives way: 0.2 stays between them.
    return new LandRule(round(z), round(Math.max(g, 0.2)), round(width(j, widthMin, widthMax)));
  }

  static double width(Goals j, double widthMin, double widthMax) {
    return round(widthMin + 2 * j.side + rms(widthMax - widthMin));
  }

  /** Land for a ball: IPC-7351 table of nominal land by nominal ball (from memory). */
  static double ballLand(double ball) {
    double[][] table = {
      {0.75, 0.55},
      {0.60, 0.45},
      {0.50, 0.40},
      {0.45, 0.35},
      {0.40, 0.30},
      {0.30, 0.25},
      {0.25, 0.20}
    };
    for (double[] row : table) {
      if (Math.abs(row[0] - ball) < 1e-6) {
        return row[1];
      }
    }
    throw new IllegalArgumentException("no land for a ball of " + ball);
  }

  private static double rms(double c) {
    return Math.sqrt(c * c + FABRICATION * FABRICATION + PLACEMENT * PLACEMENT);
  }

  static double round(double mm) {
    return Math.round(mm * 100) / 100.0;
  }
}
