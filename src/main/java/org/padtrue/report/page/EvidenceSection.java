package org.padtrue.report.page;

import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.result.Acceptance;
import org.padtrue.firstarticle.result.BudgetLine;
import org.padtrue.firstarticle.result.ClearanceResult;
import org.padtrue.firstarticle.result.FamilyLine;
import org.padtrue.firstarticle.result.FiducialFit;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.Quadrant;
import org.padtrue.firstarticle.result.TypeIndex;
import org.padtrue.firstarticle.result.VarianceLine;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.panel.Unplaced;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.report.words.KeyWords;
import org.padtrue.report.words.LimitWords;
import org.padtrue.report.words.Show;

/** The evidence: charts, and the tables behind the decisions. */
final class EvidenceSection {
  private static final int NAMES_SHOWN = 30;

  private EvidenceSection() {}

  static void into(Html h, FirstArticleResult r, List<DrawnChart> pictures) {
    h.open("section", "class", "page");
    h.element("h2", "The evidence");
    if (pictures.isEmpty()) {
      h.element("p", "No charts were drawn.");
    }
    for (String group : List.of("map", "target", "more", "spread")) {
      charts(h, group, pictures);
    }
    h.close("section");
    h.open("section", "class", "page");
    h.element("h2", "Behind the decision");
    r.panels().forEach(p -> families(h, p, r.panels().size() > 1));
    budget(h, r.budget());
    variances(h, r.variances());
    scatter(h, r.scatter());
    quadrants(h, r.quadrants());
    r.panels().forEach(p -> fiducials(h, p, r.panels().size() > 1));
    clearances(h, r.clearances());
    limits(h, r);
    capability(h, r);
    notes(h, r);
    h.close("section");
  }

  static void charts(Html h, String group, List<DrawnChart> pictures) {
    h.open("div", "class", "charts " + group);
    for (DrawnChart p : pictures) {
      if (p.group().equals(group)) {
        chart(h, p);
      }
    }
    h.close("div");
  }

  static void chart(Html h, DrawnChart p) {
    boolean svg = p.files().containsKey(ChartFormat.SVG);
    String data =
        Base64.getEncoder().encodeToString(p.file(svg ? ChartFormat.SVG : ChartFormat.PNG));
    h.open("figure");
    h.single(
        "img",
        "alt",
        p.title() + ". " + p.caption(),
        "width",
        Integer.toString(p.width()),
        "height",
        Integer.toString(p.height()),
        "src",
        "data:image/" + (svg ? "svg+xml" : "png") + ";base64," + data);
    h.element("figcaption", p.caption());
    h.close("figure");
  }

  private static void families(Html h, PanelResult p, boolean several) {
    HtmlTable t =
        new HtmlTable(
            "Candidate models of the panel"
                + (several ? " " + p.panel() : "")
                + ": richer only where F (5 %) and AICc both favour it");
    t.text("Model");
    t.numbers("Parameters", "Residual RSS, \u00b5m\u00b2", "AICc", "F", "p").text("");
    for (FamilyLine f : p.families()) {
      t.styled(
          f.chosen() ? "chosen" : "",
          f.family() + (f.array() ? " + array" : ""),
          Integer.toString(f.parameters()),
          thousands(f.rss() * 1e6),
          Show.fixed(f.aicc(), 1),
          Show.three(f.f()),
          Show.p(f.p()),
          f.chosen() ? "\u25cf in use" : "");
    }
    t.into(h);
  }

  private static String thousands(double v) {
    return Double.isFinite(v) ? String.format(Locale.ROOT, "%,.0f", v) : Show.UNKNOWN;
  }

  private static void budget(Html h, List<BudgetLine> budget) {
    HtmlTable t = new HtmlTable("Where the variation comes from, mean square in \u00b5m\u00b2");
    t.text("Source").numbers("As measured", "With the trims").text("An offset can remove it");
    for (BudgetLine b : budget) {
      t.row(
          KeyWords.source(b.source()),
          Show.three(b.meanSquare() * 1e6),
          Show.three(b.meanSquareAfterTrim() * 1e6),
          b.removable() ? "yes" : "no");
    }
    t.into(h);
  }

