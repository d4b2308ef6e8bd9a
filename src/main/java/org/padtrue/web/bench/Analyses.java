package org.padtrue.web.bench;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.Executor;
import java.util.concurrent.Executors;
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

/**
 * What articles show, reckoned once for every state of an article, however many pages ask. Nobody
 * waits for the analysis of an article that another page asks for.
 */
public final class Analyses {
  private static final int MOST = 64;

  /** As many at a time as the machine has processors; threads that do not hold up its end. */
  private static final Executor WORKERS =
      Executors.newFixedThreadPool(
          Math.max(2, Runtime.getRuntime().availableProcessors()),
          r -> {
            Thread t = new Thread(r, "analysis");
            t.setDaemon(true);
            return t;
          });

  /** One state of an article. */
  private record Known(
      @Nullable FirstArticleResult result, List<String> problems, @Nullable Question asked) {}

  /** One article: the analysis of its newest state that was asked for, and the last fit shown. */
  private static final class Slot {
    private long sequence = -1;
    private @Nullable LoadedJob job;
    private @Nullable CompletableFuture<Known> run;
    private @Nullable CompletableFuture<FitView> fit;
    private @Nullable FitView shown;

    /** The analysis of the article as it stands, begun when it is new. */
    synchronized CompletableFuture<Known> run(BenchArticle a, LoadedJob now) {
      CompletableFuture<Known> r = run;
      long last = a.journal().last();
      if (r == null || sequence != last || job != now) {
        r = CompletableFuture.supplyAsync(() -> analysed(a, now), WORKERS);
        run = r;
        fit = null;
        sequence = last;
        job = now;
      }
      return r;
    }

    /** The newest fit there is; a newer one is begun when none is under way. */
    synchronized FitView fit(BenchArticle a, LoadedJob now) {
      FitView done = newest();
      boolean old = sequence != a.journal().last() || job != now;
      boolean idle = run == null || fit == null || fit.isDone();
      if (old && idle || fit == null) {
        int measured = a.measured().size();
        int planned = a.planned().size();
        fit = run(a, now).thenApplyAsync(k -> Analyses.fit(k, measured, planned), WORKERS);
        return done == null ? FitView.reckoning(measured, planned) : done.asOfEarlier();
      }
      if (old || !fit.isDone()) {
        return done == null
            ? FitView.reckoning(a.measured().size(), a.planned().size())
            : done.asOfEarlier();
      }
      return done == null ? FitView.reckoning(a.measured().size(), a.planned().size()) : done;
    }

    private @Nullable FitView newest() {
      CompletableFuture<FitView> f = fit;
      if (f != null && f.isDone()) {
        shown = got(f);
      }
      return shown;
    }
  }

  private final Map<String, Slot> slots =
      Collections.synchronizedMap(
          new LinkedHashMap<>(MOST, 0.75f, true) {
            private static final long serialVersionUID = 1;

            @Override
            protected boolean removeEldestEntry(Map.Entry<String, Slot> eldest) {
              return size() > MOST;
            }
          });

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
    slots.remove(a.id());
  }

  private Known known(BenchArticle a, LoadedJob job) {
    return got(slot(a).run(a, job));
  }

  private Slot slot(BenchArticle a) {
    return slots.computeIfAbsent(a.id(), id -> new Slot());
  }

  private static <T> T got(CompletableFuture<T> f) {
    try {
      return f.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException r) {
        throw r;
      }
      throw e;
    }
  }

  private static Known analysed(BenchArticle a, LoadedJob job) {
    try {
      Article article = a.article(job);
      Door.require(job.job(), List.of(article), job.asIs());
      return new Known(
          FirstArticleAnalysis.run(job.job(), List.of(article), AnalysisOptions.withDefaults()),
          List.of(),
          null);
    } catch (QuestionException e) {
      return new Known(
          null, JobFolder.plain(List.of(e.question().sentence() + "."), a.folder()), e.question());
    } catch (InputException e) {
      return new Known(null, JobFolder.sentences(e, a.folder()), null);
    }
  }

  /** The result with something tried out; nothing is kept. */
  public FirstArticleResult tried(BenchArticle a, LoadedJob job, WhatIf what) {
    return FirstArticleAnalysis.run(
        what.job(job.job()),
        List.of(what.article(a.article(job))),
        AnalysisOptions.withDefaults().withTurnedOff(what.off()));
  }

  /** The newest fit there is, without waiting; it says whether it knows all that was entered. */
  FitView growing(BenchArticle a, LoadedJob job) {
    return slot(a).fit(a, job);
  }

  private static FitView fit(Known k, int measured, int planned) {
    if (k.asked != null) {
      return FitView.asked(k.problems, measured, planned);
    }
    FirstArticleResult r = k.result;
    return r == null
        ? FitView.without(k.problems, measured, planned)
        : FitView.of(r, r.counts().measured(), planned);
  }
}
