package org.padtrue.report;

import java.util.List;
import org.padtrue.report.page.Html;
import org.padtrue.report.page.HtmlReport;
import org.padtrue.report.page.HtmlTable;
import org.padtrue.report.page.RoomFigure;
import org.padtrue.report.words.RoomWords;
import org.padtrue.report.words.Show;
import org.padtrue.room.PlacingOrder;
import org.padtrue.room.RoomGroup;
import org.padtrue.room.RoomItem;
import org.padtrue.room.RoomMove;
import org.padtrue.room.RoomOptions;
import org.padtrue.room.RoomPair;
import org.padtrue.room.RoomResult;
import org.padtrue.room.RoomSubject;

/** room.html: every group with its moves, pairs and picture. One file, nothing fetched. */
public final class RoomPage {
  private static final int MOST_GROUPS = 60;

  private RoomPage() {}

  public static String of(RoomResult r, RoomOptions o, RoomSubject head, List<RoomItem> items) {
    Html h = HtmlReport.begin("Room: " + head.job());
    h.open("header");
    h.element("p", "Room between neighbours", "class", "kicker");
    h.element("h1", head.job());
    h.close("header").open("section", "class", "answer");
    h.element("h2", "What to move");
    h.element("p", Show.words(RoomWords.answer(r, o, head)), "class", "lead");
    h.element("p", Show.words(RoomWords.numbers(head)), "class", "quiet");
    h.close("section");
    for (RoomGroup g : r.groups().subList(0, Math.min(MOST_GROUPS, r.groups().size()))) {
      h.open("section");
      group(h, g, head);
      RoomFigure.into(h, g, items);
      h.close("section");
    }
    if (r.groups().size() > MOST_GROUPS) {
      h.element("p", "and " + (r.groups().size() - MOST_GROUPS) + " more groups in room.json");
    }
    order(h, r.order());
    h.open("aside", "class", "cautions", "aria-label", "Cautions");
    h.element("h3", "Before anything is moved");
    h.element("p", RoomWords.CAUTION);
    h.close("aside");
    List<String> notes = RoomWords.notes(r);
    if (!notes.isEmpty()) {
      h.open("section").element("h2", "Notes").open("ul");
      notes.forEach(n -> h.element("li", Show.words(n)));
      h.close("ul").close("section");
    }
    return HtmlReport.end(h);
  }

  private static void group(Html h, RoomGroup g, RoomSubject head) {
    h.element("h2", (g.solved() ? "" : "No room: ") + names(g));
    h.element("p", Show.words(g.sentence() + "."));
    if (!g.moves().isEmpty()) {
      HtmlTable t =
          new HtmlTable(
                  g.solved()
                      ? "Values to ADD in the placement list"
                      : "The most that can be had, not to be entered: a gap stays too small")
              .text("Placement", "Part type")
              .numbers(
                  "x, mm",
                  "y, mm",
                  "rotation, deg",
                  "Margin to its limit, mm",
                  "then",
                  "Chance of being outside",
                  "then");
      for (RoomMove m : g.moves()) {
        t.row(
            m.key(),
            m.part(),
            RoomWords.x(m, head),
            RoomWords.y(m, head),
            RoomWords.rotation(m, head),
            RoomWords.mm(m.margin()),
            RoomWords.mm(m.marginAfter()),
            RoomWords.probability(m.outside()),
            RoomWords.probability(m.outsideAfter()));
      }
      t.into(h);
    }
    HtmlTable t =
        new HtmlTable("Gaps, mm")
            .text("Pair")
            .numbers("Gap", "then", "Chance of touching", "then", "Chance below the gap", "then");
    for (RoomPair p : g.pairs()) {
      t.row(
          p.a() + " and " + p.b(),
          RoomWords.mm(p.gap()),
          RoomWords.mm(p.gapAfter()),
          RoomWords.probability(p.touching()),
          RoomWords.probability(p.touchingAfter()),
          RoomWords.probability(p.below()),
          RoomWords.probability(p.belowAfter()));
    }
    t.into(h);
  }

  private static String names(RoomGroup g) {
    return g.moves().isEmpty()
        ? g.pairs().get(0).a() + " and " + g.pairs().get(0).b()
        : String.join(", ", g.moves().stream().map(RoomMove::key).toList());
  }

  private static void order(Html h, List<PlacingOrder> order) {
    if (!order.isEmpty()) {
      h.open("section").element("h2", "Placing order").open("ul");
      order.forEach(o -> h.element("li", Show.words(o.sentence() + ".")));
      h.close("ul").close("section");
    }
  }
}