  private static void variances(Html h, List<VarianceLine> variances) {
    HtmlTable t = new HtmlTable("Standard deviations by source");
    t.text("Source", "Axis").numbers("Standard deviation").text("An offset can remove it");
    for (VarianceLine v : variances) {
      boolean rotation = v.axis().equals("rotation");
      String sd =
          !Double.isFinite(v.sd())
              ? Show.UNKNOWN
              : rotation ? Show.short0(v.sd(), 3) + "\u00b0" : Show.um(v.sd()) + " \u00b5m";
      t.row(KeyWords.source(v.source()), KeyWords.axis(v.axis()), sd, v.removable() ? "yes" : "no");
    }
    t.into(h);
  }

  private static void scatter(Html h, Scatter s) {
    StringBuilder b = new StringBuilder("Scatter that no offset removes: ");
    b.append(Show.um(s.sdX())).append(" \u00b5m in x, ");
    b.append(Show.um(s.sdY())).append(" \u00b5m in y");
    if (Double.isFinite(s.sdRotation())) {
      b.append(", ").append(Show.short0(s.sdRotation(), 3)).append("\u00b0");
    }
    b.append(" (").append(Show.short0(s.degreesOfFreedom(), 0)).append(" degrees of freedom");
    b.append(
        Double.isFinite(s.measuringSd()) ? ", measuring taken off)." : ", measuring included).");
    h.element("p", b.toString());
  }

  private static void quadrants(Html h, List<Quadrant> quadrants) {
    HtmlTable t =
        new HtmlTable("Mean residual by rotation of the placement; reported, not trimmed");
    t.text("Near").numbers("Count", "x, \u00b5m", "y, \u00b5m");
    for (Quadrant q : quadrants) {
      t.row(
          q.rotation() + "\u00b0",
          Integer.toString(q.count()),
          ConfidenceSection.um(q.mean().x(), q.standardErrors().x()),
          ConfidenceSection.um(q.mean().y(), q.standardErrors().y()));
    }
    t.into(h);
  }

  private static void fiducials(Html h, PanelResult p, boolean several) {
    FiducialFit f = p.fiducials();
    if (f == null) {
      return;
    }
    h.element("h3", "Fiducials" + (several ? " of panel " + p.panel() : ""));
    h.element("p", Show.words(f.sentence()));
    HtmlTable t =
        new HtmlTable("Fiducials: measured minus nominal, and residual from their own fit");
    t.text("Name")
        .numbers("dx, \u00b5m", "dy, \u00b5m", "Residual x, \u00b5m", "Residual y, \u00b5m")
        .text("");
    for (FiducialFit.Line l : f.lines()) {
      t.row(
          l.name(),
          Show.um(l.deviation().x()),
          Show.um(l.deviation().y()),
          Show.um(l.residual().x()),
          Show.um(l.residual().y()),
          l.suspect() ? "\u2717 suspect" : "");
    }
    t.into(h);
  }

  private static void clearances(Html h, List<ClearanceResult> clearances) {
    HtmlTable t = new HtmlTable("Neighbours that can come near: least gap");
    t.text("Parts").numbers("As measured", "With the trims", "Chance to touch").text("");
    for (ClearanceResult c : clearances.subList(0, Math.min(NAMES_SHOWN, clearances.size()))) {
      t.row(
          c.a() + " \u2013 " + c.b(),
          Show.length(c.gap()),
          Show.length(c.gapAfterTrim()),
          Show.percent(c.probabilityTouching()),
          Show.words(c.sentence()));
    }
    t.into(h);
    if (!clearances.isEmpty()) {
      h.element(
          "p",
          "Which small moves give them room, and keep them on their lands: padtrue room JOB"
              + " ANALYSIS.json.",
          "class",
          "quiet");
    }
  }

  private static void limits(Html h, FirstArticleResult r) {
    HtmlTable t =
        new HtmlTable(
            "Acceptance limits in use, class "
                + r.acceptance().acceptanceClass()
                + " (IPC-A-610), and what each rests on");
    t.text("Joint", "Side overhang allowed", "End overhang", "Rests on", "Source", "Part types");
    for (LimitWords.Line l : LimitWords.lines(r.job())) {
      t.row(
          l.kind(),
          l.side(),
          l.end(),
          l.standing(),
          l.source(),
          KeyWords.some(l.types(), NAMES_SHOWN));
    }
    t.into(h);
  }

