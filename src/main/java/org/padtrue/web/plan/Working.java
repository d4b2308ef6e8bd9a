package org.padtrue.web.plan;

import java.time.Duration;
import java.time.Instant;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executor;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;

/**
 * Work that may last longer than a person waits for a page: begun once for what it is of, however
 * many ask; the newest few answers are kept.
 *
 * @param <T> what comes of it
 */
public final class Working<T> {
  private static final int MOST = 16;

  private static final Executor WORKERS =
      Executors.newFixedThreadPool(
          Math.max(1, Runtime.getRuntime().availableProcessors() - 1),
          r -> {
            Thread t = new Thread(r, "work");
            t.setDaemon(true);
            return t;
          });

  /** One piece of work. */
  private record Piece<T>(CompletableFuture<T> answer, Instant begun) {}

  private final Map<List<Object>, Piece<T>> pieces =
      Collections.synchronizedMap(
          new LinkedHashMap<>(MOST, 0.75f, true) {
            private static final long serialVersionUID = 1;

            @Override
            protected boolean removeEldestEntry(Map.Entry<List<Object>, Piece<T>> eldest) {
              return size() > MOST;
            }
          });

  /**
   * The answer, when it is there within a time; what the work throws is thrown here.
   *
   * @param of everything that it is made of; equal lists give the same answer
   */
  public Optional<T> within(Duration wait, List<Object> of, Supplier<T> work) {
    Piece<T> p = piece(of, work);
    try {
      return Optional.of(p.answer.get(wait.toMillis(), TimeUnit.MILLISECONDS));
    } catch (TimeoutException e) {
      return Optional.empty();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.empty();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException r) {
        throw r;
      }
      throw new IllegalStateException(e.getCause());
    }
  }

  /** The answer, however long it takes. */
  public T now(List<Object> of, Supplier<T> work) {
    return within(Duration.ofHours(1), of, work).orElseThrow();
  }

  /** How long it has been under way. */
  public Duration since(List<Object> of) {
    Piece<T> p = pieces.get(of);
    return p == null ? Duration.ZERO : Duration.between(p.begun, Instant.now());
  }

  private Piece<T> piece(List<Object> of, Supplier<T> work) {
    return pieces.computeIfAbsent(
        of, k -> new Piece<>(CompletableFuture.supplyAsync(work, WORKERS), Instant.now()));
  }
}
