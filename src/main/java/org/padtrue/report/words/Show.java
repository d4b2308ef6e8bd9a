package org.padtrue.report.words;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.regex.Pattern;

/** Numbers as people read them: no exponent, no 12 digits, a dash for what is not known. */
public final class Show {
  /** Stands for 'not known' on pages; ASCII, so that every console shows it. */
  public static final String UNKNOWN = "-";

  private static final int FILE_DECIMALS = 6;
  private static final long MILLION = 1_000_000;

  /** Nearer than this to the nearest whole, a number is not halfway whatever its last bit says. */
  private static final double NO_TIE = 0.499;

  private static final double MANY = 1e12;
  private static final Pattern UM = Pattern.compile("(?<=\\d )um\\b");
  private static final Pattern DEGREES = Pattern.compile("(?<=\\d) deg(rees?)?\\b(?! of freedom)");
  private static final Pattern MINUS = Pattern.compile("(?<![\\w.\\-/])-(?=\\d)");

  private Show() {}

  /** A sentence for a page: the console's "um", "deg", "+-" and "-3" as the signs people know. */
  public static String words(String sentence) {
    String s = UM.matcher(sentence).replaceAll("\u00b5m").replace("+-", "\u00b1");
    return MINUS.matcher(DEGREES.matcher(s).replaceAll("\u00b0")).replaceAll("\u2212");
  }

  /** For tables that a spreadsheet reads: six decimals at most, empty when not known. */
  public static String plain(double v) {
    if (!Double.isFinite(v)) {
      return "";
    }
    double millionths = v * MILLION;
    double whole = Math.rint(millionths);
    if (Math.abs(millionths - whole) < NO_TIE && Math.abs(whole) < MANY) {
      return plain((long) whole);
    }
    // halfway, or long: by the decimals of the number
    BigDecimal b =
        BigDecimal.valueOf(v).setScale(FILE_DECIMALS, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return b.signum() == 0 ? "0" : b.toPlainString();
  }

  /** Millionths without the noughts at the end. */
  private static String plain(long millionths) {
    long size = Math.abs(millionths);
    StringBuilder b = new StringBuilder(16);
    if (millionths < 0) {
      b.append('-');
    }
    b.append(size / MILLION);
    long rest = size % MILLION;
    if (rest > 0) {
      b.append('.');
      for (long step = MILLION / 10; rest > 0; step /= 10) {
        b.append((char) ('0' + rest / step));
        rest %= step;
      }
    }
    return b.toString();
  }

  /** A length in micrometres, without its unit: "42", "3.1", "0.25". */
  public static String um(double mm) {
    return three(mm * 1000);
  }

  /** A length as its size deserves, with its unit: "-4.6 mm", "87 \u00b5m". */
  public static String length(double mm) {
    if (!Double.isFinite(mm)) {
      return UNKNOWN;
    }
    return Math.abs(mm) >= 0.9995 ? fixed(mm, 1) + " mm" : um(mm) + " \u00b5m";
  }

  /**
   * A length to enter: micrometres with a sign, every digit that is not zero down to a nanometre.
   */
  public static String exactUm(double mm) {
    return signed(short0(mm * 1000, 3), mm);
  }

  /** A length in mm with a sign, down to a nanometre, at least three decimals. */
  static String signedMm(double mm) {
    String s = short0(mm, 6);
    int decimals = s.contains(".") ? s.length() - s.indexOf('.') - 1 : 0;
    return signed(fixed(mm, Math.max(3, decimals)), mm);
  }

  /** A value with as many decimals as leave two or three digits that mean something. */
  public static String three(double v) {
    if (!Double.isFinite(v)) {
      return UNKNOWN;
    }
    if (v == 0) {
      return "0";
    }
    double a = Math.abs(v);
    int decimals = a >= 9.995 ? 0 : a >= 0.995 ? 1 : 2;
    return fixed(v, decimals);
  }

  /** A fixed number of decimals, never "-0". */
  public static String fixed(double v, int decimals) {
    if (!Double.isFinite(v)) {
      return UNKNOWN;
    }
    String s = String.format(Locale.ROOT, "%." + decimals + "f", v);
    return s.startsWith("-") && isZero(s) ? s.substring(1) : s;
  }

  /** A fixed number of decimals and a sign; a plain 0 stays plain. */
  public static String signedFixed(double v, int decimals) {
    return signed(fixed(v, decimals), v);
  }

  /** Trailing zeros of a fixed number taken off: 0.020 becomes 0.02. */
  public static String short0(double v, int decimals) {
    String s = fixed(v, decimals);
    if (!s.contains(".")) {
      return s;
    }
    return s.replaceAll("0+$", "").replaceAll("\\.$", "");
  }

  /** A rotation in degrees, at most three decimals, with a sign. */
  public static String signedDeg(double deg) {
    return signed(short0(deg, 3), deg);
  }

  /** A probability or p value: two digits, {@code <0.0001} for less. */
  public static String p(double v) {
    if (!Double.isFinite(v)) {
      return UNKNOWN;
    }
    if (v < 1e-4) {
      return "<0.0001";
    }
    return short0(v, v < 0.001 ? 5 : v < 0.01 ? 4 : v < 0.1 ? 3 : 2);
  }

  /** A share as per cent: 12 %, 0.3 %, {@code <0.01 %}. */
  public static String percent(double share) {
    if (!Double.isFinite(share)) {
      return UNKNOWN;
    }
    double v = share * 100;
    if (v == 0) {
      return "0 %";
    }
    if (v < 0.01) {
      return "<0.01 %";
    }
    return short0(v, v < 0.1 ? 2 : v < 10 ? 1 : 0) + " %";
  }

  /** An expected number of placements. */
  static String expected(double v) {
    if (!Double.isFinite(v)) {
      return UNKNOWN;
    }
    if (v >= 100) {
      double tens = Math.pow(10, Math.floor(Math.log10(v)) - 1);
      return fixed(Math.rint(v / tens) * tens, 0);
    }
    return v != 0 && v < 0.01 ? "<0.01" : short0(v, v < 1 ? 2 : 1);
  }

  /** Estimate and standard error at the error's own precision: "-35.2 ± 1.1". */
  public static String plusMinus(double v, double se) {
    if (!Double.isFinite(v)) {
      return UNKNOWN;
    }
    if (!Double.isFinite(se) || se <= 0) {
      return three(v);
    }
    int decimals = se >= 9.95 ? 0 : se >= 0.995 ? 1 : se >= 0.0995 ? 2 : 3;
    return fixed(v, decimals) + " \u00b1 " + fixed(se, decimals);
  }

  private static String signed(String s, double v) {
    return v > 0 && !isZero(s) ? "+" + s : s;
  }

  private static boolean isZero(String s) {
    for (int i = 0; i < s.length(); i++) {
      char c = s.charAt(i);
      if (c != '0' && c != '.' && c != '-') {
        return false;
      }
    }
    return true;
  }
}
