package org.padtrue.cli;

import java.io.PrintWriter;

/**
 * Says what long work is doing, on standard error, once it has taken two seconds; silent before
 * that and with --quiet.
 */
final class ConsoleProgress {
  private static final long PATIENCE_NS = 2_000_000_000L;
  private static final long BREATH_NS = 500_000_000L;

  private final PrintWriter err;
  private final boolean quiet;
  private final long start = System.nanoTime();
  private long last;

  ConsoleProgress(PrintWriter err, boolean quiet) {
    this.err = err;
    this.quiet = quiet;
  }

  /** A step has begun or gone on. */
  synchronized void step(String what, int done, int total) {
    long now = System.nanoTime();
    if (quiet || now - start < PATIENCE_NS || now - last < BREATH_NS) {
      return;
    }
    last = now;
    err.println(total > 1 ? what + " (" + done + " of " + total + ")" : what);
  }
}
