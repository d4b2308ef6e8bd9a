package org.padtrue.web;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Random;

/** Invented files of a small board, for the pages. */
final class Boards {
  private static final String[] PARTS = {"R0603", "C0603", "SOT23"};

  private Boards() {}

  /** Placements: 36 parts on 60 mm by 40 mm. */
  static byte[] placements() {
    StringBuilder b = new StringBuilder("Ref,Part,X (mm),Y (mm),Rotation\n");
    for (int k = 0; k < 36; k++) {
      b.append(
          String.format(
              Locale.ROOT,
              "%s,%s,%.2f,%.2f,%d\n",
              ref(k),
              PARTS[k % 3],
              5 + 9.5 * (k % 6),
              4 + 6.2 * (k / 6),
              90 * (k % 4)));
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  static String ref(int k) {
    return "U" + (k + 1);
  }

  /** Measurements: everything 60 um to the right, the third part type 50 um too low as well. */
  static byte[] article(long seed) {
    Random random = new Random(seed);
    StringBuilder b = new StringBuilder("ref,dx (um),dy (um),drotation\n");
    for (int k = 0; k < 36; k++) {
      double turn = Math.toRadians(90 * (k % 4));
      double own = k % 3 == 2 ? -50 : 0;
      b.append(
          String.format(
              Locale.ROOT,
              "%s,%.1f,%.1f,%.2f\n",
              ref(k),
              60 - own * Math.sin(turn) + 8 * random.nextGaussian(),
              own * Math.cos(turn) + 8 * random.nextGaussian(),
              0.05 * random.nextGaussian()));
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }
}
