package org.padtrue.room;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.land.clearance.Clearance;
import org.padtrue.land.clearance.ClearanceItem;

/** Time for a whole panel, as a ratio to finding the pairs alone, in one run. */
class ManyPlacementsTest {
  private static final double PITCH_MM = 3.6;
  private static final double GAP = 0.1;

  private static Blocks panel(int placements, int close) {
    Blocks b = new Blocks();
    Random r = new Random(20261201);
    int side = (int) Math.ceil(Math.sqrt(placements));
    for (int i = 0; i < placements; i++) {
      double x = PITCH_MM * (i % side);
      double y = PITCH_MM * (i / side);
      boolean pair = i % (placements / close) == 1 && i % side > 0;
      // the left neighbour's right side is half a length away; 0.02 to 0.09 mm are left
      double gap = 0.02 + 0.07 * r.nextDouble();
      b.add("R" + i, 2, 1, pair ? x - PITCH_MM + 2 + gap : x, y, 0);
    }
    return b;
  }

  @Test
  void roomTakesLittleMoreThanFindingThePairs() {
    int placements = Study.FULL ? 20_000 : 4_000;
    int close = placements / 40;
    Blocks b = panel(placements, close);
    List<ClearanceItem> items = new ArrayList<>();
    b.items().forEach(i -> items.add(ClearanceItem.nominalOnly(i.id(), i.part(), i.pose())));
    int runs = 5;
    double[] pairs = new double[runs];
    double[] room = new double[runs];
    RoomResult last = null;
    for (int k = 0; k < runs; k++) {
      long t0 = System.nanoTime();
      int found = new Clearance(items, GAP).pairs().size();
      long t1 = System.nanoTime();
      last = b.search(Blocks.options(GAP, 0.3));
      long t2 = System.nanoTime();
      assertThat(found).isGreaterThan(close / 2);
      pairs[k] = t1 - t0;
      room[k] = t2 - t1;
    }
    Arrays.sort(pairs);
    Arrays.sort(room);
    double ratio = room[runs / 2] / pairs[runs / 2];
    System.out.printf(
        "%d placements, %d groups: room takes %.1f times finding the pairs (%.1f to %.1f)%n",
        placements,
        last.groups().size(),
        ratio,
        room[0] / pairs[runs - 1],
        room[runs - 1] / pairs[0]);
    assertThat(last.groups()).hasSizeGreaterThan(close / 2).allMatch(RoomGroup::solved);
    if (Study.FULL) {
      assertThat(ratio).isLessThan(3);
    }
  }
}
