package org.padtrue;

import java.util.Arrays;
import java.util.stream.Stream;

/**
 * Size of the studies by simulation: small in every build, large under the profile {@code full}
 * ({@code mvn -q -Pfull verify}, or {@code -Dpadtrue.full=true} for one class).
 *
 * <p>Bounds follow the number of runs: what a study holds in full, and the spread that the smaller
 * number brings beside it. What few runs cannot show is held in full only.
 */
public final class Study {
  /** Whether studies are run in full. */
  public static final boolean FULL = Boolean.getBoolean("padtrue.full");

  private Study() {}

  /**
   * Number of runs of one study.
   *
   * @param name {@code -Dpadtrue.NAME=N} asks for N, whatever the size of the others
   * @param small in every build
   * @param full under the profile
   */
  public static int runs(String name, int small, int full) {
    return Integer.getInteger("padtrue." + name, FULL ? full : small);
  }

  /** Cases of a parameterised test: all in full, otherwise the first few of them. */
  @SafeVarargs
  public static <T> Stream<T> cases(int small, T... all) {
    return Arrays.stream(all).limit(FULL ? all.length : small);
  }

  /** Standard error of a share p of n independent runs. */
  public static double error(double p, double n) {
    return Math.sqrt(p * (1 - p) / n);
  }
}
