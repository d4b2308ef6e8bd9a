package org.padtrue.imaging.map;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Parts on a board of 80 x 50 mm at 20 px/mm, seen displaced. */
class ConsensusTest {
  private static final double PX_PER_MM = 20;
  private static final double REACH_MM = 0.8;
  private static final double TOLERANCE_MM = 0.15;
  private static final double SHARE = Math.pow(TOLERANCE_MM / REACH_MM, 2);

  /** 66 pairs times the sum over 5 to 10 of C(10, t) q^t (1 - q)^(10 - t), in exact integers. */
  @Test
  void chanceIsTheBinomialTailTimesThePairs() {
    List<MapFit.Pair> seven = displaced(7, 0, 0, new Random(1));
    assertEquals(7.700218296e-4, new Consensus(seven, 12, 2).byChance(SHARE), 1e-12);
  }

  /** Four of four off by the same: four times q^3. */
  @Test
  void aShiftIsFixedByOnePoint() {
    List<MapFit.Pair> same = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      same.add(new MapFit.Pair(10 * i, i * i, 10 * i + 0.12, i * i - 0.07, 1));
    }
    Consensus c = Consensus.ofShift(same, 0.03);
    assertEquals(same, c.agreeing());
    assertEquals(4 * SHARE * SHARE * SHARE, c.byChance(SHARE), 1e-12);
  }

  /** A turn of half a degree, half of the parts seen anywhere within the reach. */
  @Test
  void findsTheMapThatHalfOfThePartsAgreeOn() {
    Random random = new Random(2);
    List<MapFit.Pair> right = displaced(12, 0.02, 0.5, random);
    List<MapFit.Pair> all = new ArrayList<>(right);
    all.addAll(displaced(12, Double.NaN, 0.5, random));
    Consensus c = Consensus.of(all, false, TOLERANCE_MM * PX_PER_MM);
    assertTrue(c.agreeing().containsAll(right), c.toString());
    assertTrue(c.agreeing().size() < 17, c.toString());
    assertTrue(c.byChance(SHARE) < 1e-5, c.toString());
  }

  /** Parts seen anywhere: the probability stated is a bound on how often so many agree. */
  @Test
  void chanceKeepsItsWord() {
    Random random = new Random(3);
    int runs = 2000;
    int below = 0;
    for (int i = 0; i < runs; i++) {
      List<MapFit.Pair> all = displaced(18, Double.NaN, 0, random);
      Consensus c = Consensus.of(all, false, TOLERANCE_MM * PX_PER_MM);
      below += c.byChance(SHARE) < 0.05 ? 1 : 0;
    }
    System.out.printf("by chance below 0.05: %d of %d%n", below, runs);
    assertTrue(below <= 0.05 * runs, below + " of " + runs);
  }

  /** NaN as scatter: anywhere within the reach. */
  private static List<MapFit.Pair> displaced(
      int count, double scatterMm, double turnDeg, Random random) {
    List<MapFit.Pair> out = new ArrayList<>();
    double a = Math.toRadians(turnDeg);
    for (int i = 0; i < count; i++) {
      double x = 80 * random.nextDouble();
      double y = 50 * random.nextDouble();
      double r = REACH_MM * Math.sqrt(random.nextDouble());
      double t = 2 * Math.PI * random.nextDouble();
      boolean any = Double.isNaN(scatterMm);
      double dx = any ? r * Math.cos(t) : scatterMm * random.nextGaussian();
      double dy = any ? r * Math.sin(t) : scatterMm * random.nextGaussian();
      double sx = Math.cos(a) * x - Math.sin(a) * y + dx;
      double sy = Math.sin(a) * x + Math.cos(a) * y + dy;
      out.add(new MapFit.Pair(x, y, PX_PER_MM * sx + 100, 1200 - PX_PER_MM * sy, 1));
    }
    return out;
  }
}
