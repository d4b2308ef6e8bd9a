package org.padtrue.web.server;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.TextStyle;
import java.util.Locale;
import java.util.Optional;
import org.padtrue.history.WrittenTime;

/** Times on pages: those of this computer's clock, with the zone's name beside them. */
public final class Times {
  private static final ZoneId ZONE = ZoneId.systemDefault();
  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(ZONE);

  private Times() {}

  /** "2026-03-02 06:10", on this computer's clock. */
  public static String minute(Instant t) {
    return MINUTE.format(t);
  }

  /** What this computer's clock is called: "UTC", "CET". */
  public static String zone() {
    return ZONE.getId().equals("Z") || ZONE.getId().equals("Etc/UTC")
        ? "UTC"
        : ZONE.getDisplayName(TextStyle.SHORT, Locale.ENGLISH);
  }

  /** A time as people or a browser's field write it; without a zone it is this computer's. */
  public static WrittenTime read(String text) {
    return WrittenTime.read(text, ZONE);
  }

  /** The start of a day; empty when the text is no day. */
  public static Optional<Instant> day(String text, int plusDays) {
    try {
      return Optional.of(
          LocalDate.parse(text.strip()).plusDays(plusDays).atStartOfDay(ZONE).toInstant());
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }
}
