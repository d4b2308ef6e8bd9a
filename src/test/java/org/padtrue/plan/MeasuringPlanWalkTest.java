package org.padtrue.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.padtrue.panel.Pose;

class MeasuringPlanWalkTest {

  @Test
  void pointsOnALineAreVisitedFromTheLeft() {
    List<Pose> p = List.of(at(30, 0), at(0, 0), at(20, 0), at(10, 0));
    List<Integer> way = MeasuringPlanWalk.order(p);
    assertThat(way).containsExactly(1, 3, 2, 0);
    assertThat(MeasuringPlanWalk.length(p, way)).isEqualTo(30);
  }

  @Test
  void startsNearestToTheLowerLeftCorner() {
    List<Pose> p = List.of(at(50, 40), at(1, 9), at(6, 6), at(9, 0));
    // Box corner is (1, 0): distances 9 for (1, 9), 7.8 for (6, 6), 8 for (9, 0).
    assertThat(MeasuringPlanWalk.order(p).get(0)).isEqualTo(2);
  }

  @Test
  void nothingAndOnePointAreWalks() {
    assertThat(MeasuringPlanWalk.order(List.of())).isEmpty();
    assertThat(MeasuringPlanWalk.order(List.of(at(3, 4)))).containsExactly(0);
  }

  /** Brute force over all ways of eight points that start where ours does, 50 draws. */
  @Test
  void isOnAverageWithinFivePerCentOfTheShortestWay() {
    Random random = new Random(5);
    double ratios = 0;
    for (int draw = 0; draw < 50; draw++) {
      List<Pose> p = new ArrayList<>();
      for (int i = 0; i < 8; i++) {
        p.add(at(100 * random.nextDouble(), 80 * random.nextDouble()));
      }
      List<Integer> way = MeasuringPlanWalk.order(p);
      assertThat(way).doesNotHaveDuplicates().hasSize(8);
      List<Integer> rest = new ArrayList<>(way.subList(1, 8));
      ratios += MeasuringPlanWalk.length(p, way) / shortest(p, way.get(0), rest, 0);
    }
    assertThat(ratios / 50).isBetween(1.0, 1.05);
  }

  private static double shortest(List<Pose> p, int first, List<Integer> rest, int from) {
    if (from == rest.size()) {
      List<Integer> way = new ArrayList<>(List.of(first));
      way.addAll(rest);
      return MeasuringPlanWalk.length(p, way);
    }
    double best = Double.POSITIVE_INFINITY;
    for (int i = from; i < rest.size(); i++) {
      Collections.swap(rest, from, i);
      best = Math.min(best, shortest(p, first, rest, from + 1));
      Collections.swap(rest, from, i);
    }
    return best;
  }

  private static Pose at(double x, double y) {
    return new Pose(x, y, 0);
  }
}
