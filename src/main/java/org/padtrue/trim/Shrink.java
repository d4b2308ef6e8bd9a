package org.padtrue.trim;

/** How boldly an estimated fixed term is trimmed. */
public final class Shrink {
  private Shrink() {}

  /**
   * Positive-part empirical Bayes factor: a term of {@code df} components whose statistic is {@code
   * t2} (expected {@code df} when there is nothing) keeps the share 1 - df / t2.
   */
  public static double factor(double t2, int df) {
    return t2 > df ? 1 - df / t2 : 0;
  }
}
