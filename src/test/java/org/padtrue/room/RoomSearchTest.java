package org.padtrue.room;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.Set;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.Tolerance;

/**
 * Planted groups whose smallest moves follow from geometry: a pair that misses its gap by s along a
 * direction, both free, moves by s/2 each; the sum of squares is s^2/2.
 */
class RoomSearchTest {
  /** Moves carry 0.02 um for rounding. */
  private static final double MM = 1e-4;

  private static RoomMove move(RoomResult r, String key) {
    return r.groups().stream()
        .flatMap(g -> g.moves().stream())
        .filter(m -> m.key().equals(key))
        .findFirst()
        .orElseThrow();
  }

  private static void is(RoomResult r, String key, double x, double y) {
    RoomMove m = move(r, key);
    assertThat(m.x()).as(key + " x").isCloseTo(x, within(MM));
    assertThat(m.y()).as(key + " y").isCloseTo(y, within(MM));
  }

  private static RoomGroup only(RoomResult r) {
    assertThat(r.groups()).hasSize(1);
    return r.groups().get(0);
  }

  @Test
  void twoRectanglesShareTheWay() {
    RoomResult r =
        new Blocks()
            .add("A", 2, 1, 0, 0, 0)
            .add("B", 2, 1, 2.04, 0.1, 0)
            .search(Blocks.options(0.1, 0.3));
    assertThat(only(r).solved()).isTrue();
    is(r, "A", -0.03, 0);
    is(r, "B", 0.03, 0);
    RoomPair p = only(r).pairs().get(0);
    assertThat(p.gap()).isCloseTo(0.04, within(1e-9));
    assertThat(p.gapAfter()).isBetween(0.1, 0.1 + MM);
    assertThat(p.touching()).isZero();
    assertThat(p.below()).isOne();
    assertThat(p.belowAfter()).isZero();
  }

  @Test
  void anOverlapIsPartedAcrossItsShortSide() {
    RoomResult r =
        new Blocks()
            .add("A", 2, 1, 0, 0, 0)
            .add("B", 2, 1, 0.5, 0.98, 0)
            .search(Blocks.options(0.1, 0.3));
    is(r, "A", 0, -0.06);
    is(r, "B", 0, 0.06);
    assertThat(only(r).pairs().get(0).touching()).isOne();
  }

  @Test
  void threeInARowMoveTheOuterTwo() {
    RoomResult r =
        new Blocks()
            .add("A", 2, 1, 0, 0, 0)
            .add("B", 2, 1, 2.05, 0, 0)
            .add("C", 2, 1, 4.1, 0, 0)
            .search(Blocks.options(0.1, 0.3));
    assertThat(only(r).moves()).hasSize(2);
    is(r, "A", -0.05, 0);
    is(r, "C", 0.05, 0);
  }

  /** A unit square on its corner, beside an upright one: the gap lies along x. */
  @Test
  void turnedByFortyFiveDegrees() {
    double half = Math.sqrt(0.5);
    RoomResult r =
        new Blocks()
            .add("A", 1, 1, 0, 0, 0)
            .add("B", 1, 1, 0.5 + half + 0.03, 0.2, 45)
            .search(Blocks.options(0.1, 0.3));
    is(r, "A", -0.035, 0);
    is(r, "B", 0.035, 0);
  }

  /** Corner to corner the gap is round: 0.03 and 0.04 apart are 0.05, and the way is along both. */
  @Test
  void cornerToCornerAlongTheLineBetween() {
    RoomResult r =
        new Blocks()
            .add("A", 2, 1, 0, 0, 0)
            .add("B", 2, 1, 2.03, 1.04, 0)
            .search(Blocks.options(0.1, 0.3));
    is(r, "A", -0.025 * 0.6, -0.025 * 0.8);
    is(r, "B", 0.025 * 0.6, 0.025 * 0.8);
  }

  @Test
  void aCapAboveALowPartDoesNotMatter() {
    RoomResult r =
        new Blocks()
            .add("J", new Envelope(4, 4, 0.8, 6), null, 0, 0, 0, 0)
            .add("R", new Envelope(1, 0.5, 0, 0.5), null, 1.5, 0, 0, 0)
            .search(Blocks.options(0.1, 0.3));
    assertThat(r.groups()).isEmpty();
    // but R cannot come down past the cap
    assertThat(r.order()).hasSize(1);
    assertThat(r.order().get(0).first()).isEqualTo("R");
    assertThat(r.order().get(0).then()).isEqualTo("J");
  }

