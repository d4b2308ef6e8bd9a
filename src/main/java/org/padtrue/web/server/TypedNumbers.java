package org.padtrue.web.server;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.quantity.LengthUnit;

/**
 * Numbers as people type them and read-outs send them: decimal point or comma, any minus sign, an
 * exponent, a unit behind and the letter of the axis before if wanted ({@code X+0.025mm}, {@code
 * -25 \u00b5m}, {@code 1e-2}).
 */
public final class TypedNumbers {
  private static final Pattern NUMBER =
      Pattern.compile(
          "(?:([xyr\u03b8])\\s*[:=]?)?\\s*([+-]?)\\s*(\\d{1,9}(?:[.,]\\d{0,9})?|[.,]\\d{1,9})"
              + "(e[+-]?\\d{1,2})?\\s*(\\p{L}*|[\u00b0\"\u2033])");

  /** Degrees, minutes and seconds of arc, as turntables show them. */
  private static final Pattern ARC =
      Pattern.compile(
          "(?:[r\u03b8]\\s*[:=]?)?\\s*([+-]?)\\s*(?:(\\d{1,3})\\s*\u00b0)?\\s*(?:(\\d{1,2})\\s*['\u2032])"
              + "\\s*(?:(\\d{1,2}(?:[.,]\\d{1,4})?)\\s*[\"\u2033])?");

  private static final double MOST = 1e9;

  private TypedNumbers() {}

  /** A length in mm; a text without a unit is in the given one. Empty when it is no number. */
  public static OptionalDouble mm(String typed, LengthUnit unit) {
    Matcher m = NUMBER.matcher(plainText(typed));
    if (!m.matches()) {
      return OptionalDouble.empty();
    }
    String own = m.group(5).equals("\u2033") ? "in" : m.group(5);
    LengthUnit said = own.isEmpty() ? unit : LengthUnit.parse(own).orElse(null);
    return said == null ? OptionalDouble.empty() : within(value(m) * said.mm());
  }

  /** An angle in degrees. */
  public static OptionalDouble degrees(String typed) {
    String t = plainText(typed);
    Matcher arc = ARC.matcher(t);
    if (arc.matches()) {
      double v = part(arc.group(2)) + part(arc.group(3)) / 60 + part(arc.group(4)) / (60 * 60);
      return OptionalDouble.of(arc.group(1).equals("-") ? -v : v);
    }
    Matcher m = NUMBER.matcher(t);
    boolean ok = m.matches() && m.group(5).matches("|deg|degree|degrees|\u00b0");
    return ok ? within(value(m)) : OptionalDouble.empty();
  }

  /** A number without a unit. */
  public static OptionalDouble plain(String typed) {
    Matcher m = NUMBER.matcher(plainText(typed));
    boolean ok = m.matches() && m.group(1) == null && m.group(5).isEmpty();
    return ok ? within(value(m)) : OptionalDouble.empty();
  }

  /** The letter of the axis that a read-out puts before its number: x, y, r; empty when none. */
  public static String axis(String typed) {
    Matcher m = Pattern.compile("([xyr\u03b8])\\s*[:=+\\-\\d.,\\s].*").matcher(plainText(typed));
    return m.matches() ? m.group(1).replace('\u03b8', 'r') : "";
  }

  private static String plainText(String typed) {
    return typed.strip().replace('\u2212', '-').replace('\u2013', '-').toLowerCase(Locale.ROOT);
  }

  private static double value(Matcher m) {
    String exponent = m.group(4) == null ? "" : m.group(4);
    double v = new BigDecimal(digits(m.group(3)) + exponent).doubleValue();
    return m.group(2).equals("-") ? -v : v;
  }

  private static OptionalDouble within(double v) {
    return Math.abs(v) <= MOST ? OptionalDouble.of(v + 0.0) : OptionalDouble.empty();
  }

  private static double part(@Nullable String digits) {
    return digits == null ? 0 : Double.parseDouble(digits(digits));
  }

  private static String digits(String typed) {
    String d = typed.replace(',', '.');
    return d.endsWith(".") ? d + "0" : d;
  }

  /** The number in a text of digits, if it is one. */
  public static OptionalLong whole(String text) {
    return text.matches("\\d{1,15}") ? OptionalLong.of(Long.parseLong(text)) : OptionalLong.empty();
  }
}
