package org.padtrue.report.record.print;

import java.util.List;
import java.util.Map;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.IdentificationField;

/** The printed record as XHTML, in the order in which a technician reads and signs it. */
final class RecordPage {
  private RecordPage() {}

  static String of(FirstArticleRecord r, Paper paper) {
    Markup m = new Markup();
    m.open("html", "lang", "en").open("head").element("title", title(r));
    m.open("meta", "name", "subject", "content", "First article record of " + r.job())
        .close("meta");
    m.style(RecordStyle.of(paper));
    bookmarks(m, r);
    m.close("head").open("body");
    IdentificationPart.head(m, r);
    m.element("h1", "First article record");
    m.element("p", "Placement of parts: " + r.job(), "class", "lead");
    IdentificationPart.form(m, r);
    SummaryPart.write(m, r);
    MeasuringPart.write(m, r);
    MeasuringPart.limits(m, r);
    TrimsPart.write(m, r);
    ClosingPart.attachments(m, r);
    ClosingPart.cautions(m);
    ClosingPart.sign(m, r);
    AccountabilityPart.write(m, r);
    return m.close("body").close("html").toString();
  }

  private static String title(FirstArticleRecord r) {
    String part = r.identification().value(IdentificationField.PART_NUMBER).orElse(r.job());
    return "First article record, " + part;
  }

  private static void bookmarks(Markup m, FirstArticleRecord r) {
    m.open("bookmarks");
    for (Map.Entry<String, String> e : sections(r)) {
      m.open("bookmark", "name", e.getValue(), "href", "#" + e.getKey()).close("bookmark");
    }
    m.close("bookmarks");
  }

  private static List<Map.Entry<String, String>> sections(FirstArticleRecord r) {
    return List.of(
        Map.entry("identification", "Identification"),
        Map.entry("result", "Result"),
        Map.entry("measuring", "Measuring and decision rule"),
        Map.entry("trims", r.check() == null ? "Trims" : "Trims and their check"),
        Map.entry("attachments", "Attachments"),
        Map.entry("signatures", "Signatures"),
        Map.entry("accountability", "Accountability of characteristics"));
  }
}
