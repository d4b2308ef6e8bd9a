package org.padtrue.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.junit.jupiter.api.Test;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Stage;
import org.padtrue.plan.MeasuringPlan.Basis;
import org.padtrue.plan.MeasuringPlan.PlanAlias;
import org.padtrue.plan.MeasuringPlan.PlanLine;
import org.padtrue.plan.MeasuringPlan.Term;
import org.padtrue.plan.model.MeasuringPlanCandidate;
import org.padtrue.plan.model.MeasuringPlanFrame;
import org.padtrue.plan.model.MeasuringPlanModel;
import org.padtrue.plan.model.MeasuringPlanNullSpace;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.plan.model.MeasuringPlanScatter;
import org.padtrue.plan.model.MeasuringPlanSpread;
import org.padtrue.plan.model.MeasuringPlanTerm;
import org.padtrue.plan.model.MeasuringPlanTerms;
import org.padtrue.problem.InputException;

class MeasuringPlanTest {
  private static final MeasuringPlanOptions DEFAULTS = MeasuringPlanOptions.withDefaults();

  /** Claimed gain over random choice in the mean square left open; see the test. */
  private static final double FACTOR = 1.25;

  private static final MeasuringPlanScatter SCATTER = new MeasuringPlanScatter(0.02, Map.of());

  /** The plan's arithmetic against a dense solver: rounding of a matrix of condition 1e7. */
  private static final double RELATIVE_TOL = 1e-6;

