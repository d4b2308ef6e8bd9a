package org.padtrue.web.bench;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.padtrue.door.Door;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Question;
import org.padtrue.problem.QuestionException;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.server.ShownNumbers;

/** What articles show, reckoned once for every state of an article, however many pages ask. */
public final class Analyses {
  private static final int MOST = 64;
  private static final int LEAST_FOR_SCREENING = 6;

  /** While there is no fit to judge by: farther off a part is seldom placed (common practice). */
  private static final double FAR_MM = 0.5;

  /** One state of an article; its judgement is reckoned when a page first asks. */
  private static final class Known {
    private final long sequence;
    private final LoadedJob job;
    private final @Nullable FirstArticleResult result;
    private final List<String> problems;
    private final @Nullable Question asked;
    private @Nullable FitView fit;

    Known(
        long sequence,
        LoadedJob job,
        @Nullable FirstArticleResult result,
        List<String> problems,
        @Nullable Question asked) {
      this.sequence = sequence;
      this.job = job;
      this.result = result;
      this.problems = problems;
      this.asked = asked;
    }

    synchronized FitView fit(Supplier<FitView> make) {
      FitView f = fit == null ? make.get() : fit;
      fit = f;
      return f;
    }
  }

  private final Map<String, Known> known = new ConcurrentHashMap<>();

  /** The result as the article stands, or null while there is too little to fit. */
  public @Nullable FirstArticleResult result(BenchArticle a, LoadedJob job) {
    return known(a, job).result;
  }

  /** Why there is no result, one sentence each. */
  public List<String> problems(BenchArticle a, LoadedJob job) {
    return known(a, job).problems;
  }

  /** What the article looks like instead, to be answered before there is a result; or null. */
  public @Nullable Question asked(BenchArticle a, LoadedJob job) {
    return known(a, job).asked;
  }

  /** Reckons an article anew whose file has changed. */
  public void forget(BenchArticle a) {
    known.remove(a.id());
  }

  private Known known(BenchArticle a, LoadedJob job) {
    if (known.size() > MOST) {
      known.clear();
    }
    return known.compute(
        a.id(),
        (id, old) ->
            old != null && old.sequence == a.journal().last() && old.job == job
                ? old
                : analysed(a, job));
  }

  private static Known analysed(BenchArticle a, LoadedJob job) {
    long sequence = a.journal().last();
    try {
      Article article = a.article(job);
      Door.require(job.job(), List.of(article), job.asIs());
      return new Known(
          sequence,
          job,
          FirstArticleAnalysis.run(job.job(), List.of(article), AnalysisOptions.withDefaults()),
          List.of(),
          null);
    } catch (QuestionException e) {
      return new Known(
          sequence,
          job,
          null,
          JobFolder.plain(List.of(e.question().sentence() + "."), a.folder()),
          e.question());
    } catch (InputException e) {
      return new Known(sequence, job, null, JobFolder.sentences(e, a.folder()), null);
    }
  }

  /** The result with something tried out; nothing is kept. */
  public FirstArticleResult tried(BenchArticle a, LoadedJob job, WhatIf what) {
    return FirstArticleAnalysis.run(
        what.job(job.job()),
        List.of(what.article(a.article(job))),
        AnalysisOptions.withDefaults().withTurnedOff(what.off()));
  }

  /** The fit as far as it has come. */
  FitView growing(BenchArticle a, LoadedJob job) {
    Known k = known(a, job);
    int planned = a.planned().size();
    FirstArticleResult r = k.result;
    if (k.asked != null) {
      return FitView.asked(k.problems, a.measured().size(), planned);
    }
    return r == null
        ? FitView.without(k.problems, a.measured().size(), planned)
        : k.fit(() -> FitView.of(r, measured(r), planned));
  }

  private static int measured(FirstArticleResult r) {
    return r.counts().measured();
  }

  /** What is asked about an entry that looks odd beside the others; empty when nothing is. */
  List<String> question(BenchArticle a, LoadedJob job, Entry e) {
    if (e.kind() != Entry.Kind.MEASURED) {
      return List.of();
    }
    FirstArticleResult r = known(a, job).result;
    if (r != null && r.counts().used() >= LEAST_FOR_SCREENING) {
      return r.excluded().stream()
          .filter(x -> e.placement().equals(x.panel() + "/" + x.board() + "/" + x.ref()))
          .map(x -> ResultWords.page(x.sentence()) + ". Is that so? If not, type it again.")
          .toList();
    }
    double size = Math.max(Math.abs(e.dxMm()), Math.abs(e.dyMm()));
    return size > FAR_MM
        ? List.of(
            "That is "
                + ShownNumbers.number(size, 3)
                + " mm off its place: is the decimal point right, and the placement?")
        : List.of();
  }
}
