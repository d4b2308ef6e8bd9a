package org.padtrue.load.table;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.quantity.LengthUnit;

/**
 * Reads a number, perhaps with a unit behind it, from a span of characters. Reused from cell to
 * cell, since a file has millions of them.
 *
 * <p>Up to 15 digits and powers of ten up to 22 are exact in one multiplication or division (W. D.
 * Clinger, How to read floating point numbers accurately, PLDI 1990); the rest goes to the library.
 */
public final class NumberReader {
  /** How the reading ended. */
  public enum Result {
    OK,
    EMPTY,
    NOT_A_NUMBER,
    /** NaN, Infinity, or too large for a number. */
    NOT_FINITE,
    /** A comma (or point) that may part thousands. */
    THOUSANDS,
    /** A decimal comma where the file has points, or the other way round. */
    OTHER_DECIMAL,
    /** A number with something behind it that is no unit. */
    UNKNOWN_UNIT
  }

  private static final double[] TENS = new double[23];

  static {
    TENS[0] = 1;
    for (int i = 1; i < TENS.length; i++) {
      TENS[i] = TENS[i - 1] * 10;
    }
  }

  private double value;
  private int numberEnd;
  private @Nullable LengthUnit unit;
  private String lastSuffix = "";
  private @Nullable LengthUnit lastUnit;

  /** The number read last. */
  public double value() {
    return value;
  }

  /** The unit behind the number read last, or null when there was none. */
  public @Nullable LengthUnit unit() {
    return unit;
  }

  /** Behind the last character of the number itself. */
  public int numberEnd() {
    return numberEnd;
  }

  /** Reads a plain number, nothing behind it. */
  public Result number(String s, int from, int to, char decimal) {
    Result r = digits(s, from, to, decimal);
    return r == Result.OK && numberEnd < to ? tail(s, from, to) : r;
  }

  /** Reads a length: a number, perhaps with mm, um, mil or inch behind it. */
  public Result length(String s, int from, int to, char decimal) {
    unit = null;
    Result r = digits(s, from, to, decimal);
    if (r != Result.OK || numberEnd == to) {
      return r;
    }
    int a = skipBlanks(s, numberEnd, to);
    if (lastUnit == null || !isSuffix(s, a, to)) {
      Optional<LengthUnit> u = LengthUnit.parse(s.substring(a, to));
      if (u.isEmpty()) {
        return tail(s, from, to);
      }
      lastSuffix = s.substring(a, to);
      lastUnit = u.get();
    }
    unit = lastUnit;
    return Result.OK;
  }

  /** Reads an angle: a number, perhaps with a sign for degrees behind it. */
  public Result angle(String s, int from, int to, char decimal) {
    Result r = digits(s, from, to, decimal);
    if (r != Result.OK || numberEnd == to) {
      return r;
    }
    String suffix = s.substring(skipBlanks(s, numberEnd, to), to);
    return HeaderName.isDegrees(suffix) ? Result.OK : tail(s, from, to);
  }

  private static int skipBlanks(String s, int from, int to) {
    int i = from;
    while (i < to && Cells.isBlank(s.charAt(i))) {
      i++;
    }
    return i;
  }

  private boolean isSuffix(String s, int from, int to) {
    return to - from == lastSuffix.length() && s.regionMatches(from, lastSuffix, 0, to - from);
  }

  /** What is wrong with something behind the digits. */
  private Result tail(String s, int from, int to) {
    int a = numberEnd;
    char c = s.charAt(a);
    if ((c == ',' || c == '.' || c == '\'' || c == ' ' || c == '\u00a0' || c == '\u202f')
        && a + 1 < to
        && isDigit(s.charAt(a + 1))) {
      return isThousands(s, from, to, c) ? Result.THOUSANDS : Result.OTHER_DECIMAL;
    }
    return Character.isLetter(c) || c == ' ' || c == '"' || c == '\u00b0'
        ? Result.UNKNOWN_UNIT
        : Result.NOT_A_NUMBER;
  }

  /** More than one parting sign: "1.234,5", "1,234,567", "1 234". */
  private static boolean isThousands(String s, int from, int to, char c) {
    if (c != ',' && c != '.') {
      return true;
    }
    int signs = 0;
    for (int i = from; i < to; i++) {
      char d = s.charAt(i);
      if (d == ',' || d == '.') {
        signs++;
      }
    }
    return signs > 1;
  }

  private Result digits(String s, int from, int to, char decimal) {
    unit = null;
    if (from >= to) {
      return Result.EMPTY;
    }
    int i = from;
    char c = s.charAt(i);
    boolean minus = c == '-' || c == '\u2212';
    if (minus || c == '+') {
      i++;
    }
    long m = 0;
    int digits = 0;
    int seen = 0;
    int scale = 0;
    boolean point = false;
    for (; i < to; i++) {
      c = s.charAt(i);
      if (isDigit(c)) {
        seen++;
        if (digits < 18) {
          m = 10 * m + (c - '0');
          digits += m == 0 ? 0 : 1;
          scale -= point ? 1 : 0;
        } else {
          scale += point ? 0 : 1;
        }
      } else if (c == decimal && !point) {
        point = true;
      } else {
        break;
      }
    }
    if (seen == 0) {
      return notFinite(s, from, to) ? Result.NOT_FINITE : Result.NOT_A_NUMBER;
    }
    int mantissaEnd = i;
    i = exponent(s, i, to);
    numberEnd = i;
    int ten = scale;
    if (i > mantissaEnd) {
      ten += exponentValue(s, mantissaEnd + 1, i);
    }
    double v = scaled(m, digits, ten, s, from, mantissaEnd, i, decimal);
    value = minus ? -v : v;
    return Double.isInfinite(v) ? Result.NOT_FINITE : Result.OK;
  }

  private static double scaled(
      long m, int digits, int ten, String s, int from, int mantissaEnd, int to, char decimal) {
    if (m == 0) {
      return 0;
    }
    if (digits <= 15 && ten >= -22 && ten <= 22) {
      return ten < 0 ? m / TENS[-ten] : m * TENS[ten];
    }
    String text = s.substring(from, to).replace('\u2212', '-');
    if (decimal != '.') {
      text =
          text.substring(0, mantissaEnd - from).replace(decimal, '.')
              + s.substring(mantissaEnd, to);
    }
    return Math.abs(Double.parseDouble(text));
  }

  /** Behind an exponent, or where it would begin when there is none. */
  private static int exponent(String s, int at, int to) {
    if (at >= to || (s.charAt(at) != 'e' && s.charAt(at) != 'E')) {
      return at;
    }
    int i = at + 1;
    if (i < to && (s.charAt(i) == '+' || s.charAt(i) == '-')) {
      i++;
    }
    int first = i;
    while (i < to && isDigit(s.charAt(i))) {
      i++;
    }
    return i > first ? i : at;
  }

  private static int exponentValue(String s, int from, int to) {
    int v = 0;
    boolean minus = s.charAt(from) == '-';
    for (int i = from; i < to; i++) {
      if (isDigit(s.charAt(i))) {
        v = Math.min(10_000, 10 * v + (s.charAt(i) - '0'));
      }
    }
    return minus ? -v : v;
  }

  private static boolean isDigit(char c) {
    return c >= '0' && c <= '9';
  }

  private static boolean notFinite(String s, int from, int to) {
    String t = HeaderName.letters(s.substring(from, Math.min(to, from + 12)));
    return t.equals("nan") || t.equals("inf") || t.equals("infinity") || t.equals("1inf");
  }
}
