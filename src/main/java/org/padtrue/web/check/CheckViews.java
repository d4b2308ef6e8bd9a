package org.padtrue.web.check;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.padtrue.check.TrimCheckFinding;
import org.padtrue.check.TrimCheckResult;
import org.padtrue.check.TrimCheckTerm;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.report.TrimCheckReport;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.words.ResultWords;
import org.padtrue.report.words.TrimCheckWords;
import org.padtrue.web.begin.WhichView;
import org.padtrue.web.bench.BenchArticle;

/** Makes the page of a check. */
final class CheckViews {
  private final BenchArticle article;
  private final String jobName;
  private final String firstName;
  private final WhichView which;

  CheckViews(BenchArticle article, String jobName, String firstName, WhichView which) {
    this.article = article;
    this.jobName = jobName;
    this.firstName = firstName;
    this.which = which;
  }

  /** The page while there is no answer. */
  CheckView without(List<String> problems) {
    return view(problems, "", false, List.of(), List.of(), List.of(), List.of());
  }

  /** The page of an answer. */
  CheckView of(TrimCheckResult r, StoredAnalysis before) {
    List<CheckView.Term> terms =
        r.terms().stream()
            .sorted(
                Comparator.comparing(
                    t -> t.kept() ? t.finding() == TrimCheckFinding.HELD ? 2 : 1 : 0))
            .map(t -> term(t, before))
            .toList();
    String word =
        switch (r.verdict()) {
          case HELD -> "Held";
          case PARTLY -> "Held in part";
          case NOT_HELD -> "Not held";
        };
    boolean good = r.terms().stream().allMatch(TrimCheckTerm::kept);
    return view(
        List.of(),
        r.terms().isEmpty() ? "Nothing was trimmed" : word,
        good,
        TrimCheckWords.lines(r).stream().map(ResultWords::page).toList(),
        terms,
        r.excluded().stream().map(CheckViews::sentence).toList(),
        r.notes().stream().map(CheckViews::sentence).toList());
  }

  private CheckView view(
      List<String> problems,
      String word,
      boolean good,
      List<String> sentences,
      List<CheckView.Term> terms,
      List<String> left,
      List<String> notes) {
    return new CheckView(
        article.id(),
        article.about().name(),
        article.about().job(),
        jobName,
        article.about().after(),
        firstName,
        which,
        problems,
        word,
        good,
        sentences,
        terms,
        left,
        notes,
        ResultWords.page(TrimCheckWords.NUMBERS),
        TrimCheckReport.CAUTION);
  }

  private static CheckView.Term term(TrimCheckTerm t, StoredAnalysis before) {
    String state =
        t.finding() == TrimCheckFinding.HELD
            ? "good"
            : t.finding() == TrimCheckFinding.CANNOT_TELL && t.kept() ? "open" : "bad";
    String frame = frame(t.term(), before);
    return new CheckView.Term(
        TrimCheckWords.term(t),
        TrimCheckWords.finding(t.finding()),
        state,
        ResultWords.page(TrimCheckWords.promised(t)),
        ResultWords.page(TrimCheckWords.seen(t)),
        ResultWords.page(TrimCheckWords.worst(t)),
        frame + " frame",
        t.finding() == TrimCheckFinding.HELD ? "" : sentence(t.sentence()));
  }

  /** The frame in which a trim was decided. */
  private static String frame(String term, StoredAnalysis before) {
    Optional<String> group =
        before.groups().stream()
            .filter(g -> term.equals(g.named().toString()))
            .map(GroupResult::frame)
            .findFirst();
    boolean withParts =
        term.equals(TermFamily.COMMON.key()) || term.equals(TermFamily.ROTATION_ZERO.key());
    return group.orElse(withParts ? "part" : "panel");
  }

  private static String sentence(String s) {
    String t = ResultWords.page(s);
    return t.isEmpty()
        ? t
        : Character.toUpperCase(t.charAt(0)) + t.substring(1) + (t.endsWith(".") ? "" : ".");
  }
}
