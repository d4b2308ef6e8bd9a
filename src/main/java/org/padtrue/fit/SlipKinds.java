package org.padtrue.fit;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.DeviationTable;

/**
 * Names what a gross error looks like.
 *
 * <p>Each explanation is scored by the density it gives to what was recorded: a slip says what the
 * true value was, and that value is held against what the other placements expect, N(0, sd); a
 * plain gross error has a wide density g(d) = (1 + |d| / w)^-2 / 2w with w = 0.5 mm. A slip is
 * named only where it is ten times as likely as a plain error; otherwise the kind is gross.
 */
final class SlipKinds {
  private static final double WIDE_MM = 0.5;
  private static final double NAME_IT = Math.log(10);
  private static final double[] UNITS = {25.4, 1 / 25.4, 1000, 1e-3, 0.0254, 1 / 0.0254};
  private static final double[] DECIMALS = {10, 0.1, 100, 0.01};

  private final DeviationTable t;
  private final RobustLevels levels;
  private final boolean poses;

  SlipKinds(DeviationTable t, RobustLevels levels, boolean poses) {
    this.t = t;
    this.levels = levels;
    this.poses = poses;
  }

  private static double normal(double r, double sd) {
    double z = r / sd;
    return -0.5 * z * z - Math.log(sd) - 0.9189385332046727;
  }

  private static double wide(double r) {
    return -2 * Math.log1p(Math.abs(r) / WIDE_MM) - Math.log(2 * WIDE_MM);
  }

  /** Log density of a coordinate that may be right or plainly wrong. */
  private static double plain(double r, double sd) {
    return Math.max(normal(r, sd), wide(r)) - Math.log(2);
  }

  /** The best of the explanations tried so far for one row. */
  private static final class Best {
    final double gross;
    double score;
    Finding finding;

    Best(double gross, Finding finding) {
      this.gross = gross;
      this.score = gross + NAME_IT;
      this.finding = finding;
    }

    void offer(double s, Finding.Kind kind, String sentence) {
      if (s > score) {
        score = s;
        finding = new Finding(kind, sentence);
      }
    }
  }

  Finding explain(int i, boolean[] far) {
    Measured m = t.rows().get(i);
    double[] del = levels.deletion(i, true);
    double sd = levels.rowSd(i, true);
    Best best =
        new Best(
            plain(del[0], sd) + plain(del[1], sd),
            new Finding(
                Finding.Kind.GROSS,
                String.format(
                    Locale.ROOT,
                    "%s is off by x %+.3f, y %+.3f mm where the other placements lead one to expect"
                        + " x %+.3f, y %+.3f mm: measure it again and look at the part",
                    m.id(),
                    m.dxMm(),
                    m.dyMm(),
                    m.dxMm() - del[0],
                    m.dyMm() - del[1])));
    // What was recorded, and what the others expect to be recorded.
    double rx = poses ? m.nominal().xMm() + m.dxMm() : m.dxMm();
    double ry = poses ? m.nominal().yMm() + m.dyMm() : m.dyMm();
    double ex = rx - del[0];
    double ey = ry - del[1];
    swappedRefs(i, far, best, m, sd);
    double swap = normal(ry - ex, sd) + normal(rx - ey, sd);
    best.offer(
        swap,
        Finding.Kind.SWAPPED_XY,
        String.format(Locale.ROOT, "%s: x %.3f mm and y %.3f mm look swapped", m.id(), rx, ry));
    units(best, m, rx, ry, ex, ey, sd);
    // A slip of one axis explains the row only where the other axis is right.
    single(best, m, "x", rx, ex, sd, normal(del[1], sd));
    single(best, m, "y", ry, ey, sd, normal(del[0], sd));
    double flip = normal(-rx - ex, sd) + normal(-ry - ey, sd);
    best.offer(
        flip,
        Finding.Kind.SIGN_FLIP,
        String.format(
            Locale.ROOT,
            "%s: the signs of x %+.3f mm and y %+.3f mm look reversed",
            m.id(),
            rx,
            ry));
    return best.finding;
  }

