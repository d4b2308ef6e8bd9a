package org.padtrue.web.bench;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** One article in a list. */
public record ArticleLine(String id, String name, String job, String begun, String state) {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(ZoneId.systemDefault());

  /** The line of an article. */
  public static ArticleLine of(BenchArticle a) {
    int measured = a.measured().size();
    String typed = measured + (measured == 1 ? " entry" : " entries");
    PanelKind kind = a.about().kind();
    String state =
        (a.about().file().isEmpty() ? typed : "from " + a.about().file()) + ", " + kind.words();
    return new ArticleLine(
        a.id(), a.about().name(), a.about().job(), TIME.format(a.about().begun()), state);
  }
}
