package org.padtrue.report.page;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Alias;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.FamilyTest;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.panel.Factor;
import org.padtrue.report.words.KeyWords;
import org.padtrue.report.words.Show;

/** How sure the answer is: estimates with their standard errors, decisions with their reasons. */
final class ConfidenceSection {
  private static final int GROUPS_SHOWN = 60;
  private static final int EXCLUDED_SHOWN = 40;

  private ConfidenceSection() {}

  static void into(Html h, FirstArticleResult r) {
    h.open("section", "class", "page");
    h.element("h2", "How sure");
    h.element(
        "p",
        "Behind \u00b1 stands one standard error: about two times in three the true value lies"
            + " within one, 19 times in 20 within two.",
        "class",
        "quiet");
    batch(h, r.batchTrim());
    panels(h, r.panels());
    groups(h, r);
    tests(h, r.tests());
    aliases(h, r.aliases());
    excluded(h, r);
    h.close("section");
  }

  private static void batch(Html h, BatchTrim b) {
    HtmlTable t = new HtmlTable("Corrections of the whole batch");
    t.text("Term").numbers("Add").text("Decision", "Reason");
    shift(t, "panel offset", b.shift());
    angle(t, "panel rotation", b.rotation());
    BatchTrim.Scale s = b.scale();
    boolean scaled = s.xPpm() != 0 || s.yPpm() != 0;
    String scale =
        scaled
            ? "x " + Show.signedFixed(s.xPpm(), 0) + ", y " + Show.signedFixed(s.yPpm(), 0) + " ppm"
            : Show.UNKNOWN;
    component(t, "axis scale", scale, scaled, s);
    String square =
        s.squarenessMrad() != 0 ? Show.signedFixed(s.squarenessMrad(), 3) + " mrad" : Show.UNKNOWN;
    component(t, "squareness", square, s.squarenessMrad() != 0, s);
    BatchTrim.ArrayTrim a = b.array();
    decided(
        t,
        "board array",
        a.boards().isEmpty() ? Show.UNKNOWN : a.boards().size() + " new origins",
        a.decision(),
        a.reason());
    shift(t, "offset common to all parts", b.common());
    angle(t, "rotation zero of all parts", b.rotationZero());
    t.into(h);
  }

  /** Scale and squareness are tested together; what of them is not entered is left alone. */
  private static void component(
      HtmlTable t, String name, String value, boolean entered, BatchTrim.Scale s) {
    if (s.decision() == Decision.TRIM && !entered) {
      decided(t, name, value, Decision.LEAVE, "not told from 0 by itself: leave it alone");
    } else {
      decided(t, name, value, s.decision(), s.reason());
    }
  }

  private static void shift(HtmlTable t, String name, BatchTrim.Shift s) {
    boolean any = s.value().x() != 0 || s.value().y() != 0;
    String v =
        any
            ? "x " + Show.exactUm(s.value().x()) + ", y " + Show.exactUm(s.value().y()) + " \u00b5m"
            : Show.UNKNOWN;
    decided(t, name, v, s.decision(), s.reason());
  }

  private static void angle(HtmlTable t, String name, BatchTrim.Angle a) {
    String v = a.value() != 0 ? Show.signedDeg(a.value()) + "\u00b0" : Show.UNKNOWN;
    decided(t, name, v, a.decision(), a.reason());
  }

  private static void decided(HtmlTable t, String name, String value, Decision d, String reason) {
    t.styled(d.key(), name, value, KeyWords.decision(d), Show.words(reason));
  }

  private static void panels(Html h, List<PanelResult> panels) {
    HtmlTable t =
        new HtmlTable(
            "Where each panel sits: fitted minus nominal, plus = right, up, counter-clockwise as"
                + " placed; panel offset at the panel origin");
    t.text("Panel", "Model");
    t.numbers("Offset x, \u00b5m", "Offset y, \u00b5m", "Rotation, \u00b0");
    t.numbers("Scale x, ppm", "Scale y, ppm", "Squareness, mrad");
    for (PanelResult p : panels) {
      TransformValues v = p.transform();
      TransformValues se = p.standardErrors();
      t.row(
          p.panel(),
          p.family() + (p.array() == null ? "" : " + array"),
          value(1000 * v.shiftX(), 1000 * se.shiftX()),
          value(1000 * v.shiftY(), 1000 * se.shiftY()),
          value(v.rotation(), se.rotation()),
          value(v.scaleXPpm(), se.scaleXPpm()),
          value(v.scaleYPpm(), se.scaleYPpm()),
          value(v.squarenessMrad(), se.squarenessMrad()));
    }
    t.into(h);
    h.element(
        "p",
        "\u201cnot in the model\u201d: the simpler model was enough. \u201cnot visible\u201d: the"
            + " way of measuring hides it.",
        "class",
        "quiet");
    arrays(h, panels);
  }

  private static String value(double v, double se) {
    if (Double.isNaN(v)) {
      return "not visible";
    }
    return v == 0 && se == 0 ? "not in the model" : Show.plusMinus(v, se);
  }

  private static void arrays(Html h, List<PanelResult> panels) {
    HtmlTable t = new HtmlTable("The board array's own error, \u00b5m for each step");
    t.text("Panel");
    t.numbers("Column, x", "Column, y", "Row, x", "Row, y");
    for (PanelResult p : panels) {
      ArrayError a = p.array();
      if (a != null) {
        t.row(
            p.panel(),
            um(a.perColumn().x(), a.perColumnSe().x()),
            um(a.perColumn().y(), a.perColumnSe().y()),
            um(a.perRow().x(), a.perRowSe().x()),
            um(a.perRow().y(), a.perRowSe().y()));
      }
    }
    t.into(h);
  }

