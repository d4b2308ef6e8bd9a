package org.padtrue.web.log;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Function;
import org.padtrue.history.ArticleEntry;
import org.padtrue.history.LoggedSignOff;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.Times;

/**
 * The log as a list.
 *
 * @param empty true when nothing was recorded yet
 * @param filter what was asked for
 * @param problems what is wrong with that
 * @param machines to choose from
 * @param jobs likewise
 * @param shifts likewise
 * @param operators likewise
 * @param lines one page of it, newest first
 * @param found how many there are on all pages
 * @param all how many articles the log has
 * @param zone name of the clock
 * @param page 1-based
 * @param pages how many
 * @param before address of the page before, empty for none
 * @param after address of the page after
 */
public record LogView(
    boolean empty,
    LogFilter filter,
    List<String> problems,
    List<String> machines,
    List<String> jobs,
    List<String> shifts,
    List<String> operators,
    List<Line> lines,
    int found,
    int all,
    String zone,
    int page,
    int pages,
    String before,
    String after) {
  private static final int PAGE = 50;
  private static final int MOST_NOTE = 60;

  public LogView {
    problems = List.copyOf(problems);
    machines = List.copyOf(machines);
    jobs = List.copyOf(jobs);
    shifts = List.copyOf(shifts);
    operators = List.copyOf(operators);
    lines = List.copyOf(lines);
  }

  /** How many articles are shown of how many. */
  public String count() {
    return (found == all ? "" : found + " of ") + ShownNumbers.count(all, "article");
  }

  /**
   * One article.
   *
   * @param id number
   * @param measured when, on this computer's clock
   * @param circumstances shift, operator, temperature, as far as known
   * @param state what became of it: stands, or corrected
   * @param signed who answers for it
   */
  public record Line(
      long id,
      String measured,
      String machine,
      String job,
      String circumstances,
      String file,
      String note,
      String state,
      String signed) {}

  static LogView of(
      LogFilter filter, List<ArticleEntry> entries, List<LoggedSignOff> signOffs, int page) {
    List<ArticleEntry> found = new ArrayList<>();
    for (int i = entries.size() - 1; i >= 0; i--) {
      if (filter.takes(entries.get(i))) {
        found.add(entries.get(i));
      }
    }
    int pages = Math.max(1, (found.size() + PAGE - 1) / PAGE);
    int at = Math.max(1, Math.min(page, pages));
    Map<Long, List<LoggedSignOff>> by = new HashMap<>();
    signOffs.forEach(s -> by.computeIfAbsent(s.articleId(), k -> new ArrayList<>()).add(s));
    List<Line> lines =
        found.subList((at - 1) * PAGE, Math.min(found.size(), at * PAGE)).stream()
            .map(e -> line(e, by.getOrDefault(e.id(), List.of())))
            .toList();
    return new LogView(
        entries.isEmpty(),
        filter,
        filter.problems(),
        names(entries, ArticleEntry::machine),
        names(entries, ArticleEntry::job),
        names(entries, e -> e.conditions().shift()),
        names(entries, e -> e.conditions().operator()),
        lines,
        found.size(),
        entries.size(),
        Times.zone(),
        at,
        pages,
        at > 1 ? filter.address(at - 1) : "",
        at < pages ? filter.address(at + 1) : "");
  }

  private static List<String> names(
      List<ArticleEntry> entries, Function<ArticleEntry, String> name) {
    TreeSet<String> all = new TreeSet<>();
    entries.forEach(e -> all.add(name.apply(e)));
    all.remove("");
    return List.copyOf(all);
  }

  private static Line line(ArticleEntry e, List<LoggedSignOff> signOffs) {
    List<String> c = new ArrayList<>();
    for (String s : List.of(e.conditions().shift(), e.conditions().operator())) {
      if (!s.isEmpty()) {
        c.add(s);
      }
    }
    if (Double.isFinite(e.conditions().temperatureC())) {
      c.add(ShownNumbers.number(e.conditions().temperatureC(), 1) + " \u00b0C");
    }
    String n = e.notes().strip();
    return new Line(
        e.id(),
        Times.minute(e.measuredAt()),
        e.machine(),
        e.job(),
        String.join(", ", c),
        e.file(),
        n.length() > MOST_NOTE ? n.substring(0, MOST_NOTE - 1) + "\u2026" : n,
        state(e),
        signed(signOffs));
  }

  private static String state(ArticleEntry e) {
    String s = e.corrects() == null ? "" : "corrects " + e.corrects();
    String by = e.correctedBy() == null ? "" : "corrected by " + e.correctedBy();
    return s.isEmpty() || by.isEmpty() ? s + by : s + ", " + by;
  }

  /** Who answers for an article, in a few words. */
  static String signed(List<LoggedSignOff> all) {
    List<LoggedSignOff> holding = all.stream().filter(LoggedSignOff::holds).toList();
    if (holding.isEmpty()) {
      return all.isEmpty() ? "" : "withdrawn";
    }
    LoggedSignOff last = holding.get(holding.size() - 1);
    return last.said().name()
        + ", "
        + last.said().role()
        + (holding.size() > 1 ? " and " + (holding.size() - 1) + " more" : "");
  }
}