  private void swappedRefs(int i, boolean[] far, Best best, Measured m, double sd) {
    // In deviations, too: each is then off by the difference of the nominal positions.
    double mx = m.nominal().xMm() + m.dxMm();
    double my = m.nominal().yMm() + m.dyMm();
    for (int j = 0; j < far.length; j++) {
      if (j == i || !far[j] || t.panel()[j] != t.panel()[i]) {
        continue;
      }
      Measured o = t.rows().get(j);
      double[] dj = levels.deletion(j, true);
      double sj = levels.rowSd(j, true);
      double ojx = o.nominal().xMm() + o.dxMm();
      double ojy = o.nominal().yMm() + o.dyMm();
      double[] di = levels.deletion(i, true);
      double s =
          normal(mx - (ojx - dj[0]), sj)
              + normal(my - (ojy - dj[1]), sj)
              + normal(ojx - (mx - di[0]), sd)
              + normal(ojy - (my - di[1]), sd);
      double other = plain(dj[0], sj) + plain(dj[1], sj);
      best.offer(
          s - other,
          Finding.Kind.SWAPPED_REFS,
          m.id() + " and " + o.id() + " look recorded for each other");
    }
  }

  private void units(Best best, Measured m, double rx, double ry, double ex, double ey, double sd) {
    for (double f : UNITS) {
      double jac = Math.log(f);
      double fx = normal(rx * f - ex, sd) + jac;
      double fy = normal(ry * f - ey, sd) + jac;
      String as = unitWords(f);
      best.offer(
          fx + fy,
          Finding.Kind.WRONG_UNIT,
          String.format(
              Locale.ROOT,
              "%s: x %s and y %s look recorded in %s",
              m.id(),
              number(rx),
              number(ry),
              as));
    }
  }

  private static String unitWords(double f) {
    if (f == 25.4) {
      return "inches instead of mm";
    }
    if (f == 1e-3) {
      return "um instead of mm";
    }
    if (f == 0.0254) {
      return "mil instead of mm";
    }
    return "another unit (a factor of " + number(1 / f) + ")";
  }

  private void single(
      Best best, Measured m, String axis, double r, double e, double sd, double other) {
    best.offer(
        normal(-r - e, sd) + other,
        Finding.Kind.SIGN_FLIP,
        String.format(
            Locale.ROOT,
            "%s: %s is recorded as %s where %.3f mm is expected: the sign looks reversed",
            m.id(),
            axis,
            number(r),
            e));
    for (double f : DECIMALS) {
      best.offer(
          normal(r * f - e, sd) + Math.log(f) + other,
          Finding.Kind.DECIMAL_SLIP,
          String.format(
              Locale.ROOT,
              "%s: %s is recorded as %s where %.3f mm is expected: the decimal point looks"
                  + " misplaced",
              m.id(),
              axis,
              number(r),
              e));
    }
    for (double f : new double[] {25.4, 1e-3, 0.0254}) {
      best.offer(
          normal(r * f - e, sd) + Math.log(f) + other - Math.log(2),
          Finding.Kind.WRONG_UNIT,
          String.format(
              Locale.ROOT,
              "%s: %s %s looks recorded in %s",
              m.id(),
              axis,
              number(r),
              unitWords(f)));
    }
    transposed(best, m, axis, r, e, sd, other);
  }

  private void transposed(
      Best best, Measured m, String axis, double r, double e, double sd, double other) {
    for (int decimals = 1; decimals <= 4; decimals++) {
      BigDecimal v = new BigDecimal(r).setScale(decimals, RoundingMode.HALF_EVEN);
      if (Math.abs(v.doubleValue() - r) > 1e-7) {
        continue;
      }
      String s = v.toPlainString();
      int slots = s.length() - 1;
      for (int k = 0; k + 1 < s.length(); k++) {
        int b = k + 1;
        if (s.charAt(b) == '.' && b + 1 < s.length()) {
          b++;
        }
        if (!Character.isDigit(s.charAt(k))
            || !Character.isDigit(s.charAt(b))
            || s.charAt(k) == s.charAt(b)) {
          continue;
        }
        StringBuilder w = new StringBuilder(s);
        w.setCharAt(k, s.charAt(b));
        w.setCharAt(b, s.charAt(k));
        double as = Double.parseDouble(w.toString());
        best.offer(
            normal(as - e, sd) - Math.log(slots) + other,
            Finding.Kind.TRANSPOSED_DIGITS,
            String.format(
                Locale.ROOT,
                "%s: %s is recorded as %s where %.3f mm is expected: %s with two digits swapped",
                m.id(),
                axis,
                s,
                e,
                w));
      }
      return;
    }
  }

  private static String number(double v) {
    return BigDecimal.valueOf(v)
        .round(new java.math.MathContext(7))
        .stripTrailingZeros()
        .toPlainString();
  }
}
