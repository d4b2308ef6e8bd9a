package org.padtrue.cli;

import java.io.PrintWriter;

/**
 * Says what long work is doing, on standard error, once it has taken two seconds; silent before
 * that and with --quiet.
 */
final class ConsoleProgress {
  private static final long PATIENCE_NS = 2_000_000_000L;
  private static final long BREATH_NS = 500_000_000L;

  private static final long TICK_MS = 10_000;

  private final PrintWriter err;
  private final boolean quiet;
  private final long start = System.nanoTime();
  private long last;
  private String stage = "";
  private boolean ticking;

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

  /** A stage has begun that cannot say how far it is; it is named again every ten seconds. */
  synchronized void stage(String what) {
    stage = what;
    step(what, 1, 1);
    if (!quiet && !ticking) {
      ticking = true;
      Thread t = new Thread(this::tick, "progress");
      t.setDaemon(true);
      t.start();
    }
  }

  /** No stage is under way any more. */
  synchronized void finish() {
    stage = "";
    notifyAll();
  }

  private synchronized void tick() {
    try {
      while (!stage.isEmpty()) {
        wait(TICK_MS);
        if (!stage.isEmpty()) {
          step(stage, 1, 1);
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    ticking = false;
  }
}
