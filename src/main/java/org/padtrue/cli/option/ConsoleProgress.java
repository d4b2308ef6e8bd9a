package org.padtrue.cli.option;

import java.io.PrintWriter;

/**
 * Says what long work is doing, on standard error, once it has taken two seconds; silent before
 * that and with --quiet.
 */
public final class ConsoleProgress {
  private static final long PATIENCE_NS = 2_000_000_000L;
  private static final long BREATH_NS = 500_000_000L;

  private static final long TICK_MS = 10_000;
  private static final long BLINK_NS = 100_000_000L;
  private static final int BAR = 40;

  /** A terminal on both ends; a file or a program that reads along gets lines. */
  private final boolean watched = System.console() != null;

  private int drawn;

  private final PrintWriter err;
  private final boolean quiet;
  private final long start = System.nanoTime();
  private long last;
  private String stage = "";
  private boolean ticking;

  public ConsoleProgress(PrintWriter err, boolean quiet) {
    this.err = err;
    this.quiet = quiet;
  }

  /** A step has begun or gone on. */
  public synchronized void step(String what, int done, int total) {
    long now = System.nanoTime();
    if (quiet || now - start < PATIENCE_NS || now - last < BREATH_NS) {
      return;
    }
    last = now;
    err.println(total > 1 ? what + " (" + done + " of " + total + ")" : what);
  }

  /** A stage has begun that cannot say how far it is; it is named again every ten seconds. */
  public synchronized void stage(String what) {
    stage = what;
    step(what, 1, 1);
    if (!quiet && !ticking) {
      ticking = true;
      Thread t = new Thread(this::tick, "progress");
      t.setDaemon(true);
      t.start();
    }
  }

  /**
   * Like {@link #step}, drawn as a bar that grows where a person looks on; {@link #finish} wipes it
   * off.
   */
  public synchronized void bar(String what, int done, int total) {
    stopStage();
    if (!watched) {
      step(what, done, total);
    } else if (!quiet && (done == total || System.nanoTime() - last >= BLINK_NS)) {
      last = System.nanoTime();
      int full = BAR * done / Math.max(1, total);
      String line =
          what + " [" + "=".repeat(full) + " ".repeat(BAR - full) + "] " + done + " of " + total;
      err.print("\r" + line);
      err.flush();
      drawn = line.length();
    }
  }

  /** No stage is under way any more. */
  public synchronized void finish() {
    stopStage();
    if (drawn > 0) {
      err.print("\r" + " ".repeat(drawn) + "\r");
      err.flush();
      drawn = 0;
    }
  }

  private void stopStage() {
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
