package org.padtrue.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.analysis.Decision;
import org.padtrue.analysis.FirstArticleResult;
import org.padtrue.analysis.GroupResult;
import org.padtrue.analysis.PanelResult;

/**
 * The fit while measuring goes on.
 *
 * @param measured entries so far
 * @param planned placements of the plan
 * @param enough true when further measuring would not change what to do
 * @param sentence how far it is, in one sentence
 * @param terms what is known of each term
 * @param remarks what else a reader should know
 */
public record FitView(
    int measured,
    int planned,
    boolean enough,
    String sentence,
    List<Term> terms,
    List<String> remarks) {
  private static final double COVERAGE = 1.96;

  public FitView {
    terms = List.copyOf(terms);
    remarks = List.copyOf(remarks);
  }

  /**
   * One term.
   *
   * @param name in the trade's words
   * @param value estimate with its 95 % interval
   * @param decision what would be done now
   * @param width half the interval against the widest shown, 0 to 100
   */
  public record Term(String name, String value, String decision, int width) {}

  static FitView of(
      @Nullable FirstArticleResult r, List<String> problems, int measured, int planned) {
    if (r == null) {
      String s =
          measured == 0
              ? "Nothing measured yet."
              : "Too little measured to fit; go on with the list.";
      return new FitView(
          measured, planned, false, s, List.of(), measured == 0 ? List.of() : problems);
    }
    List<Term> terms = new ArrayList<>();
    PanelResult p = r.panels().get(0);
    terms.add(um("shift x", p.shiftAtCentroid().x(), p.shiftAtCentroidSe().x(), ""));
    terms.add(um("shift y", p.shiftAtCentroid().y(), p.shiftAtCentroidSe().y(), ""));
    for (GroupResult g : r.groups()) {
      String name = g.factor() + " " + g.level();
      String d = word(g.trim().decision());
      terms.add(um(name + " x", g.combined().x(), g.combinedStandardErrors().x(), d));
      terms.add(um(name + " y", g.combined().y(), g.combinedStandardErrors().y(), d));
    }
    return new FitView(
        measured, planned, false, measured + " of " + planned + " measured.", terms, r.notes());
  }

  private static Term um(String name, double v, double se, String decision) {
    double half = COVERAGE * se;
    int width = Double.isFinite(half) ? (int) Math.min(100, Math.round(half * 1000)) : 100;
    return new Term(
        name, Say.um(v) + " \u00b1 " + Say.number(half * 1000, 0) + " \u00b5m", decision, width);
  }

  private static String word(Decision d) {
    return switch (d) {
      case CANNOT_TELL -> "cannot tell";
      case NOT_ACCEPTED -> "not accepted";
      default -> d.name().toLowerCase(Locale.ROOT);
    };
  }
}
