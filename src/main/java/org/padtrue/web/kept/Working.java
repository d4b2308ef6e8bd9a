package org.padtrue.web.kept;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;
import org.padtrue.web.server.Newest;

/**
 * Work that may last longer than a person waits for a page: begun once for what it is of, however
 * many ask; the newest few answers are kept.
 *
 * @param <T> what comes of it
 */
public final class Working<T> {
  private static final int MOST = 16;
  private static final Executor WORKERS = Workers.of("work");

  /** One piece of work. */
  private record Piece<T>(CompletableFuture<T> answer, Instant begun) {}

  private final Map<List<Object>, Piece<T>> pieces = Newest.of(MOST);

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
