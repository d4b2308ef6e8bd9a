package org.padtrue.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.plan.MeasuringPlan.PlanLine;
import org.padtrue.plan.MeasuringPlan.Term;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.plan.model.MeasuringPlanPower;
import org.padtrue.problem.InputException;

/** What a plan holds in any case, from what size on it finds an offset, and what it leaves open. */
class MeasuringPlanDecidingTest {
  private static final MeasuringPlanOptions DEFAULTS = MeasuringPlanOptions.withDefaults();

  /** Both sides are found by iteration to this. */
  private static final double SIZE_TOL = 1e-6;

  /** R 4: non-central chi-square, {@code src/test/r/plan-power.R}. */
  @ParameterizedTest
  @CsvSource({
    "1, 1, 3.241514987",
    "1, 10, 4.088585334",
    "2, 1, 3.557237136",
    "2, 10, 4.403591792",
    "3, 1, 3.764503593",
    "3, 10, 4.616691556",
    "9, 1, 4.452989827",
    "9, 10, 5.349163356",
    "29, 1, 5.476404833",
    "29, 10, 6.474481295"
  })
  void sizeFoundNineTimesInTenIsThatOfTheNonCentralChiSquare(
      int terms, int families, double expected) {
    assertThat(MeasuringPlanPower.size(terms, families)).isCloseTo(expected, within(SIZE_TOL));
  }

  /**
   * 60 placements a board of ten types, the last once; six boards, four rotations, three nozzles.
   */
  @Test
  void everyLevelThreeTimesOnBoardsAndRotationsOfItsOwn() {
    Job job = MeasuringPlanJobs.threeByTwo();
    for (MeasuringPlan plan :
        List.of(
            MeasuringPlan.of(job, DEFAULTS),
            MeasuringPlan.of(job, DEFAULTS.withWithinMm(0.04)),
            MeasuringPlan.of(job, DEFAULTS.withCount(45)))) {
      Map<String, Set<String>> boards = new HashMap<>();
      Map<String, Set<Double>> rotations = new HashMap<>();
      Map<String, Integer> count = new HashMap<>();
      Map<String, Set<Double>> possible = new HashMap<>();
      job.placements()
          .forEach(
              p ->
                  possible
                      .computeIfAbsent(p.part(), k -> new HashSet<>())
                      .add(p.pose().rotationDeg()));
      for (PlanLine l : plan.lines()) {
        boards.computeIfAbsent(l.part(), k -> new HashSet<>()).add(l.column() + "/" + l.row());
        rotations.computeIfAbsent(l.part(), k -> new HashSet<>()).add(l.rotation());
        count.merge(l.part(), 1, Integer::sum);
      }
      for (int t = 0; t < 10; t++) {
        String part = "TYPE" + t;
        assertThat(count.get(part)).as(part).isGreaterThanOrEqualTo(3);
        assertThat(boards.get(part)).as(part).hasSizeGreaterThanOrEqualTo(3);
        assertThat(rotations.get(part))
            .as(part)
            .hasSizeGreaterThanOrEqualTo(Math.min(3, possible.get(part).size()));
      }
    }
  }

  /** Inductors that scatter 2.5 times as much need more placements to be known as well. */
  @Test
  void aTypeThatScattersMoreIsMeasuredMoreOften() {
    Job job =
        MeasuringPlanJobs.job(
            MeasuringPlanJobs.board(new int[] {30, 30, 30}, 5), BoardArray.single());
    MeasuringPlan alike = MeasuringPlan.of(job, DEFAULTS.withCount(30));
    MeasuringPlan told =
        MeasuringPlan.of(job, DEFAULTS.withCount(30).withScatterMmByType(Map.of("TYPE1", 0.05)));
    assertThat(of(told, "TYPE1")).isGreaterThan(of(alike, "TYPE1"));
    Term inductor = term(told.terms(), "part TYPE1 x");
    assertThat(inductor.matters()).isCloseTo(0.15, within(1e-12));
    assertThat(inductor.everything())
        .isGreaterThan(2 * term(told.terms(), "part TYPE0 x").everything());
    assertThat(told.notes()).anyMatch(s -> s.contains("0.020 mm (TYPE1 0.050 mm)"));
  }

  @Test
  void rotationScatterCountsForRotationsAlone() {
    Job job = MeasuringPlanJobs.threeByTwo();
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS);
    MeasuringPlan rough = MeasuringPlan.of(job, DEFAULTS.withScatterRotationDeg(0.3));
    assertThat(rough.lines()).isEqualTo(plan.lines());
    assertThat(rough.rotationTerms().get(0).standardError())
        .isGreaterThan(1.5 * plan.rotationTerms().get(0).standardError());
    assertThatThrownBy(() -> DEFAULTS.withScatterRotationDeg(0))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "the rotation scatter is 0.0 degrees; give a number greater than 0, in degrees");
  }

  /** A type of one placement, and nozzles that place at one rotation only. */
  @Test
  void whatCannotBeDecidedIsNamedWithWhatWouldDecideIt() {
    List<Placement> placements = new ArrayList<>();
    for (Placement p : MeasuringPlanJobs.board(new int[] {20, 20, 1}, 4)) {
      boolean second = p.part().equals("TYPE1");
      Pose pose = second ? new Pose(p.pose().xMm(), p.pose().yMm(), 90) : p.pose();
      placements.add(
          MeasuringPlanJobs.placement(p.ref(), p.part(), pose, second ? "N2" : "N1", null, null));
    }
    MeasuringPlan plan =
        MeasuringPlan.of(MeasuringPlanJobs.job(placements, BoardArray.single()), DEFAULTS);
    assertThat(plan.undecided())
        .anyMatch(
            s ->
                s.matches(
                    "Part type TYPE2 \\(1 of 1 in the plan\\): less than \\d+ um can go unnoticed;"
                        + " to find 60 um measure it on \\d panels\\."))
        .contains(
            "Whether an offset of nozzle N2 turns with the part or stays with the panel: it places"
                + " at one rotation only; to tell, have it place a part at another rotation.");
  }

  /** With one placement of each, more of them on the same panel would do. */
  @Test
  void whatMoreOnThisPanelWouldDecideIsSaid() {
    Job job =
        MeasuringPlanJobs.job(MeasuringPlanJobs.board(new int[] {30, 30}, 5), BoardArray.single());
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withCount(4));
    assertThat(plan.undecided())
        .anyMatch(s -> s.startsWith("Part types TYPE0 and TYPE1") && s.contains("measure about"));
    assertThat(plan.summary()).anyMatch(s -> s.contains("would be enough (95 %)"));
  }

  private static long of(MeasuringPlan plan, String part) {
    return plan.lines().stream().filter(l -> l.part().equals(part)).count();
  }

  private static Term term(List<Term> terms, String name) {
    return terms.stream().filter(t -> t.name().equals(name)).findFirst().orElseThrow();
  }
}
