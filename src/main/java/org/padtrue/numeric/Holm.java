package org.padtrue.numeric;

import java.util.Comparator;
import java.util.stream.IntStream;

/** Holm's step-down adjustment (1979, Scand. J. Statist. 6, 65): strong family-wise control. */
public final class Holm {
  private Holm() {}

  /** Adjusted p values in the order given; compare each with the family's alpha. */
  public static double[] adjust(double[] p) {
    int[] order =
        IntStream.range(0, p.length)
            .boxed()
            .sorted(Comparator.comparingDouble(i -> p[i]))
            .mapToInt(Integer::intValue)
            .toArray();
    double[] adjusted = new double[p.length];
    double running = 0;
    for (int r = 0; r < order.length; r++) {
      running = Math.max(running, Math.min(1, (p.length - r) * p[order[r]]));
      adjusted[order[r]] = running;
    }
    return adjusted;
  }
}
