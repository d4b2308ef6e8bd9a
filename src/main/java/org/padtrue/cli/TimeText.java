package org.padtrue.cli;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.function.Function;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** A time as people write it: ISO 8601, with or without zone, seconds, or time of day. */
final class TimeText {
  private static final List<Function<String, Instant>> FORMS =
      List.of(
          Instant::parse,
          s -> OffsetDateTime.parse(s).toInstant(),
          s -> LocalDateTime.parse(s).atZone(ZoneId.systemDefault()).toInstant(),
          s -> LocalDate.parse(s).atStartOfDay(ZoneId.systemDefault()).toInstant());

  private TimeText() {}

  /**
   * Reads a time; without a zone it is this computer's.
   *
   * @param where what the time belongs to, for messages
   */
  static Instant parse(String text, String where) {
    String s = text.strip().replaceFirst("(?<=\\d) +(?=\\d)", "T");
    for (Function<String, Instant> f : FORMS) {
      try {
        return f.apply(s);
      } catch (DateTimeException next) {
        continue;
      }
    }
    throw new InputException(
        Problem.of(
            where, "'" + text + "' is not a time", "write it like 2026-03-02T06:10 or ...T06:10Z"));
  }
}
