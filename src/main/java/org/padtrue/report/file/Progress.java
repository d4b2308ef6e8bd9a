package org.padtrue.report.file;

/** Told how far long work has come. May be called from more than one thread, never at once. */
@FunctionalInterface
public interface Progress {
  /** Nobody listens. */
  Progress SILENT = (step, done, total) -> {};

  /**
   * One more piece is done.
   *
   * @param step what is being done, a few words
   * @param done pieces done, 0 to total
   * @param total pieces of this step, at least 1
   */
  void step(String step, int done, int total);
}
