package org.padtrue.report.record.print;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.report.record.Characteristic;
import org.padtrue.report.record.CharacteristicKind;
import org.padtrue.report.record.Conformity;
import org.padtrue.report.record.Figures;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.words.ResultWords;

/** What came out, and every characteristic that somebody has to look at. */
final class SummaryPart {
  private SummaryPart() {}

  static void write(Markup m, FirstArticleRecord r) {
    m.element("h2", "Result", "id", "result");
    m.open("div", "class", "box block");
    m.element("p", lead(r), "class", "lead");
    m.element("p", counted(r));
    m.close("div");
    open(m, r);
  }

  private static String lead(FirstArticleRecord r) {
    int outside = r.count(Conformity.OUTSIDE) + r.count(Conformity.CONDITIONALLY_OUTSIDE);
    int all = r.characteristics().size();
    long placements =
        r.characteristics().stream().filter(c -> c.kind() == CharacteristicKind.X).count();
    String of = " of " + all + " characteristics (" + placements + " placements)";
    if (outside > 0) {
      return outside + of + (outside == 1 ? " is" : " are") + " outside the limits.";
    }
    return r.count(Conformity.WITHIN) == 0
        ? "None" + of + " could be held against a limit and found within."
        : "None" + of + " is outside its limits.";
  }

  private static String counted(FirstArticleRecord r) {
    List<String> parts = new ArrayList<>();
    for (Conformity c : Conformity.values()) {
      if (r.count(c) > 0) {
        parts.add(r.count(c) + " " + counted(c));
      }
    }
    return String.join(", ", parts) + ".";
  }

  private static String counted(Conformity c) {
    return switch (c) {
      case WITHIN -> "within";
      case CONDITIONALLY_WITHIN -> "within by less than the uncertainty (within?)";
      case CONDITIONALLY_OUTSIDE -> "outside by less than the uncertainty (OUT?)";
      case OUTSIDE -> "outside (OUT)";
      case SLIP -> "look like transcription errors and have to be measured again";
      case NOT_MEASURED -> "not measured";
      case BY_LAND_FIT -> "limited together by the land fit of their placement";
      case NO_LIMIT -> "without a limit";
    };
  }

  private static void open(Markup m, FirstArticleRecord r) {
    List<Characteristic> open =
        r.characteristics().stream().filter(c -> c.conformity().open()).toList();
    if (open.isEmpty()) {
      m.element("p", "Nothing is left open.");
      return;
    }
    m.element("p", "Open: what is outside, doubtful or not measured, with what is known of it.");
    m.open("table", "class", "long rows");
    m.open("thead").open("tr");
    m.element("th", "5 No.", "style", "width: 9%", "class", "n");
    m.element("th", "6 Location", "style", "width: 15%");
    m.element("th", "What", "style", "width: 13%");
    m.element("th", "9 Result", "style", "width: 11%", "class", "n");
    m.element("th", "Flag", "style", "width: 13%");
    m.element("th", "11 Nonconf.", "style", "width: 12%");
    m.element("th", "12 Comment");
    m.close("tr").close("thead").open("tbody");
    Characteristic before = null;
    for (Characteristic c : open) {
      boolean same =
          before != null
              && AccountabilityPart.same(before, c)
              && before.comment().equals(c.comment());
      row(m, r, c, same);
      before = c;
    }
    m.close("tbody").close("table");
  }

  private static void row(Markup m, FirstArticleRecord r, Characteristic c, boolean same) {
    m.open("tr");
    m.element("td", Integer.toString(c.number()), "class", "n");
    m.element("td", AccountabilityPart.location(r, c));
    m.element("td", c.kind().words());
    m.element("td", Figures.shown(c.result(), c.kind()), "class", "n");
    m.element("td", c.conformity().words(), "class", AccountabilityPart.flagClass(c));
    m.element("td", c.nonconformance());
    m.element("td", same ? "" : ResultWords.page(c.comment()));
    m.close("tr");
  }
}