  /** A nozzle of 3 mm about C reaches 1.5 mm; the tall part begins 1.2 mm away. */
  @Test
  void theNozzleOfALowPartWouldTouchATallNeighbour() {
    Blocks b =
        new Blocks()
            .add("C", new Envelope(1, 0.5, 0, 0.5), null, 0, 0, 0, 0)
            .add("J", new Envelope(2, 2, 0, 6), null, 2.2, 0, 0, 0);
    assertThat(b.search(Blocks.options(0.1, 0.3)).order()).isEmpty();
    RoomItem c = b.items().get(0);
    for (double[] of : new double[][] {{3, Double.NaN}, {2.3, Double.NaN}, {3, 1}}) {
      b.items().set(0, with(c, of[0], of[1]));
      RoomResult r = b.search(Blocks.options(0.1, 0.3));
      assertThat(r.order()).hasSize(of[0] > 2.4 ? 1 : 0);
    }
    // the list has it in a good order already
    b.items().set(0, with(c, 3, 1));
    b.items().set(1, with(b.items().get(1), Double.NaN, 2));
    assertThat(b.search(Blocks.options(0.1, 0.3)).order()).isEmpty();
  }

  private static RoomItem with(RoomItem i, double nozzle, double order) {
    return new RoomItem(
        i.id(),
        i.key(),
        i.part(),
        i.nominal(),
        i.pose(),
        i.boardDeg(),
        i.judge(),
        i.spread(),
        nozzle,
        order);
  }

  @Test
  void landsOnOneSideLeaveTheRestToTheOther() {
    Envelope e = new Envelope(2, 1, 0, 1);
    RoomResult r =
        new Blocks()
            .add("A", e, new Tolerance(0.01, 0.5, 5), 0, 0, 0, 0)
            .add("B", e, new Tolerance(0.5, 0.5, 5), 2.05, 0, 0, 0)
            .search(Blocks.options(0.1, 0.3));
    is(r, "A", -0.01, 0);
    is(r, "B", 0.04, 0);
    assertThat(move(r, "A").marginAfter()).isBetween(0.0, MM);
    assertThat(move(r, "B").margin()).isCloseTo(0.5, within(1e-9));
  }

  @Test
  void whatStaysIsNotMovedAndANeighbourInTheWayJoins() {
    Blocks b =
        new Blocks().add("A", 2, 1, 0, 0, 0).add("B", 2, 1, 2.05, 0, 0).add("C", 2, 1, 4.16, 0, 0);
    RoomResult r = b.search(Blocks.options(0.1, 0.3, "A"));
    // B has to move by 0.05 whatever C does, and C gives way by the 0.04 that B takes from it
    is(r, "B", 0.05, 0);
    is(r, "C", 0.04, 0);
    assertThat(only(r).pairs()).hasSize(2);
  }

  @Test
  void noRoomSaysWhatStandsInTheWayAndHowFarItGoes() {
    Envelope e = new Envelope(2, 1, 0, 1);
    Tolerance tight = new Tolerance(0.01, 0.01, 5);
    RoomResult r =
        new Blocks()
            .add("A", e, tight, 0, 0, 0, 0)
            .add("B", e, tight, 2.05, 0, 0, 0)
            .search(Blocks.options(0.1, 0.3));
    RoomGroup g = only(r);
    assertThat(g.solved()).isFalse();
    assertThat(g.pairs().get(0).gapAfter()).isCloseTo(0.07, within(1e-3));
    assertThat(g.sentence()).contains("the lands of A").contains("the lands of B");
    RoomResult tooFar =
        new Blocks()
            .add("A", 2, 1, 0, 0, 0)
            .add("B", 2, 1, 1.5, 0.1, 0)
            .search(Blocks.options(0.1, 0.2));
    assertThat(only(tooFar).solved()).isFalse();
    assertThat(only(tooFar).sentence()).contains("longest move allowed");
    only(tooFar).moves().forEach(m -> assertThat(m.length()).isLessThan(0.2 + MM));
  }

  @Test
  void theMoveIsInTheAxesOfAnUnturnedBoard() {
    RoomResult r =
        new Blocks()
            .add("A", new Envelope(2, 1, 0, 1), null, 0, 0, 180, 180)
            .add("B", new Envelope(2, 1, 0, 1), null, 2.04, 0.1, 180, 180)
            .search(Blocks.options(0.1, 0.3));
    is(r, "A", 0.03, 0);
    is(r, "B", -0.03, 0);
  }

  /** Two copies of one placement cannot be moved from each other. */
  @Test
  void copiesOfOnePlacementCannotPart() {
    Blocks b = new Blocks().add("A", 2, 1, 0, 0, 0);
    RoomItem first = b.items().get(0);
    RoomItem second =
        new RoomItem(
            "2/1/A",
            "A",
            first.part(),
            new org.padtrue.panel.Pose(2.05, 0, 0),
            new org.padtrue.panel.Pose(2.05, 0, 0),
            0,
            first.judge(),
            null,
            Double.NaN,
            Double.NaN);
    RoomResult r = RoomSearch.of(List.of(first, second), b::spread, 0, Blocks.options(0.1, 0.3));
    assertThat(only(r).solved()).isFalse();
    assertThat(only(r).moves()).isEmpty();
    assertThat(only(r).sentence()).contains("copies of A on two boards");
  }