  static String um(double mm, double seMm) {
    return Show.plusMinus(1000 * mm, 1000 * seMm);
  }

  private static void groups(Html h, FirstArticleResult r) {
    common(h, r);
    List<GroupResult> shown = new ArrayList<>(r.groups());
    // what is changed or undecided first; the rest in the order of the result
    shown.sort(Comparator.comparingInt(g -> g.trim().decision() == Decision.LEAVE ? 1 : 0));
    int more = Math.max(0, shown.size() - GROUPS_SHOWN);
    HtmlTable t =
        new HtmlTable(
            "Offsets by "
                + Factor.words(List.of(Factor.values()))
                + ", measured minus nominal: predicted (drawn towards 0 where little was measured),"
                + " beside plain least squares");
    t.text("Of what").numbers("Count");
    t.numbers("x, \u00b5m", "y, \u00b5m", "Rotation, \u00b0", "Least squares x, y, \u00b5m");
    t.text("Frame", "Decision", "Reason");
    for (GroupResult g : shown.subList(0, shown.size() - more)) {
      group(t, g);
    }
    t.into(h);
    if (more > 0) {
      h.element("p", "And " + more + " more, all left alone: see analysis.json.", "class", "quiet");
    }
  }

  private static void group(HtmlTable t, GroupResult g) {
    String turned = g.zeroOrientation() == 0 ? "" : ", turned by " + g.zeroOrientation() + "\u00b0";
    t.styled(
        g.trim().decision().key(),
        g.named().words() + turned,
        Integer.toString(g.count()),
        um(g.offset().x(), g.standardErrors().x()),
        um(g.offset().y(), g.standardErrors().y()),
        Show.plusMinus(g.offset().rotation(), g.standardErrors().rotation()),
        tenth(g.leastSquares().x()) + ", " + tenth(g.leastSquares().y()),
        g.frame(),
        decision(g.trim()),
        Show.words(g.trim().reason()));
  }

  private static String tenth(double mm) {
    return Show.fixed(1000 * mm, 1);
  }

  private static String decision(TrimValue t) {
    String words = KeyWords.decision(t.decision());
    if (t.decision() != Decision.TRIM) {
      return words;
    }
    String v =
        "x " + Show.exactUm(t.value().x()) + ", y " + Show.exactUm(t.value().y()) + " \u00b5m";
    if (t.value().rotation() != 0 && !Double.isNaN(t.value().rotation())) {
      v += ", rotation " + Show.signedDeg(t.value().rotation()) + "\u00b0";
    }
    if (t.turn() != 0) {
      v += ", turn by " + t.turn() + "\u00b0";
    }
    return words + " " + v.replace('-', '\u2212');
  }

  private static void common(Html h, FirstArticleResult r) {
    StringBuilder b = new StringBuilder();
    FirstArticleResult.Common c = r.common();
    if (c != null) {
      Xy se = c.standardErrors();
      b.append("All parts share an offset of ").append(um(c.value().x(), se.x()));
      b.append(" \u00b5m in x and ").append(um(c.value().y(), se.y()));
      b.append(" \u00b5m in y of their own frame. ");
    }
    FirstArticleResult.RotationZero z = r.rotationZero();
    if (z != null) {
      b.append("Rotation zero of all parts: ");
      b.append(Show.plusMinus(z.value(), z.standardError())).append("\u00b0.");
    }
    if (b.length() > 0) {
      h.element("p", b.toString().replace('-', '\u2212'));
    }
  }

  private static void tests(Html h, List<FamilyTest> tests) {
    HtmlTable t =
        new HtmlTable(
            "Is it more than chance? Families of terms, false discoveries held at 5 % over all"
                + " (Benjamini and Hochberg)");
    t.text("Family").numbers("Statistic").text("Kind").numbers("p").text("Finding");
    for (FamilyTest f : tests) {
      t.row(
          KeyWords.family(f.family()),
          Show.three(f.statistic()),
          f.kind(),
          Show.p(f.p()),
          f.passes() ? "\u25cf more than chance" : "\u25cb may be chance");
    }
    t.into(h);
  }

  private static void aliases(Html h, List<Alias> aliases) {
    if (aliases.isEmpty()) {
      return;
    }
    h.element("h3", "What this article cannot tell apart");
    h.open("ul");
    for (Alias a : aliases) {
      h.open("li");
      h.element("strong", String.join(" and ", a.terms()) + ": ").text(Show.words(a.sentence()));
      h.close("li");
    }
    h.close("ul");
  }

  private static void excluded(Html h, FirstArticleResult r) {
    List<Excluded> all = Excluded.shown(r.excluded());
    if (all.isEmpty()) {
      return;
    }
    h.element("h3", "Left out of the fit");
    h.element(
        "p",
        "A real fault still counts as outside; a transcription error (ISO 5725-2) does not.",
        "class",
        "quiet");
    HtmlTable t = new HtmlTable("");
    t.text("Placement", "Looks like", "Counts as", "What was seen");
    for (Excluded e : all.subList(0, Math.min(EXCLUDED_SHOWN, all.size()))) {
      String where =
          (r.panels().size() > 1 ? e.panel() + " " : "")
              + (r.job().array().boards().size() > 1 ? e.board() + "/" : "")
              + e.ref();
      t.row(
          where,
          KeyWords.kind(e.kind()),
          e.fault() ? "fault" : "transcription error",
          Show.words(e.sentence()));
    }
    t.into(h);
    if (all.size() > EXCLUDED_SHOWN) {
      h.element(
          "p",
          "And " + (all.size() - EXCLUDED_SHOWN) + " more: see analysis.json.",
          "class",
          "quiet");
    }
  }
}
