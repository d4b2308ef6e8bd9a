package org.padtrue.web.log;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.history.ArticleEntry;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedParameter;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.Times;

/**
 * Two articles side by side.
 *
 * @param a the first
 * @param b the second
 * @param rows their parameters
 * @param differing how many differ by more than three standard errors
 * @param told how many could be compared
 * @param remarks what a reader should know
 * @param zone name of the clock
 */
public record CompareView(
    Side a, Side b, List<Row> rows, int differing, int told, List<String> remarks, String zone) {
  /** Beyond so many standard errors a difference is called one. */
  private static final double BEYOND = 3;

  /** Share of equal terms that are farther apart than that (normal distribution). */
  private static final double BY_CHANCE = 0.0027;

  public CompareView {
    rows = List.copyOf(rows);
    remarks = List.copyOf(remarks);
  }

  /** One article. */
  public record Side(
      long id, String measured, String machine, String job, String circumstances, String trims) {}

  /**
   * One parameter.
   *
   * @param a in the first article, a dash when it has none
   * @param b in the second
   * @param difference second minus first
   * @param error standard error of the difference
   * @param verdict differs, alike, cannot be told
   * @param differs true for the first
   */
  public record Row(
      String name,
      String unit,
      String a,
      String b,
      String difference,
      String error,
      String verdict,
      boolean differs) {}

  static CompareView of(ArticleEntry ea, LoggedArticle a, ArticleEntry eb, LoggedArticle b) {
    Map<String, LoggedParameter> first = byName(a);
    Map<String, LoggedParameter> second = byName(b);
    List<String> names = new ArrayList<>(first.keySet());
    second.keySet().stream().filter(n -> !first.containsKey(n)).forEach(names::add);
    List<Row> rows = new ArrayList<>();
    int told = 0;
    for (String n : names) {
      Row r = row(n, first.get(n), second.get(n));
      rows.add(r);
      told += r.error.equals(ShownNumbers.UNKNOWN) ? 0 : 1;
    }
    int differing = (int) rows.stream().filter(Row::differs).count();
    return new CompareView(
        side(ea, a), side(eb, b), rows, differing, told, remarks(ea, eb, b, told), Times.zone());
  }

  private static Map<String, LoggedParameter> byName(LoggedArticle a) {
    boolean panels =
        a.parameters().stream()
                .map(LoggedParameter::panel)
                .filter(p -> !p.isEmpty())
                .distinct()
                .count()
            > 1;
    Map<String, LoggedParameter> m = new LinkedHashMap<>();
    for (LoggedParameter p : a.parameters()) {
      if (LogArticleView.isBeside(p)) {
        continue;
      }
      String name = SeriesWords.framed(p.name());
      m.put(panels && !p.panel().isEmpty() ? name + " (" + p.panel() + ")" : name, p);
    }
    return m;
  }

  private static Row row(String name, @Nullable LoggedParameter a, @Nullable LoggedParameter b) {
    LoggedParameter any = a != null ? a : b;
    Amount unit = Amount.of(any == null ? "" : any.unit());
    if (a == null || b == null) {
      return new Row(
          name,
          unit.unit(),
          text(unit, a),
          text(unit, b),
          ShownNumbers.UNKNOWN,
          ShownNumbers.UNKNOWN,
          "only in one of them",
          false);
    }
    double d = b.value() - a.value();
    double se = Math.hypot(a.standardError(), b.standardError());
    boolean known = Double.isFinite(se) && se > 0;
    boolean differs = known && Math.abs(d) > BEYOND * se;
    return new Row(
        name,
        unit.unit(),
        text(unit, a),
        text(unit, b),
        unit.value(d, se),
        known ? unit.error(d, se) : ShownNumbers.UNKNOWN,
        differs
            ? "differs: " + ShownNumbers.number(Math.abs(d) / se, 1) + " standard errors"
            : known ? "alike" : "cannot be told",
        differs);
  }

  private static String text(Amount unit, @Nullable LoggedParameter p) {
    return p == null
        ? ShownNumbers.UNKNOWN
        : unit.value(p.value(), p.standardError())
            + (Double.isFinite(p.standardError())
                ? " \u00b1 " + unit.error(p.value(), p.standardError())
                : "");
  }

  private static Side side(ArticleEntry e, LoggedArticle a) {
    List<String> c = new ArrayList<>();
    for (String s : List.of(e.conditions().shift(), e.conditions().operator())) {
      if (!s.isEmpty()) {
        c.add(s);
      }
    }
    if (Double.isFinite(e.conditions().temperatureC())) {
      c.add(ShownNumbers.number(e.conditions().temperatureC(), 1) + " \u00b0C");
    }
    if (Double.isFinite(e.conditions().minutesRunning())) {
      c.add("running for " + ShownNumbers.number(e.conditions().minutesRunning(), 0) + " min");
    }
    return new Side(
        e.id(),
        Times.minute(e.measuredAt()),
        e.machine(),
        e.job(),
        c.isEmpty() ? ShownNumbers.UNKNOWN : String.join(", ", c),
        a.trims().isEmpty() ? "none" : ShownNumbers.count(a.trims().size(), "trim"));
  }

  private static List<String> remarks(
      ArticleEntry a, ArticleEntry b, LoggedArticle second, int told) {
    List<String> r = new ArrayList<>();
    if (!a.machine().equals(b.machine())) {
      r.add("They are from different machines.");
    }
    if (!a.job().equals(b.job())) {
      r.add("They are of different jobs: shift and rotation belong to a job and say little here.");
    }
    if (!second.trims().isEmpty()) {
      r.add("Trims were entered before number " + b.id() + "; what they moved differs for it.");
    }
    r.add(
        "Values are as measured, with the trims entered then. Panel offset and rotation also differ"
            + " by how well each panel was registered, which their standard errors do not hold.");
    r.add(
        "Of "
            + told
            + " terms that were alike, "
            + ShownNumbers.number(told * BY_CHANCE, 1)
            + " would be called different by chance.");
    return r;
  }
}
