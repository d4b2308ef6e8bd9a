package org.padtrue.web.kept;

import java.util.concurrent.Executor;
import java.util.concurrent.Executors;

/**
 * Threads on which pages calculate, one fewer than the machine has processors, so that one stays
 * free for whoever types; they do not hold up the program's end.
 */
public final class Workers {
  private Workers() {}

  /**
   * Threads of one kind of work. Each kind has its own: a plan waits for an analysis, and would
   * wait for ever on the thread that the analysis needs.
   *
   * @param name of the threads
   */
  public static Executor of(String name) {
    return Executors.newFixedThreadPool(
        Math.max(1, Runtime.getRuntime().availableProcessors() - 1),
        r -> {
          Thread t = new Thread(r, name);
          t.setDaemon(true);
          return t;
        });
  }
}
