package org.padtrue.load.placement;

import java.util.Arrays;

/** Typical extents of many coordinates, from a sample of them: enough for a judgement. */
final class Spread {
  private static final int SAMPLE = 4096;

  private Spread() {}

  /** Every k-th value, sorted; all of them when there are not many. */
  static double[] sorted(double[] values, int count) {
    int step = Math.max(1, count / SAMPLE);
    double[] s = new double[(count + step - 1) / step];
    for (int i = 0; i < s.length; i++) {
      s[i] = values[i * step];
    }
    Arrays.sort(s);
    return s;
  }
}