  private static void capability(Html h, FirstArticleResult r) {
    if (!Double.isFinite(r.acceptance().cpk().x())) {
      return;
    }
    HtmlTable t =
        new HtmlTable(
            "Short-term machine performance index Pmk (ISO 22514-3), each placement on its own"
                + " tolerance");
    t.text("Axis of the part").numbers("Now", "Lower 95 % bound", "With the trims");
    t.row(
        "x",
        Show.fixed(r.acceptance().cpk().x(), 2),
        Show.fixed(r.acceptance().cpkLower95().x(), 2),
        Show.fixed(r.acceptance().cpkAfterTrim().x(), 2));
    t.row(
        "y",
        Show.fixed(r.acceptance().cpk().y(), 2),
        Show.fixed(r.acceptance().cpkLower95().y(), 2),
        Show.fixed(r.acceptance().cpkAfterTrim().y(), 2));
    t.into(h);
    types(h, r.acceptance(), !r.trims().isEmpty());
  }

  private static void types(Html h, Acceptance a, boolean trims) {
    HtmlTable t = new HtmlTable("The same by part type, in its own frame, the lowest first");
    t.text("Part type").numbers("Count", "Allowed x, y either way, \u00b5m", "Pmk x, y now");
    if (trims) {
      t.numbers("with the trims");
    }
    t.numbers("Lower 95 % bound");
    t.numbers("Statistical tolerance interval x, \u00b5m", "y, \u00b5m");
    List<TypeIndex> shown = a.types().subList(0, Math.min(NAMES_SHOWN, a.types().size()));
    for (TypeIndex i : shown) {
      List<String> cells = new ArrayList<>();
      cells.add(i.part());
      cells.add(Integer.toString(i.count()));
      cells.add(Show.um(i.allowed().x()) + ", " + Show.um(i.allowed().y()));
      cells.add(pair(i.cpk()));
      if (trims) {
        cells.add(pair(i.cpkAfterTrim()));
      }
      cells.add(pair(i.cpkAfterTrimLower95()));
      cells.add(Show.um(i.low().x()) + " to " + Show.um(i.high().x()));
      cells.add(Show.um(i.low().y()) + " to " + Show.um(i.high().y()));
      t.row(cells.toArray(new String[0]));
    }
    t.into(h);
    h.element(
        "p",
        "Statistical tolerance interval (ISO 16269-6): "
            + (trims ? "with the trims entered, " : "")
            + "99 % of such placements lie inside, with 95 % confidence, as far as they scatter"
            + " like these. Few placements make it wide.",
        "class",
        "quiet");
  }

  private static String pair(Xy v) {
    return Show.fixed(v.x(), 2) + ", " + Show.fixed(v.y(), 2);
  }

  private static void notes(Html h, FirstArticleResult r) {
    h.element("h3", "Notes");
    h.open("ul");
    r.job().notes().forEach(n -> h.element("li", Show.words(n)));
    r.notes().forEach(n -> h.element("li", Show.words(n)));
    if (!r.missing().isEmpty()) {
      h.element("li", "Not measured: " + KeyWords.some(r.missing(), NAMES_SHOWN) + ".");
    }
    if (!r.job().unplaced().isEmpty()) {
      List<String> names = r.job().unplaced().stream().map(EvidenceSection::unplaced).toList();
      h.element("li", "Listed but not placed: " + KeyWords.some(names, NAMES_SHOWN) + ".");
    }
    h.element(
        "li",
        "Colours of the charts: Okabe and Ito (2008), told apart by every common kind of colour"
            + " vision; marks differ in shape too.");
    h.close("ul");
  }

  private static String unplaced(Unplaced u) {
    String why =
        switch (u.reason()) {
          case OTHER_SIDE -> "other side";
          case NOT_FITTED -> "not fitted";
          case PARKED -> "parked off the board";
          case DRAWING -> "no part";
        };
    return u.ref() + " (" + why + ")";
  }
}
