package org.padtrue.report.record.print;

import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.report.record.Characteristic;
import org.padtrue.report.record.Figures;
import org.padtrue.report.record.FirstArticleRecord;

/** One line for every characteristic (AS9102 form 3). */
final class AccountabilityPart {
  private AccountabilityPart() {}

  static void write(Markup m, FirstArticleRecord r) {
    boolean designators = r.characteristics().stream().anyMatch(c -> !c.designator().isEmpty());
    m.element("h2", "Accountability of characteristics", "id", "accountability");
    m.element("p", frame(r), "class", "quiet");
    m.open("table", "class", "long rows");
    head(m, designators);
    m.open("tbody");
    Characteristic before = null;
    for (Characteristic c : r.characteristics()) {
      row(m, r, c, before, designators);
      before = c;
    }
    m.close("tbody").close("table");
  }

  private static String frame(FirstArticleRecord r) {
    return "x to the right, y up, rotation counter-clockwise, seen from the "
        + r.side()
        + " side, panel frame; measured against "
        + r.reference()
        + ", parts on "
        + r.stage()
        + ". Location is column/row/reference of the board and placement. Land fit is the margin to"
        + " limit: how far a termination edge may still move before its limit on the land, class "
        + r.acceptanceClass()
        + "; it limits x, y and rotation together where these have no limit of their own. U"
        + " is the expanded uncertainty.";
  }

  private static void head(Markup m, boolean designators) {
    m.open("thead").open("tr");
    m.element("th", "5 No.", "style", "width: 7%", "class", "n");
    m.element("th", "6 Location", "style", "width: " + (designators ? 12 : 14) + "%");
    m.element("th", "Part type", "style", "width: " + (designators ? 10 : 13) + "%");
    m.element("th", "What", "style", "width: " + (designators ? 10 : 11) + "%");
    if (designators) {
      m.element("th", "7 Desig.", "style", "width: 7%");
    }
    m.element("th", "8 Requirement", "style", "width: " + (designators ? 15 : 16) + "%");
    m.element("th", "9 Result", "style", "width: 9%", "class", "n");
    m.element("th", "U", "style", "width: 6%", "class", "n");
    m.element("th", "Flag", "style", "width: 11%");
    m.element("th", "10 Tool", "style", "width: 5%");
    m.element("th", "11 Nonconf.");
    m.close("tr").close("thead");
  }

  private static void row(
      Markup m,
      FirstArticleRecord r,
      Characteristic c,
      @Nullable Characteristic before,
      boolean designators) {
    boolean same = before != null && same(before, c);
    m.open("tr", "class", same ? "next" : "first");
    m.element("td", Integer.toString(c.number()), "class", "n");
    m.element("td", location(r, c));
    m.element("td", c.part());
    m.element("td", c.kind().words());
    if (designators) {
      m.element("td", c.designator());
    }
    m.element("td", Figures.requirement(c));
    m.element("td", Figures.shown(c.result(), c.kind()), "class", "n");
    m.element("td", Figures.shown(c.expandedUncertainty(), c.kind()), "class", "n");
    m.element("td", c.conformity().words(), "class", flagClass(c));
    m.element("td", c.tools().stream().map(String::valueOf).collect(Collectors.joining(", ")));
    m.element("td", c.nonconformance());
    m.close("tr");
  }

  static String flagClass(Characteristic c) {
    return switch (c.conformity()) {
      case OUTSIDE, CONDITIONALLY_OUTSIDE -> "out";
      case SLIP, CONDITIONALLY_WITHIN -> "open";
      default -> "plain";
    };
  }

  static boolean same(Characteristic a, Characteristic b) {
    return a.panel().equals(b.panel()) && a.board().equals(b.board()) && a.ref().equals(b.ref());
  }

  static String location(FirstArticleRecord r, Characteristic c) {
    return r.manyPanels() ? c.panel() + " " + c.location() : c.location();
  }
}