  @Test
  void whatIsNotKnownIsNamed() {
    Blocks b = new Blocks().add("A", 2, 1, 0, 0, 0).add("B", 2, 1, 2.05, 0, 0);
    b.items()
        .add(
            new RoomItem(
                "1/1/U",
                "U",
                org.padtrue.panel.PartType.unknown("NO-SIZE"),
                new org.padtrue.panel.Pose(1, 0, 0),
                new org.padtrue.panel.Pose(1, 0, 0),
                0,
                org.padtrue.land.LandFit.of(
                    org.padtrue.panel.PartType.unknown("NO-SIZE"),
                    org.padtrue.land.AcceptanceLimits.published(),
                    2),
                null,
                Double.NaN,
                Double.NaN));
    RoomResult r = b.search(Blocks.options(0.1, 0.3));
    assertThat(r.withoutOutline()).containsExactly("NO-SIZE");
    assertThat(r.notJudged()).containsExactly("TA", "TB");
  }

  /** Side by side, scatter of both along the gap: the mean gap has to be g + z sqrt(2) sd. */
  @Test
  void scatterAsksForTheQuantileOfTheNormal() {
    double sd = 0.02;
    RoomResult r =
        new Blocks(sd)
            .add("A", 1, 4, 0, 0, 0)
            .add("B", 1, 4, 1.12, 0, 0)
            .search(Blocks.options(0.1, 0.3));
    double z = new NormalDistribution(null, 0, 1).inverseCumulativeProbability(0.99);
    RoomPair p = only(r).pairs().get(0);
    assertThat(only(r).solved()).isTrue();
    assertThat(p.belowAfter()).isBetween(0.0095, 0.01);
    assertThat(p.gapAfter()).isCloseTo(0.1 + z * Math.sqrt(2) * sd, within(3e-4));
  }

  /** The stated chance against drawn placements, corner to corner too. */
  @Test
  void theChanceIsThatOfDrawnPlacements() {
    double sd = 0.03;
    for (double y : new double[] {0.2, 1.03}) {
      Blocks b = new Blocks(sd).add("A", 2, 1, 0, 0, 0).add("B", 2, 1, 2.03, y, 20);
      RoomResult r = b.search(Blocks.options(0.1, 0.5));
      assertThat(only(r).solved()).isTrue();
      RoomMove ma = move(r, "A");
      RoomMove mb = move(r, "B");
      RoomItem a = b.items().get(0);
      RoomItem c = b.items().get(1);
      org.padtrue.land.clearance.OutlinePair pair =
          org.padtrue.land.clearance.OutlinePair.of(a.part(), c.part()).orElseThrow();
      Random random = new Random(20261201);
      int n = 200_000;
      int below = 0;
      for (int k = 0; k < n; k++) {
        double gap =
            pair.gap(
                a.moved(
                    ma.x() + sd * random.nextGaussian(), ma.y() + sd * random.nextGaussian(), 0),
                c.moved(
                    mb.x() + sd * random.nextGaussian(), mb.y() + sd * random.nextGaussian(), 0));
        below += gap < 0.1 ? 1 : 0;
      }
      double said = only(r).pairs().get(0).belowAfter();
      double error = Math.sqrt(said * (1 - said) / n);
      assertThat((double) below / n).isCloseTo(said, within(4 * error + 0.02 * said));
      assertThat(said).isBetween(0.0095, 0.01);
    }
  }

  @Test
  void turnsOnlyWhereAsked() {
    // a long part askew beside an upright one: turning it back costs less than moving it away
    Blocks b = new Blocks().add("A", 1, 4, 0, 0, 0).add("B", 1, 4, 1.25, 0, 4);
    RoomOptions no = Blocks.options(0.2, 0.3);
    assertThat(only(b.search(no)).moves()).allMatch(m -> m.rotation() == 0);
    RoomResult turned = b.search(new RoomOptions(0.2, 0.99, 0.3, Set.of(), Set.of("B")));
    assertThat(only(turned).solved()).isTrue();
    assertThat(move(turned, "B").rotation()).isNegative();
    double straight =
        only(b.search(no)).moves().stream().mapToDouble(m -> m.length() * m.length()).sum();
    double shifted = only(turned).moves().stream().mapToDouble(m -> m.length() * m.length()).sum();
    double reach = Math.hypot(0.5, 2) * Math.toRadians(move(turned, "B").rotation());
    assertThat(shifted + reach * reach).isLessThan(straight);
  }
}
