package org.padtrue.imaging.registration;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class EvidenceTest {
  /**
   * A network that sorts all zeros and ones sorts everything (Knuth, TAOCP 3, 5.3.4, theorem Z).
   */
  @Test
  void sortsTenValuesWhateverTheirOrder() {
    for (int bits = 0; bits < 1024; bits++) {
      int[] v = new int[10];
      for (int k = 0; k < v.length; k++) {
        v[k] = bits >> k & 1;
      }
      int[] expected = v.clone();
      Arrays.sort(expected);
      Evidence.sort(v);
      assertArrayEquals(expected, v);
    }
  }
}
