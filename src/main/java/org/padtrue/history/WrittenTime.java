package org.padtrue.history;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A time as people write it: ISO 8601, with or without zone, seconds, or time of day.
 *
 * <p>Without a zone it is the time of a place's clocks. In spring these leave an hour out: what
 * does not exist is refused. In autumn they show an hour twice: which one is meant is asked for.
 *
 * @param at the moment; null when the text does not say one
 * @param trouble what is wrong with the text; empty when nothing is
 * @param mend what to write instead
 */
public record WrittenTime(@Nullable Instant at, String trouble, String mend) {
  private static final String LIKE = "write it like 2026-03-02T06:10 or 2026-03-02T06:10Z";

  /**
   * Reads a time.
   *
   * @param text as written
   * @param zone of a time without one
   */
  public static WrittenTime read(String text, ZoneId zone) {
    String s = text.strip().replaceFirst("(?<=\\d) +(?=\\d)", "T");
    try {
      return known(OffsetDateTime.parse(s.toUpperCase(Locale.ROOT)).toInstant());
    } catch (DateTimeException next) {
      // without a zone, or no time at all
    }
    try {
      return local(text.strip(), LocalDateTime.parse(s.toUpperCase(Locale.ROOT)), zone);
    } catch (DateTimeException next) {
      // a day, or no time at all
    }
    try {
      return known(LocalDate.parse(s).atStartOfDay(zone).toInstant());
    } catch (DateTimeException next) {
      return new WrittenTime(null, "'" + text.strip() + "' is not a time", LIKE);
    }
  }

  private static WrittenTime known(Instant at) {
    return new WrittenTime(at, "", "");
  }

  private static WrittenTime local(String text, LocalDateTime t, ZoneId zone) {
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(t);
    if (offsets.size() == 1) {
      return known(t.toInstant(offsets.get(0)));
    }
    if (offsets.isEmpty()) {
      var gap = zone.getRules().getTransition(t);
      return new WrittenTime(
          null,
          "'"
              + text
              + "' does not exist in "
              + zone
              + ": clocks went from "
              + gap.getDateTimeBefore().toLocalTime()
              + " to "
              + gap.getDateTimeAfter().toLocalTime(),
          "write a time that the clocks showed, or one with its offset from UTC, like "
              + t
              + gap.getOffsetBefore());
    }
    return new WrittenTime(
        null,
        "'" + text + "' exists twice in " + zone + ", as clocks were set back",
        "give the offset from UTC, "
            + t
            + offsets.get(0)
            + " for the first or "
            + t
            + offsets.get(1)
            + " for the second");
  }
}
