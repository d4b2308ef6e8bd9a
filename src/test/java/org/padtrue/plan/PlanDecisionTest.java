package org.padtrue.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.padtrue.Study;
import org.padtrue.firstarticle.PlannedArticle;
import org.padtrue.firstarticle.PlannedArticle.Layout;
import org.padtrue.firstarticle.PlannedArticle.Planted;
import org.padtrue.firstarticle.result.DecisionValueTest;
import org.padtrue.plan.model.MeasuringPlanOptions;

/**
 * What decisions from a plan's placements are worth beside decisions from every placement of the
 * same panel: the share of the gain on the next panel (mean square of position over all placements,
 * without its scatter and registration) that they keep, at the number that the plan itself says is
 * enough. Wanted: 95 % of it on 95 % of panels.
 *
 * <p>Eight kinds of boards (one board to six, 5 to 12 types of 1 to 60 placements, 0 to 6 nozzles;
 * two of them with types that scatter by 12, 20 and 50 um, as the plan is told), three sizes of
 * what is planted and two of registration, which the job states, in turn. Reckoned twice: trims as
 * they stand on the sheet, offsets too small to be worth typing left, and every trim entered. In
 * full only; from another seed with {@code -Dpadtrue.seed=N}.
 */
@EnabledIfSystemProperty(named = "padtrue.full", matches = "true")
class PlanDecisionTest {
  private static final int ARTICLES = Study.runs("plans", 4, 100);
  private static final long SEED = Long.getLong("padtrue.seed", 9_000);
  private static final double ENOUGH = 0.95;

  private static final List<Layout> LAYOUTS =
      List.of(
          new Layout("1 board, 8 types", 1, 1, new int[] {20, 14, 11, 8, 6, 4, 3, 1}, 4, 0.02),
          new Layout("1 board, 5 types", 1, 1, new int[] {60, 30, 20, 12, 8}, 2, 0.02),
          new Layout("2 x 2 boards, 6 types", 2, 2, new int[] {12, 8, 6, 3, 2, 1}, 6, 0.02),
          new Layout(
              "2 x 1 boards, 12 types",
              2,
              1,
              new int[] {12, 9, 7, 5, 4, 3, 2, 2, 1, 1, 1, 1},
              4,
              0.02),
          new Layout("4 x 1 boards, 7 types", 4, 1, new int[] {16, 10, 8, 6, 4, 2, 1}, 0, 0.02),
          new Layout(
              "3 x 2 boards, 10 types", 3, 2, new int[] {14, 12, 9, 7, 6, 4, 3, 2, 2, 1}, 3, 0.02),
          new Layout(
              "1 board, by type",
              1,
              1,
              new int[] {24, 18, 12, 8, 6, 4, 3, 2},
              3,
              0.012,
              0.02,
              0.05),
          new Layout(
              "2 x 2 boards, by type", 2, 2, new int[] {10, 8, 6, 4, 3, 2}, 3, 0.012, 0.02, 0.05));

  /**
   * All types off; some right; some right and the panel itself further off. Registration repeats
   * exactly or to 10 um, as in {@link DecisionValueTest}.
   */
  private static final List<Planted> PLANTED =
      List.of(
          new Planted(1, 0.04, 0.02, 0.04, 0.02, 1e-4, 0.01, 0),
          new Planted(1, 0.04, 0.02, 0.04, 0.02, 1e-4, 0.01, 0.01),
          new Planted(0.6, 0.04, 0.02, 0.04, 0.02, 1e-4, 0.01, 0),
          new Planted(0.6, 0.04, 0.02, 0.04, 0.02, 1e-4, 0.01, 0.01),
          new Planted(0.6, 0.05, 0.01, 0.05, 0.03, 2e-4, 0.02, 0),
          new Planted(0.6, 0.05, 0.01, 0.05, 0.03, 2e-4, 0.02, 0.01));

  @Test
  void enoughKeepsTheGain() {
    double[] share = new double[ARTICLES];
    double[] every = new double[ARTICLES];
    for (int i = 0; i < ARTICLES; i++) {
      Layout layout = LAYOUTS.get(i % LAYOUTS.size());
      PlannedArticle a =
          new PlannedArticle(
              layout, PLANTED.get((i + i / LAYOUTS.size()) % PLANTED.size()), SEED + i);
      MeasuringPlan plan =
          MeasuringPlan.of(
              a.job,
              MeasuringPlanOptions.withDefaults().withScatterMmByType(a.scatterByType(layout)));
      double full = a.fullGain();
      double some = a.gain(plan);
      share[i] = some / full;
      a.everyTrim = true;
      double fullAll = a.fullGain();
      every[i] = a.gain(plan) / fullAll;
      System.out.printf(
          Locale.ROOT,
          "%-24s %3d of %3d measured, all would take out %6.0f um^2, share kept %.3f, lost %5.0f"
              + " um^2; with every trim entered %6.0f um^2, %.3f%n",
          layout.name(),
          plan.lines().size(),
          plan.candidates(),
          1e6 * full,
          share[i],
          1e6 * (full - some),
          1e6 * fullAll,
          every[i]);
    }
    long goodEvery = Arrays.stream(every).filter(s -> s >= ENOUGH).count();
    long good = Arrays.stream(share).filter(s -> s >= ENOUGH).count();
    Arrays.sort(share);
    System.out.printf(
        Locale.ROOT,
        "%d of %d keep 95 %%; least %.3f, 5 %% point %.3f, middle %.3f; with every trim entered"
            + " %d%n",
        good,
        ARTICLES,
        share[0],
        share[ARTICLES / 20],
        share[ARTICLES / 2],
        goodEvery);
    assertThat(good).isGreaterThanOrEqualTo((long) Math.floor(ENOUGH * ARTICLES));
  }

  /**
   * One part type alone is off along x by the size that the plan says is found nine times in ten;
   * everything else is right, registration repeats. Found: the type gets a trim against its offset.
   */
  @Test
  void anOffsetOfTheStatedSizeIsFound() {
    Layout layout = LAYOUTS.get(0);
    Planted nothing = new Planted(0, 0, 0, 0, 0, 0, 0, 0);
    int runs = 3 * ARTICLES;
    int found = 0;
    for (int i = 0; i < runs; i++) {
      String type = "T" + i % 7;
      PlannedArticle plain = new PlannedArticle(layout, nothing, SEED + 500 + i);
      MeasuringPlan plan = MeasuringPlan.of(plain.job, MeasuringPlanOptions.withDefaults());
      double size =
          plan.terms().stream()
              .filter(t -> t.name().equals("part " + type + " x"))
              .mapToDouble(MeasuringPlan.Term::foundFrom)
              .findFirst()
              .orElseThrow();
      PlannedArticle off = new PlannedArticle(layout, nothing, SEED + 500 + i, type, size);
      found += off.trimX(plan, type) < 0 ? 1 : 0;
    }
    System.out.printf(
        Locale.ROOT, "of %d offsets of the size found nine times in ten: %d%n", runs, found);
    assertThat(found).isGreaterThanOrEqualTo((int) Math.floor(0.75 * runs));
  }
}
