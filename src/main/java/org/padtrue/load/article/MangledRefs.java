package org.padtrue.load.article;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.padtrue.panel.Job;

/**
 * Refs that a spreadsheet took for dates or numbers: SEP1 as 01-Sep, 1E3 as 1000 or 1.00E+03, 007
 * as 7.
 */
final class MangledRefs {
  private static final List<String> MONTHS =
      List.of("JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC");

  private static final Pattern DAY_FIRST =
      Pattern.compile("(\\d{1,4})[-./ ]{1,2}(\\p{L}{3,9})\\.?(?:[-./ ]{1,2}\\d{2,4})?");
  private static final Pattern MONTH_FIRST =
      Pattern.compile("(\\p{L}{3,9})[-./ ]{1,2}(\\d{1,4})(?:[-./, ]{1,2}\\d{2,4})?");
  private static final Pattern ISO = Pattern.compile("\\d{4}-(\\d{2})-(\\d{2})(?:[ T].*)?");
  private static final Pattern NUMBERS = Pattern.compile("(\\d{1,2})[./](\\d{1,2})[./]\\d{2,4}");
  private static final Pattern NUMBER = Pattern.compile("\\d+(?:[.,]\\d+)?(?:[eE][+-]?\\d+)?");

  /** Days of spreadsheets: 1 January 2000 and 31 December 2099. */
  private static final double FIRST_DAY = 36_526;

  private static final double LAST_DAY = 73_050;

  private final Map<String, String> byLetters = new HashMap<>();
  private final Map<Double, String> byNumber = new HashMap<>();

  MangledRefs(Job job) {
    job.placements()
        .forEach(
            p -> {
              byLetters.put(p.ref().toUpperCase(Locale.ROOT), p.ref());
              if (NUMBER.matcher(p.ref()).matches()) {
                byNumber.put(value(p.ref()), p.ref());
              }
            });
  }

  private static double value(String number) {
    return Double.parseDouble(number.replace(',', '.'));
  }

  /** The placement's ref that a spreadsheet may have made this of. */
  Optional<String> original(String text) {
    Matcher m = DAY_FIRST.matcher(text);
    if (m.matches()) {
      return named(m.group(2), m.group(1));
    }
    m = MONTH_FIRST.matcher(text);
    if (m.matches()) {
      return named(m.group(1), m.group(2));
    }
    m = ISO.matcher(text);
    if (m.matches()) {
      return month(Integer.parseInt(m.group(1)), m.group(2));
    }
    m = NUMBERS.matcher(text);
    if (m.matches()) {
      Matcher both = m;
      return month(Integer.parseInt(m.group(1)), m.group(2))
          .or(() -> month(Integer.parseInt(both.group(2)), both.group(1)));
    }
    return NUMBER.matcher(text).matches() ? number(value(text)) : Optional.empty();
  }

  private Optional<String> number(double v) {
    Optional<String> same = Optional.ofNullable(byNumber.get(v));
    if (same.isPresent() || v < FIRST_DAY || v > LAST_DAY || v != Math.rint(v)) {
      return same;
    }
    try {
      LocalDate d = LocalDate.of(1899, 12, 30).plusDays((long) v);
      return month(d.getMonthValue(), Integer.toString(d.getDayOfMonth()));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private Optional<String> named(String month, String day) {
    String three = month.substring(0, 3).toUpperCase(Locale.ROOT);
    return month(MONTHS.indexOf(three) + 1, day);
  }

  private Optional<String> month(int month, String day) {
    if (month < 1 || month > MONTHS.size()) {
      return Optional.empty();
    }
    String name = MONTHS.get(month - 1);
    String plain = Integer.toString(Integer.parseInt(day));
    return Optional.ofNullable(byLetters.get(name + plain))
        .or(() -> Optional.ofNullable(byLetters.get(name + day)))
        .or(() -> Optional.ofNullable(byLetters.get(name + "0" + plain)));
  }
}
