package org.padtrue.web.server;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.padtrue.quantity.LengthUnit;

/** Numbers as people type them: decimal point or comma, any minus sign, a unit behind if wanted. */
public final class TypedNumbers {
  private static final Pattern NUMBER =
      Pattern.compile("([+-]?(?:\\d{1,9}(?:[.,]\\d{0,9})?|[.,]\\d{1,9}))\\s*(\\p{L}*|\u00b0)");

  private TypedNumbers() {}

  /** A length in mm; a text without a unit is in the given one. Empty when it is no number. */
  public static OptionalDouble mm(String typed, LengthUnit unit) {
    Matcher m = match(typed);
    if (!m.matches()) {
      return OptionalDouble.empty();
    }
    LengthUnit own = m.group(2).isEmpty() ? unit : LengthUnit.parse(m.group(2)).orElse(null);
    return own == null ? OptionalDouble.empty() : OptionalDouble.of(value(m.group(1)) * own.mm());
  }

  /** An angle in degrees. */
  public static OptionalDouble degrees(String typed) {
    Matcher m = match(typed);
    boolean ok = m.matches() && m.group(2).matches("|deg|\u00b0");
    return ok ? OptionalDouble.of(value(m.group(1))) : OptionalDouble.empty();
  }

  /** A number without a unit. */
  public static OptionalDouble plain(String typed) {
    Matcher m = match(typed);
    boolean ok = m.matches() && m.group(2).isEmpty();
    return ok ? OptionalDouble.of(value(m.group(1))) : OptionalDouble.empty();
  }

  private static Matcher match(String typed) {
    String t = typed.strip().replace('\u2212', '-').replace('\u2013', '-').toLowerCase(Locale.ROOT);
    return NUMBER.matcher(t);
  }

  private static double value(String digits) {
    String d = digits.replace(',', '.');
    return new BigDecimal(d.endsWith(".") ? d + "0" : d).doubleValue();
  }

  /** The number in a text of digits, if it is one. */
  public static OptionalLong whole(String text) {
    return text.matches("\\d{1,15}") ? OptionalLong.of(Long.parseLong(text)) : OptionalLong.empty();
  }
}
