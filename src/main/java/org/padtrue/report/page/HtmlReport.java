package org.padtrue.report.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.report.plot.ink.DrawnChart;

/**
 * The page for people: one file, pictures inside, no script, nothing from elsewhere. First the
 * answer, then how sure it is, then the evidence.
 */
public final class HtmlReport {
  private HtmlReport() {}

  public static String of(FirstArticleResult r, List<DrawnChart> pictures) {
    Html h = begin("First article: " + r.job().name());
    AnswerSection.into(h, r);
    ConfidenceSection.into(h, r);
    EvidenceSection.into(h, r, pictures);
    return end(h);
  }

  /** A page that stands alone, as far as its content. */
  public static Html begin(String title) {
    Html h = new Html();
    h.raw("<!DOCTYPE html>\n").open("html", "lang", "en").open("head");
    h.raw("<meta charset=\"utf-8\"/>\n");
    h.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    h.raw("<meta name=\"color-scheme\" content=\"light dark\"/>\n");
    h.element("title", title);
    h.raw("<style>\n").raw(style()).raw("</style>\n");
    return h.close("head").open("body").open("main");
  }

  public static String end(Html h) {
    return h.close("main").close("body").close("html").toString();
  }

  static String style() {
    try (InputStream in = HtmlReport.class.getResourceAsStream("report.css")) {
      if (in == null) {
        throw new IllegalStateException("report.css is not in the jar");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