  /**
   * The stated claim: on a 3 x 2 panel with 60 placements a board and 10 types a plan of 20 to 60
   * placements leaves less mean square open than the median of 200 random choices of equal size, by
   * a factor of 1.25 or more (1.4 to 1.7 when this was written), and less than the best of them.
   * (The factor must fall to 1 as the size nears all 360.) Both sides are computed here by {@link
   * DenseModel}, not by the planner.
   */
  @Test
  void beatsRandomChoiceOfEqualSize() {
    Job job = MeasuringPlanJobs.threeByTwo();
    DenseModel dense = new DenseModel(job);
    Random random = new Random(20);
    for (int n : new int[] {20, 30, 40, 60}) {
      MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withCount(n));
      double ours = dense.meanSquare(dense.indices(plan));
      double[] others = new double[200];
      for (int k = 0; k < others.length; k++) {
        others[k] = dense.meanSquare(dense.random(n, random));
      }
      Arrays.sort(others);
      double median = (others[99] + others[100]) / 2;
      assertThat(median / ours).as("gain at %d placements", n).isGreaterThan(FACTOR);
      assertThat(others[0]).as("best of 200 at %d placements", n).isGreaterThan(ours);
    }
  }

  /** The search is heuristic: it is held against exchange from 20 random starts. */
  @Test
  void isWithinTwoPerCentOfTheBestOfTwentyRandomStarts() {
    Job job = MeasuringPlanJobs.threeByTwo();
    List<MeasuringPlanCandidate> all = MeasuringPlanCandidate.of(job);
    MeasuringPlanModel m =
        MeasuringPlanModel.position(
            all,
            MeasuringPlanFrame.of(all),
            Reference.FIDUCIALS,
            DEFAULTS,
            SCATTER,
            MeasuringPlanSpread.USUAL);
    double[][] weight = m.gram();
    MeasuringPlanGain.Worth worth = MeasuringPlanGain.Worth.of(m, weight);
    Random random = new Random(6);
    for (int n : new int[] {25, 50}) {
      double best = Double.POSITIVE_INFINITY;
      for (int k = 0; k < 20; k++) {
        MeasuringPlanDesign d = new MeasuringPlanDesign(m, List.of(), weight);
        while (d.chosen().length < n) {
          int i = random.nextInt(all.size());
          if (!d.contains(i)) {
            d.add(i);
          }
        }
        d = MeasuringPlanExchange.improve(d, all.size(), MeasuringPlanCriterion.MEAN, new BitSet());
        best = Math.min(best, d.meanSquare());
      }
      MeasuringPlanGain gain = new MeasuringPlanGain(m, weight, worth, List.of());
      assertThat(gain.best(n).meanSquare()).isLessThan(1.02 * best);
    }
  }

  /** Second route: the standard errors printed are those of a dense solver on the plan's lines. */
  @Test
  void standardErrorsAreThoseOfADenseSolver() {
    Job job = MeasuringPlanJobs.threeByTwo();
    DenseModel dense = new DenseModel(job);
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withCount(40));
    assertThat(plan.terms()).hasSameSizeAs(dense.names());
    double[] expected = dense.standardErrors(dense.indices(plan));
    double worst = 0;
    for (int j = 0; j < expected.length; j++) {
      Term t = plan.terms().get(j);
      assertThat(t.name()).isEqualTo(dense.names().get(j));
      assertThat(t.standardError() / expected[j]).as(t.name()).isCloseTo(1, within(RELATIVE_TOL));
      worst = Math.max(worst, t.standardError());
    }
    assertThat(plan.worstMm()).isEqualTo(worst);
  }

  @Test
  void sameInputGivesTheSamePlan() {
    Job job = MeasuringPlanJobs.threeByTwo();
    assertThat(MeasuringPlan.of(job, DEFAULTS.withCount(25)))
        .isEqualTo(MeasuringPlan.of(job, DEFAULTS.withCount(25)));
  }

  @Test
  void linesAreDistinctPlacementsInWalkingOrderWithPanelPoses() {
    Job job = MeasuringPlanJobs.threeByTwo();
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withCount(30));
    assertThat(plan.basis()).isEqualTo(Basis.COUNT);
    assertThat(plan.lines()).hasSize(30);
    Set<String> seen = new HashSet<>();
    double walk = 0;
    for (int i = 0; i < 30; i++) {
      PlanLine l = plan.lines().get(i);
      assertThat(l.order()).isEqualTo(i + 1);
      assertThat(seen.add(l.column() + "/" + l.row() + "/" + l.ref())).isTrue();
      Placement p =
          job.placements().stream().filter(q -> q.ref().equals(l.ref())).findFirst().orElseThrow();
      assertThat(l.part()).isEqualTo(p.part());
      assertThat(l.x()).isEqualTo(p.pose().xMm() + 52 * (l.column() - 1));
      assertThat(l.y()).isEqualTo(p.pose().yMm() + 42 * (l.row() - 1));
      assertThat(l.rotation()).isEqualTo(p.pose().rotationDeg());
      if (i > 0) {
        PlanLine q = plan.lines().get(i - 1);
        walk += Math.hypot(l.x() - q.x(), l.y() - q.y());
      }
    }
    assertThat(plan.walkMm()).isCloseTo(walk, within(1e-9));
  }

  @Test
  void smallestNumberFoundReachesTheWantedUncertaintyAndOneLessDoesNot() {
    Job job = MeasuringPlanJobs.threeByTwo();
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withWithinMm(0.03));
    assertThat(plan.basis()).isEqualTo(Basis.WITHIN);
    assertThat(plan.worstMm()).isLessThanOrEqualTo(0.03);
    assertThat(plan.terms()).allMatch(t -> t.standardError() <= 0.03);
    int n = plan.lines().size();
    assertThat(MeasuringPlan.of(job, DEFAULTS.withCount(n - 1)).worstMm()).isGreaterThan(0.03);
    assertThat(plan.summary())
        .contains("Wanted were 0.030 mm: this is the smallest number found that reaches it.");
  }

  @Test
  void saysWhyAWantedUncertaintyCannotBeReached() {
    Job job = MeasuringPlanJobs.threeByTwo();
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withWithinMm(0.01));
    assertThat(plan.basis()).isEqualTo(Basis.WITHIN_NOT_REACHABLE);
    Term squareness = term(plan, "squareness");
    assertThat(squareness.everything()).isGreaterThan(0.01);
    assertThat(plan.summary())
        .contains(
            "Wanted were 0.010 mm, which cannot be reached: with every placement measured"
                + " squareness would still stand at 0.013 mm, because rotation, scale and"
                + " squareness are told from array steps only by what differs within one board."
                + " Measure more panels, or accept more.");
  }

  @Test
  void namesTheTypeThatIsTooRareToBeKnown() {
    List<Placement> placements = MeasuringPlanJobs.board(new int[] {40, 40, 1}, 4);
    Job job = MeasuringPlanJobs.job(placements, BoardArray.single());
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withWithinMm(0.012));
    assertThat(plan.basis()).isEqualTo(Basis.WITHIN_NOT_REACHABLE);
    assertThat(plan.summary())
        .anyMatch(
            s ->
                s.contains("part TYPE2 x would still stand at 0.019 mm")
                    && s.contains("only 1 of the panel's placements show it"));
  }

  /** The default number: every type and nozzle at least three times, and what it says is kept. */
  @Test
  void theDefaultIsEnoughToDecideBy() {
    Job job = MeasuringPlanJobs.threeByTwo();
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS);
    int n = plan.lines().size();
    assertThat(plan.basis()).isEqualTo(Basis.ENOUGH);
    assertThat(n).isEqualTo(plan.enough()).isLessThan(plan.candidates());
    assertThat(plan.keeps()).isGreaterThanOrEqualTo(0.95);
    assertThat(plan.curve().get(n - 1).keeps()).isGreaterThanOrEqualTo(0.95);
    assertThat(plan.curve().get(n - 2).keeps()).isLessThan(0.95);
    assertThat(plan.terms()).allMatch(t -> t.chosen() >= Math.min(3, t.available()));
    assertThat(plan.summary())
        .contains(
            "That is enough to decide by: trims decided from these take out at least 95 % of the"
                + " systematic deviation (mean square, next panel) that trims decided from all 360"
                + " would take out, on 19 panels of 20.");
  }

  @Test
  void curveNeverRisesAndIsUnknownWhileTooFewAreMeasured() {
    MeasuringPlan plan = MeasuringPlan.of(MeasuringPlanJobs.threeByTwo(), DEFAULTS.withCount(60));
    assertThat(plan.curve()).hasSize(90);
    assertThat(plan.curve().get(0).worstMm()).isNaN();
    double before = Double.POSITIVE_INFINITY;
    for (int i = 1; i < 90; i++) {
      assertThat(plan.curve().get(i).keeps()).isGreaterThan(plan.curve().get(i - 1).keeps());
    }
    for (MeasuringPlan.CurvePoint p : plan.curve()) {
      if (!Double.isNaN(p.worstMm())) {
        assertThat(p.worstMm()).isLessThanOrEqualTo(before * (1 + 1e-9));
        before = p.worstMm();
      }
    }
  }

  @Test
  void tooFewIsSaidNotPrintedAsANumber() {
    MeasuringPlan plan = MeasuringPlan.of(MeasuringPlanJobs.threeByTwo(), DEFAULTS.withCount(3));
    assertThat(plan.worstMm()).isNaN();
    assertThat(plan.summary()).anyMatch(s -> s.startsWith("That is too few: nothing is known of"));
    assertThat(plan.notes()).anyMatch(s -> s.startsWith("Not measured at all"));
  }

  @Test
  void askingForMoreThanThereAreTakesAll() {
    List<Placement> placements = MeasuringPlanJobs.board(new int[] {5, 4}, 4);
    Job job = MeasuringPlanJobs.job(placements, BoardArray.single());
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withCount(50));
    assertThat(plan.lines()).hasSize(9);
    assertThat(plan.notes())
        .contains("Asked for 50 placements, but the panel has 9: all of them are in the plan.");
  }

  @Test
  void oneNozzleForOneTypeIsAnAliasOneNozzleForAllIsNot() {
    List<Placement> tied = new ArrayList<>();
    List<Placement> shared = new ArrayList<>();
    for (Placement p : MeasuringPlanJobs.board(new int[] {8, 8, 8}, 9)) {
      String nozzle = p.part().equals("TYPE2") ? "N2" : "N1";
      tied.add(MeasuringPlanJobs.placement(p.ref(), p.part(), p.pose(), nozzle, null, null));
      shared.add(MeasuringPlanJobs.placement(p.ref(), p.part(), p.pose(), "N1", null, null));
    }
    MeasuringPlan plan =
        MeasuringPlan.of(MeasuringPlanJobs.job(tied, BoardArray.single()), DEFAULTS);
    assertThat(plan.aliases())
        .extracting(PlanAlias::terms)
        .containsExactlyInAnyOrder(
            List.of("part TYPE2 x", "nozzle N2 x"), List.of("part TYPE2 y", "nozzle N2 y"));
    assertThat(plan.aliases().get(0).sentence())
        .isEqualTo(
            "Part type TYPE2 and nozzle N2 cannot be told apart on this panel, as they always go"
                + " together: one trim is enough, given to part type TYPE2. To tell them apart,"
                + " place some TYPE2 with another nozzle than N2.");
    assertThat(names(plan)).contains("part TYPE2 x").doesNotContain("nozzle N2 x");
    assertThat(
            MeasuringPlan.of(MeasuringPlanJobs.job(shared, BoardArray.single()), DEFAULTS)
                .aliases())
        .isEmpty();
  }

  @Test
  void everyFeederOfOneTypeIsNamedWithItsType() {
    List<Placement> placements = new ArrayList<>();
    for (Placement p : MeasuringPlanJobs.board(new int[] {6, 6, 6}, 9)) {
      String feeder = "F" + p.part();
      placements.add(MeasuringPlanJobs.placement(p.ref(), p.part(), p.pose(), null, feeder, null));
    }
    MeasuringPlan plan =
        MeasuringPlan.of(MeasuringPlanJobs.job(placements, BoardArray.single()), DEFAULTS);
    assertThat(plan.aliases()).hasSize(6);
    assertThat(plan.aliases())
        .extracting(PlanAlias::terms)
        .contains(
            List.of("part TYPE0 x", "feeder FTYPE0 x"),
            List.of("part TYPE1 x", "feeder FTYPE1 x"),
            List.of("part TYPE2 y", "feeder FTYPE2 y"));
  }

  @Test
  void oneRotationForAllMakesCommonAndShiftOne() {
    List<Placement> placements = new ArrayList<>();
    for (Placement p : MeasuringPlanJobs.board(new int[] {9, 9}, 9)) {
      Pose pose = new Pose(p.pose().xMm(), p.pose().yMm(), 90);
      placements.add(MeasuringPlanJobs.placement(p.ref(), p.part(), pose, null, null, null));
    }
    MeasuringPlan plan =
        MeasuringPlan.of(MeasuringPlanJobs.job(placements, BoardArray.single()), DEFAULTS);
    // At 90 degrees the part's x is the panel's y.
    assertThat(plan.aliases())
        .extracting(PlanAlias::terms)
        .containsExactlyInAnyOrder(List.of("shift y", "common x"), List.of("shift x", "common y"));
    assertThat(names(plan)).contains("shift x", "part TYPE0 x").doesNotContain("common x");
  }

  @Test
  void aSingleRowOfPartsCannotShowScaleAcrossIt() {
    List<Placement> placements = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      placements.add(
          MeasuringPlanJobs.placement(
              "R" + i, "R0603", new Pose(4 * i, 10, 90 * (i % 4)), null, null, null));
    }
    MeasuringPlan plan =
        MeasuringPlan.of(MeasuringPlanJobs.job(placements, BoardArray.single()), DEFAULTS);
    assertThat(plan.aliases())
        .extracting(PlanAlias::sentence)
        .containsExactlyInAnyOrder(
            "Scale y cannot be seen: no two placements of this panel differ in y; measure a panel"
                + " where they do.",
            "Squareness cannot be seen: no two placements of this panel differ in y; measure a"
                + " panel where they do.");
  }

  /** One placement a board: an array step and a scale do the same thing. */
  @Test
  void onePlacementABoardTiesScaleToTheArray() {
    List<Placement> placements =
        List.of(MeasuringPlanJobs.placement("U1", "QFN", new Pose(5, 5, 0), null, null, null));
    MeasuringPlan plan =
        MeasuringPlan.of(
            MeasuringPlanJobs.job(placements, MeasuringPlanJobs.array(3, 2)), DEFAULTS);
    assertThat(plan.aliases())
        .extracting(PlanAlias::terms)
        .contains(List.of("scale x", "array step x per column"));
    assertThat(names(plan)).contains("scale x").doesNotContain("array step x per column");
  }

  @Test
  void measuredByTheMachineScaleAndArrayAreLeftOut() {
    Job job =
        MeasuringPlanJobs.job(
            MeasuringPlanJobs.board(MeasuringPlanJobs.TEN_TYPES, 11),
            MeasuringPlanJobs.array(3, 2),
            MeasuringPlanJobs.by(Reference.MACHINE));
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withCount(30));
    assertThat(names(plan))
        .contains("shift x", "rotation")
        .doesNotContain("scale x", "squareness", "array step x per column");
    assertThat(plan.notes())
        .contains(
            "Measured by the machine's own axes: scale, squareness and array error cancel and are"
                + " left out of the plan.");
  }

  @Test
  void anEmptyJobIsAnInputProblem() {
    Job job = MeasuringPlanJobs.job(List.of(), BoardArray.single());
    assertThatThrownBy(() -> MeasuringPlan.of(job, DEFAULTS))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "job 'test' has no placement that can be measured; give a placement file with at least"
                + " one row of the placed side");
  }

  @Test
  void optionsOutOfRangeAreInputProblems() {
    assertThatThrownBy(() -> DEFAULTS.withCount(0))
        .isInstanceOf(InputException.class)
        .hasMessage("the number of placements to measure is 0; give a whole number of 1 or more");
    assertThatThrownBy(() -> DEFAULTS.withWithinMm(-0.01))
        .isInstanceOf(InputException.class)
        .hasMessage("the wanted uncertainty is -0.01 mm; give a number greater than 0, in mm");
    assertThatThrownBy(() -> DEFAULTS.withScatterMm(Double.NaN)).isInstanceOf(InputException.class);
  }

  @Test
  void afterReflowPartsThatCentreThemselvesAreNoCandidates() {
    List<Placement> placements = MeasuringPlanJobs.board(new int[] {10, 10}, 9);
    Job job = MeasuringPlanJobs.reflowed(placements, "TYPE0");
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withCount(20));
    assertThat(job.stage()).isEqualTo(Stage.REFLOWED);
    assertThat(plan.lines()).hasSize(10).allMatch(l -> l.part().equals("TYPE1"));
  }

  /** Many alike are thinned to the outermost, and the plan says so. */
  @Test
  void thinningKeepsTheOutermostOfEachCell() {
    List<Placement> placements = MeasuringPlanJobs.board(new int[] {900, 300}, 2);
    Job job = MeasuringPlanJobs.job(placements, MeasuringPlanJobs.array(3, 2));
    List<MeasuringPlanCandidate> all = MeasuringPlanCandidate.of(job);
    List<Integer> kept = MeasuringPlanThinning.of(all, 400);
    assertThat(kept).isSorted().doesNotHaveDuplicates().hasSizeBetween(200, 400);
    double right = all.stream().mapToDouble(c -> c.pose().xMm()).max().orElseThrow();
    assertThat(kept.stream().mapToDouble(i -> all.get(i).pose().xMm()).max().orElseThrow())
        .isEqualTo(right);
    MeasuringPlan plan = MeasuringPlan.of(job, DEFAULTS.withCount(20));
    assertThat(plan.candidates()).isEqualTo(7200);
    assertThat(plan.searched()).isLessThanOrEqualTo(2000);
    assertThat(plan.notes()).anyMatch(s -> s.startsWith("Of 7200 placements the search looked at"));
  }

  /** Hundreds of rank-two updates drift by rounding only. */
  @Test
  void updatesStayTrueToTheMatrix() {
    Job job = MeasuringPlanJobs.threeByTwo();
    MeasuringPlanModel m = model(MeasuringPlanCandidate.of(job));
    List<MeasuringPlanTerm> terms = MeasuringPlanTerms.of(m, MeasuringPlanNullSpace.of(m));
    MeasuringPlanDesign d = new MeasuringPlanDesign(m, terms);
    Random random = new Random(1);
    for (int i = 0; i < 60; i++) {
      d.add(i * 6);
    }
    for (int k = 0; k < 300; k++) {
      int out = d.chosen()[random.nextInt(60)];
      d.remove(out);
      int in = random.nextInt(360);
      while (d.contains(in)) {
        in = random.nextInt(360);
      }
      d.add(in);
    }
    assertThat(d.drift()).isLessThan(1e-6);
  }

  private static MeasuringPlanModel model(List<MeasuringPlanCandidate> all) {
    return MeasuringPlanModel.position(
        all,
        MeasuringPlanFrame.of(all),
        Reference.FIDUCIALS,
        DEFAULTS,
        SCATTER,
        MeasuringPlanSpread.NONE);
  }

  private static Term term(MeasuringPlan plan, String name) {
    return plan.terms().stream().filter(t -> t.name().equals(name)).findFirst().orElseThrow();
  }

  private static List<String> names(MeasuringPlan plan) {
    return plan.terms().stream().map(Term::name).toList();
  }

  /**
   * The design's model written down a second time, densely: Bayesian information X'X/s^2 + 1/tau^2,
   * solved by a library. Ten types, three nozzles, no feeder or head; trims as the class comment of
   * MeasuringPlanTerms has them, by hand.
   */
  private static final class DenseModel {
    private static final int LINEAR = 10;
    private final List<Pose> poses = new ArrayList<>();
    private final List<String> ids = new ArrayList<>();
    private final List<double[][]> rows = new ArrayList<>();
    private final List<String> names = new ArrayList<>();
    private final List<double[]> forms = new ArrayList<>();
    private final int columns = LINEAR + 2 + 20 + 6;

    DenseModel(Job job) {
      job.array()
          .boards()
          .forEach(
              b ->
                  job.placements()
                      .forEach(
                          p -> {
                            poses.add(p.pose().seenFrom(b.origin()));
                            ids.add(b.index() + "/" + p.ref());
                          }));
      double mx = poses.stream().mapToDouble(Pose::xMm).average().orElseThrow();
      double my = poses.stream().mapToDouble(Pose::yMm).average().orElseThrow();
      double w =
          poses.stream().mapToDouble(Pose::xMm).max().orElseThrow()
              - poses.stream().mapToDouble(Pose::xMm).min().orElseThrow();
      double h =
          poses.stream().mapToDouble(Pose::yMm).max().orElseThrow()
              - poses.stream().mapToDouble(Pose::yMm).min().orElseThrow();
      double arm = Math.sqrt(w * w + h * h) / 2;
      int i = 0;
      for (var b : job.array().boards()) {
        for (Placement p : job.placements()) {
          Pose q = poses.get(i++);
          double x = (q.xMm() - mx) / arm;
          double y = (q.yMm() - my) / arm;
          double t = Math.toRadians(q.rotationDeg());
          double[][] r = new double[2][columns];
          r[0][0] = 1;
          r[1][1] = 1;
          r[0][2] = -y;
          r[1][2] = x;
          r[0][3] = x;
          r[1][4] = y;
          r[0][5] = -y;
          r[0][6] = b.index().column() - 2;
          r[1][7] = b.index().column() - 2;
          r[0][8] = b.index().row() - 1.5;
          r[1][9] = b.index().row() - 1.5;
          int type = Integer.parseInt(p.part().substring(4));
          int nozzle =
              Integer.parseInt(String.valueOf(p.levels().get(Factor.NOZZLE)).substring(1)) - 1;
          for (int at : new int[] {LINEAR, LINEAR + 2 + 2 * type, LINEAR + 22 + 2 * nozzle}) {
            r[0][at] = Math.cos(t);
            r[0][at + 1] = -Math.sin(t);
            r[1][at] = Math.sin(t);
            r[1][at + 1] = Math.cos(t);
          }
          rows.add(r);
        }
      }
      List<String> linear =
          List.of(
              "shift x",
              "shift y",
              "rotation",
              "scale x",
              "scale y",
              "squareness",
              "array step x per column",
              "array step y per column",
              "array step x per row",
              "array step y per row");
      for (int j = 0; j < LINEAR; j++) {
        form(linear.get(j))[j] = 1;
      }
      for (int axis = 0; axis < 2; axis++) {
        double[] f = form("common " + "xy".charAt(axis));
        f[LINEAR + axis] = 1;
        levels(f, LINEAR + 2, 10, axis, 0.1);
        levels(f, LINEAR + 22, 3, axis, 1.0 / 3);
      }
      for (int k = 0; k < 10; k++) {
        for (int axis = 0; axis < 2; axis++) {
          double[] f = form("part TYPE" + k + " " + "xy".charAt(axis));
          f[LINEAR + axis] = 1;
          f[LINEAR + 2 + 2 * k + axis] = 1;
          levels(f, LINEAR + 22, 3, axis, 1.0 / 3);
        }
      }
      for (int k = 0; k < 3; k++) {
        for (int axis = 0; axis < 2; axis++) {
          double[] f = form("nozzle N" + (k + 1) + " " + "xy".charAt(axis));
          levels(f, LINEAR + 22, 3, axis, -1.0 / 3);
          f[LINEAR + 22 + 2 * k + axis] += 1;
        }
      }
    }

    private double[] form(String name) {
      names.add(name);
      forms.add(new double[columns]);
      return forms.get(forms.size() - 1);
    }

    private static void levels(double[] f, int from, int n, int axis, double weight) {
      for (int k = 0; k < n; k++) {
        f[from + 2 * k + axis] += weight;
      }
    }

    List<String> names() {
      return names;
    }

    List<Integer> indices(MeasuringPlan plan) {
      return plan.lines().stream()
          .map(l -> ids.indexOf(l.column() + "/" + l.row() + "/" + l.ref()))
          .toList();
    }

    List<Integer> random(int n, Random random) {
      List<Integer> all = new ArrayList<>();
      for (int i = 0; i < ids.size(); i++) {
        all.add(i);
      }
      Collections.shuffle(all, random);
      return all.subList(0, n);
    }

    /** Variance of the systematic deviation, x and y together, averaged over all placements. */
    double meanSquare(List<Integer> chosen) {
      double[] sd = new double[columns];
      for (int j = 0; j < columns; j++) {
        sd[j] = j < 2 ? 0.03 : j < LINEAR + 2 ? 0.01 : j < LINEAR + 22 ? 0.04 : 0.02;
      }
      RealMatrix c =
          new CholeskyDecomposition(information(chosen, sd), 1e-10, 1e-14).getSolver().getInverse();
      double sum = 0;
      for (double[][] two : rows) {
        for (double[] r : two) {
          RealVector v = new ArrayRealVector(r);
          sum += v.dotProduct(c.operate(v));
        }
      }
      return sum / rows.size();
    }

    private RealMatrix information(List<Integer> chosen, double[] sd) {
      double[][] m = new double[columns][columns];
      for (int j = 0; j < columns; j++) {
        m[j][j] = 1 / (sd[j] * sd[j]);
      }
      for (int i : chosen) {
        for (double[] r : rows.get(i)) {
          for (int j = 0; j < columns; j++) {
            for (int k = 0; k < columns; k++) {
              m[j][k] += r[j] * r[k] / (0.02 * 0.02);
            }
          }
        }
      }
      return new Array2DRowRealMatrix(m, false);
    }

    double[] standardErrors(List<Integer> chosen) {
      double[] sd = new double[columns];
      for (int j = 0; j < columns; j++) {
        sd[j] = j < LINEAR + 2 ? 10 : j < LINEAR + 22 ? 0.04 : 0.02;
      }
      RealMatrix m = information(chosen, sd);
      var solver = new CholeskyDecomposition(m, 1e-10, 1e-14).getSolver();
      double[] se = new double[forms.size()];
      for (int j = 0; j < se.length; j++) {
        RealVector f = new ArrayRealVector(forms.get(j));
        se[j] = Math.sqrt(f.dotProduct(solver.solve(f)));
      }
      return se;
    }
  }
}
