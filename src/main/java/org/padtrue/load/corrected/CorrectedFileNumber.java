package org.padtrue.load.corrected;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * Adds to a number and writes it as the file wrote it: decimal sign, plus sign, leading zeros and
 * at least as many decimals. Decimal arithmetic, so that 12.70 + 0.012 is 12.712 and no neighbour.
 */
final class CorrectedFileNumber {
  private static final char MINUS = '\u2212';

  private final String text;
  private final char decimal;
  private final BigDecimal value;
  private final int decimals;

  /**
   * @param text a number as {@link org.padtrue.load.table.NumberReader} reads it, nothing behind it
   * @param decimal the file's decimal sign
   */
  CorrectedFileNumber(String text, char decimal) {
    this.text = text;
    this.decimal = decimal;
    String plain = text.replace(MINUS, '-').replace(decimal, '.');
    value = new BigDecimal(plain.startsWith("+") ? plain.substring(1) : plain);
    decimals = Math.max(0, value.scale());
  }

  BigDecimal value() {
    return value;
  }

  /** The sum, with this number's decimals or so many, whichever are more. */
  BigDecimal plus(double add, int leastDecimals) {
    return value
        .add(BigDecimal.valueOf(add))
        .setScale(Math.max(decimals, leastDecimals), RoundingMode.HALF_EVEN);
  }

  /** Another number in this one's style; this very text when the value is the same. */
  String write(BigDecimal other) {
    if (other.compareTo(value) == 0) {
      return text;
    }
    String digits = other.abs().toPlainString();
    int point = digits.indexOf('.');
    String whole = point < 0 ? digits : digits.substring(0, point);
    String rest = point < 0 ? "" : decimal + digits.substring(point + 1);
    return sign(other) + padded(whole, rest) + rest;
  }

  private String sign(BigDecimal other) {
    if (other.signum() < 0) {
      return text.charAt(0) == MINUS ? String.valueOf(MINUS) : "-";
    }
    return text.charAt(0) == '+' ? "+" : "";
  }

  /** Leading zeros as the file has them: 0012.7 keeps four places, .5 none. */
  private String padded(String whole, String rest) {
    int from = 0;
    while (from < text.length() && !isDigit(text.charAt(from)) && text.charAt(from) != decimal) {
      from++;
    }
    int to = from;
    while (to < text.length() && isDigit(text.charAt(to))) {
      to++;
    }
    if (to == from && whole.equals("0") && !rest.isEmpty()) {
      return "";
    }
    boolean zeros = to - from > 1 && text.charAt(from) == '0';
    return zeros ? "0".repeat(Math.max(0, to - from - whole.length())) + whole : whole;
  }

  private static boolean isDigit(char c) {
    return c >= '0' && c <= '9';
  }
}
