package org.padtrue.drift.cause;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Regression;

/**
 * Best places of steps beside other columns. One step is found exactly: its gain at every place,
 * the other columns projected out (Frisch and Waugh), costs one pass. More are found from two
 * starts, one added to the best so far and those of {@link Segmentation} with the other columns
 * taken off, each then moved in turn until none moves.
 *
 * <p>Values are in the unit of the series.
 */
public final class StepSearch {
  private static final int PASSES = 6;

  private final double[] y;
  private final double[] sigma;
  private final int min;
  private final int n;

  /**
   * Searches one series.
   *
   * @param y values
   * @param sigma relative standard deviations
   * @param min fewest points of a level
   */
  public StepSearch(double[] y, double[] sigma, int min) {
    this.y = y;
    this.sigma = sigma;
    this.min = min;
    this.n = y.length;
  }

  /** A step and how much it lowers the residual sum of squares; place -1 when none may stand. */
  public record Place(int at, double gain) {}

  /**
   * Places of steps that lower the residual sum of squares most.
   *
   * @param base other columns, the constant among them
   * @param fewer best places of one step fewer
   * @param seed places to start from as well; may be empty
   * @return null when there is no room for as many
   */
  int @Nullable [] best(double[][] base, int[] fewer, int[] seed) {
    List<int[]> starts = new ArrayList<>();
    Place more = add(base, fewer);
    if (more.at >= 0) {
      starts.add(sorted(fewer, more.at));
    }
    if (seed.length == fewer.length + 1) {
      starts.add(seed.clone());
    }
    int[] best = null;
    double least = Double.POSITIVE_INFINITY;
    for (int[] s : starts) {
      int[] moved = fewer.length == 0 && s == starts.get(0) ? s : move(base, s);
      double rss = Regression.fit(SlowPart.with(base, moved, n), y, sigma).rss;
      if (rss < least) {
        least = rss;
        best = moved;
      }
    }
    return best;
  }

  /** The best place of one more step. */
  public Place add(double[][] base, int[] steps) {
    Regression fit = Regression.fit(SlowPart.with(base, steps, n), y, sigma);
    double[] gain = fit.stepGains(sigma);
    Place best = new Place(-1, 0);
    for (int i = min; i <= n - min; i++) {
      if (gain[i] > best.gain && free(i, steps)) {
        best = new Place(i, gain[i]);
      }
    }
    return best;
  }

  private boolean free(int i, int[] steps) {
    for (int s : steps) {
      if (Math.abs(s - i) < min) {
        return false;
      }
    }
    return true;
  }

  private int[] move(double[][] base, int[] start) {
    int[] steps = start.clone();
    for (int pass = 0; pass < PASSES; pass++) {
      boolean moved = false;
      for (int k = 0; k < steps.length; k++) {
        int[] others = without(steps, k);
        Place p = add(base, others);
        if (p.at >= 0 && p.at != steps[k]) {
          steps = sorted(others, p.at);
          moved = true;
        }
      }
      if (!moved) {
        break;
      }
    }
    return steps;
  }

  static int[] without(int[] steps, int k) {
    int[] others = new int[steps.length - 1];
    System.arraycopy(steps, 0, others, 0, k);
    System.arraycopy(steps, k + 1, others, k, others.length - k);
    return others;
  }

  private static int[] sorted(int[] steps, int more) {
    int[] all = Arrays.copyOf(steps, steps.length + 1);
    all[steps.length] = more;
    Arrays.sort(all);
    return all;
  }
}
