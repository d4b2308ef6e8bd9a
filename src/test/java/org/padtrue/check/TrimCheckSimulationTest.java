package org.padtrue.check;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.check.TrimMistakes.Done;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.panel.Factor;
import org.padtrue.panel.article.Article;

/**
 * The trim check over simulated second articles of 80 placements, five part types, scatter 20 um,
 * registration that repeats to 10 um: 60 second articles per kind of mistake, two to each of 30
 * first articles; in full 300 first articles with one second article each. Each run enters one
 * type's trim wrongly whose trim is at least twice the scatter and which has ten placements or
 * more; all other trims are entered right.
 */
class TrimCheckSimulationTest {
  private static final int FIRST = Study.FULL ? 300 : 30;
  private static final int SECOND = Study.FULL ? 1 : 2;
  private static final int RUNS = FIRST * SECOND;

  /** What is seen of one kind of entry. */
  private static final class Tally {
    int runs;
    int recognised;
    int othersBlamed;
  }

  private static final Map<TrimCheckFinding, Tally> TALLY = new EnumMap<>(TrimCheckFinding.class);
  private static final List<Double> P = new ArrayList<>();
  private static final List<Double> Z = new ArrayList<>();
  private static int falseAlarms;

  @BeforeAll
  static void simulate() {
    for (int seed = 0; TALLY.isEmpty() || TALLY.get(TrimCheckFinding.HELD).runs < RUNS; seed++) {
      SyntheticPanel p = panel(5000 + seed);
      FirstArticleResult r =
          FirstArticleAnalysis.run(
              p.job(), List.of(p.article("first.csv")), AnalysisOptions.withDefaults());
      List<GroupResult> types =
          r.groups().stream()
              .filter(g -> g.factor() == Factor.PART && g.count() >= 10)
              .filter(g -> g.trim().decision() == Decision.TRIM)
              .filter(g -> Math.hypot(g.trim().value().x(), g.trim().value().y()) >= 2 * p.scatter)
              .toList();
      for (int k = 0; k < SECOND && !types.isEmpty(); k++) {
        run(p, r, "part " + types.get(k % types.size()).level(), (seed + k) % 2 == 0, k == 0);
      }
    }
    TALLY.forEach(
        (f, t) ->
            System.out.printf(
                Locale.ROOT,
                "%s: recognised in %d of %d runs, another trim blamed in %d%n",
                f.key(),
                t.recognised,
                t.runs,
                t.othersBlamed));
  }

  private static SyntheticPanel panel(long seed) {
    SyntheticPanel p = new SyntheticPanel(seed);
    p.perBoard = 80;
    p.types = 5;
    p.typeSd = 0.06;
    p.shiftX = 0.03;
    p.shiftY = -0.02;
    p.rotationDeg = 0.02;
    p.repeatability = 0.01;
    p.stateRepeatability = true;
    return p.draw();
  }

  /** A wrong frame: not turned with the part in one half of the runs, turned back in the other. */
  private static void run(
      SyntheticPanel p, FirstArticleResult r, String term, boolean turnedBack, boolean next) {
    TrimCheckBefore before = AnalysedBefore.of(r);
    Article untrimmed = p.article("second.csv");
    for (Done d : Done.values()) {
      if (d == (turnedBack ? Done.WRONG_FRAME : Done.TURNED_BACK)) {
        continue;
      }
      Article second = new TrimMistakes(r).with(term, d).enter(untrimmed);
      TrimCheckResult c = TrimCheck.run(p.job(), before, List.of(second));
      Tally t = TALLY.computeIfAbsent(d.finding(), x -> new Tally());
      t.runs++;
      t.recognised += finding(c, term) == d.finding() ? 1 : 0;
      boolean blamed = c.terms().stream().anyMatch(x -> !x.term().equals(term) && !x.kept());
      t.othersBlamed += blamed ? 1 : 0;
      if (d == Done.RIGHT) {
        right(c, next);
      }
    }
  }

  private static void right(TrimCheckResult c, boolean firstOfItsArticle) {
    // Second articles of one first article share its errors: one each, so that p are independent.
    if (firstOfItsArticle) {
      P.add(c.p());
    }
    falseAlarms += c.verdict() == TrimCheckVerdict.HELD ? 0 : 1;
    for (TrimCheckTerm t : c.terms()) {
      for (double z : new double[] {t.z().x(), t.z().y(), t.z().rotation()}) {
        if (!Double.isNaN(z)) {
          Z.add(z);
        }
      }
    }
  }

  private static TrimCheckFinding finding(TrimCheckResult c, String term) {
    return c.terms().stream()
        .filter(t -> t.term().equals(term))
        .findFirst()
        .orElseThrow()
        .finding();
  }

  @Test
  void eachMistakeIsRecognised() {
    assertThat(TALLY).hasSize(5);
    TALLY.forEach(
        (f, t) -> {
          assertThat(t.runs).isEqualTo(RUNS);
          assertThat(t.recognised / (double) t.runs).as(f.key()).isGreaterThanOrEqualTo(0.95);
        });
  }

  /** A mistake with one type must not make the others look wrong. */
  @Test
  void otherTrimsAreNotBlamed() {
    TALLY.forEach(
        (f, t) ->
            assertThat(t.othersBlamed / (double) t.runs).as(f.key()).isLessThanOrEqualTo(0.05));
  }

  /** All entered right: 'held', with few false alarms. */
  @Test
  void itDoesNotCryWolf() {
    System.out.printf(Locale.ROOT, "all right: %d of %d not held%n", falseAlarms, RUNS);
    assertThat(falseAlarms / (double) RUNS).isLessThanOrEqualTo(0.05);
  }

  /**
   * Chi-square of trims that were all entered right, one second article for each first article: p
   * below 0.05 in 5 % within three binomial standard errors; the greatest distance from a straight
   * line has its 1 % point at 1.63 / sqrt(n) (Kolmogorov's distribution).
   */
  @Test
  void chiSquareIsCalibrated() {
    double[] p = P.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    long below = Arrays.stream(p).filter(x -> x < 0.05).count();
    double distance = 0;
    for (int i = 0; i < p.length; i++) {
      double step = Math.max((i + 1.0) / p.length - p[i], p[i] - i / (double) p.length);
      distance = Math.max(distance, step);
    }
    System.out.printf(
        Locale.ROOT, "p < 0.05 in %d of %d, distance %.3f%n", below, p.length, distance);
    int n = p.length;
    assertThat(n).isEqualTo(FIRST);
    assertThat(below / (double) n).isLessThan(0.05 + 3 * Math.sqrt(0.05 * 0.95 / n));
    assertThat(distance).isLessThan(1.63 / Math.sqrt(n));
  }

  /** z-scores of what held: SD 1; in groups that share a first article. */
  @Test
  void scoresHaveTheSpreadTheyClaim() {
    double sum = 0;
    for (double z : Z) {
      sum += z * z;
    }
    double sd = Math.sqrt(sum / Z.size());
    System.out.printf(Locale.ROOT, "root mean square of %d z-scores: %.3f%n", Z.size(), sd);
    assertThat(Z.size()).isGreaterThan(12 * RUNS);
    // Of 1,500 scores, in groups, 0.07 is some three standard errors; the fewer, the wider.
    double slack = 0.07 * Math.sqrt(Math.max(1, 1500.0 / Z.size()));
    assertThat(sd).isBetween(1 - slack, 1 + slack);
  }
}
