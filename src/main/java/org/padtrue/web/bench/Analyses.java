package org.padtrue.web.bench;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
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
import org.padtrue.web.kept.Workers;
import org.padtrue.web.server.Newest;

/**
 * What articles show, reckoned once for every state of an article, however many pages ask. Nobody
 * waits for the analysis of an article that another page asks for.
 */
public final class Analyses {
  private static final int MOST = 64;
  private static final Executor WORKERS = Workers.of("analysis");

  /** One state of an article. */
  private record Known(
      @Nullable FirstArticleResult result, List<String> problems, @Nullable Question asked) {}

  /**
   * One article. At most one analysis is under way; what is entered meanwhile comes with the next
   * one, however many entries and pages there are.
   */
  private static final class Slot {
    private @Nullable Run done;
    private @Nullable Run running;
    private @Nullable Run waiting;

    /** The analysis that knows the article as it stands now. */
    synchronized Run upToDate(BenchArticle a, LoadedJob job) {
      long last = a.journal().last();
      for (Run r : Arrays.asList(done, running, waiting)) {
        if (r != null && r.knows(last, job)) {
          return r;
        }
      }
      Run next = new Run(a, job);
      if (running == null) {
        start(next);
      } else {
        // nobody has begun with the one that waited: whoever waits for it gets the newer one
        if (waiting != null) {
          next.alsoFor(waiting);
        }
        waiting = next;
      }
      return next;
    }

    private void start(Run r) {
      running = r;
      r.begin();
      r.known.whenCompleteAsync((k, e) -> finished(r), WORKERS);
    }

    private synchronized void finished(Run r) {
      done = r;
      running = null;
      Run next = waiting;
      waiting = null;
      if (next != null) {
        start(next);
      }
    }

    synchronized Duration since() {
      Run r = running;
      return r == null ? Duration.ZERO : Duration.between(r.begun, Instant.now());
    }

    /** The newest that is done, whatever was entered since; or null. */
    synchronized @Nullable Run newest() {
      return done;
    }
  }

  /** One analysis, from when it is asked for. */
  private static final class Run {
    private final BenchArticle article;
    private final LoadedJob job;
    private final CompletableFuture<Known> known = new CompletableFuture<>();
    private volatile long sequence = Long.MAX_VALUE;
    private volatile Instant begun = Instant.now();
    private @Nullable CompletableFuture<FitView> fit;

    Run(BenchArticle article, LoadedJob job) {
      this.article = article;
      this.job = job;
    }

    /** What it reads is what stands when it begins: one that has not begun knows all. */
    boolean knows(long last, LoadedJob now) {
      return sequence >= last && job == now;
    }

    void alsoFor(Run older) {
      known.whenComplete(
          (k, e) -> {
            if (e == null) {
              older.known.complete(k);
            } else {
              older.known.completeExceptionally(e);
            }
          });
    }

    void begin() {
      begun = Instant.now();
      WORKERS.execute(
          () -> {
            sequence = article.journal().last();
            try {
              known.complete(analysed(article, job));
            } catch (RuntimeException | Error e) {
              known.completeExceptionally(e);
            }
          });
    }

    /** The fit that the measuring page shows, made when a page first asks. */
    synchronized CompletableFuture<FitView> fit() {
      CompletableFuture<FitView> f = fit;
      if (f == null) {
        f =
            known.thenApplyAsync(
                k -> Analyses.fit(k, article.measured().size(), article.planned().size()), WORKERS);
        fit = f;
      }
      return f;
    }
  }

  private final Map<String, Slot> slots = Newest.of(MOST);

  /** The result as the article stands, or null while there is too little to fit. */
  public @Nullable FirstArticleResult result(BenchArticle a, LoadedJob job) {
    return known(a, job).result;
  }

  /** True when the analysis of the article as it stands is done, or is so after a short while. */
  public boolean soon(BenchArticle a, LoadedJob job, Duration wait) {
    CompletableFuture<Known> f = slot(a).upToDate(a, job).known;
    try {
      f.get(wait.toMillis(), TimeUnit.MILLISECONDS);
      return true;
    } catch (TimeoutException e) {
      return false;
    } catch (ExecutionException e) {
      return true;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  /** How long the analysis of an article has been under way. */
  public Duration running(BenchArticle a) {
    return slot(a).since();
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
    return got(slot(a).upToDate(a, job).known);
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
    Slot s = slot(a);
    Run current = s.upToDate(a, job);
    if (current.fit().isDone()) {
      return got(current.fit());
    }
    Run old = s.newest();
    return old != null && old.fit().isDone() && !old.known.isCompletedExceptionally()
        ? got(old.fit()).asOfEarlier()
        : FitView.reckoning(a.measured().size(), a.planned().size());
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
