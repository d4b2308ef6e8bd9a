package org.padtrue.load.placement;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Counts refs, for files with a million of them: no boxes, no entries. */
public final class RefCounts {
  private @Nullable String[] refs = new String[64];
  private int[] counts = new int[64];
  // compared first: a look at the text itself is a look at far memory
  private int[] hashes = new int[64];
  private int distinct;
  private int most;

  /** Counts a ref; returns how often it has been seen, this time included. */
  public int add(String ref) {
    int at = slot(ref);
    if (refs[at] == null) {
      refs[at] = ref;
      hashes[at] = ref.hashCode();
      if (++distinct > refs.length / 2) {
        grow();
        at = slot(ref);
      }
    }
    most = Math.max(most, ++counts[at]);
    return counts[at];
  }

  /** Where a ref is, or where it would go. */
  private int slot(String ref) {
    int mask = refs.length - 1;
    // Fibonacci hashing: the high bits of the product are the well-mixed ones
    int hash = ref.hashCode();
    int at = place(hash, mask);
    for (String s = refs[at]; s != null && !(hashes[at] == hash && s.equals(ref)); s = refs[at]) {
      at = (at + 1) & mask;
    }
    return at;
  }

  private static int place(int hash, int mask) {
    return (hash * 0x9E3779B9) >>> Integer.numberOfLeadingZeros(mask);
  }

  private void grow() {
    @Nullable String[] oldRefs = refs;
    int[] oldCounts = counts;
    int[] oldHashes = hashes;
    refs = Arrays.copyOf(new String[0], 2 * oldRefs.length);
    counts = new int[refs.length];
    hashes = new int[refs.length];
    int mask = refs.length - 1;
    for (int i = 0; i < oldRefs.length; i++) {
      String s = oldRefs[i];
      if (s != null) {
        int at = place(oldHashes[i], mask);
        while (refs[at] != null) {
          at = (at + 1) & mask;
        }
        refs[at] = s;
        hashes[at] = oldHashes[i];
        counts[at] = oldCounts[i];
      }
    }
  }

  /**
   * How often nearly every ref was seen.
   *
   * @return that number when at least two refs and four in five share it, else 1
   */
  public int timesEveryRef() {
    int[] histogram = new int[most + 1];
    for (int c : counts) {
      histogram[c]++;
    }
    for (int n = 2; n <= most; n++) {
      // one ref twice is a slip; marks of the panel, there once, may be among the refs
      if (histogram[n] > 1 && histogram[n] >= 0.8 * distinct) {
        return n;
      }
    }
    return 1;
  }

  /** True when some ref was seen more than once. */
  boolean repeated() {
    return most > 1;
  }
}
