package org.padtrue.firstarticle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.AnalysisOptions.Transform;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TransformValues;

/**
 * Known truth is recovered within its standard error: z-scores of 500 simulated articles (125 where
 * not in full), pooled by kind of parameter. Intervals are estimate +- 1.96 standard errors.
 */
class CoverageTest {
  private static final int PART = Study.FULL ? 1 : 4;

  private static final class Scores {
    private int n;
    private int inside;
    private double squares;

    void add(double estimate, double truth, double se) {
      double z = (estimate - truth) / se;
      n++;
      squares += z * z;
      inside += Math.abs(z) < 1.959964 ? 1 : 0;
    }

    double sd() {
      return Math.sqrt(squares / n);
    }

    double coverage() {
      return inside / (double) n;
    }

    @Override
    public String toString() {
      return String.format("n %d, SD of z %.3f, coverage %.3f", n, sd(), coverage());
    }
  }

  private static Map<String, Scores> simulate(
      int articles, long seed, Map<String, Scores> pooled, Consumer<SyntheticPanel> setUp) {
    Map<String, Scores> own = new TreeMap<>();
    for (int i = 0; i < articles; i++) {
      SyntheticPanel s = new SyntheticPanel(seed + i);
      s.tolerances = false;
      s.shiftX = 0.03 * s.random.nextGaussian();
      s.shiftY = 0.03 * s.random.nextGaussian();
      s.rotationDeg = 0.03 * s.random.nextGaussian();
      s.scaleX = 2e-4 * s.random.nextGaussian();
      s.scaleY = 2e-4 * s.random.nextGaussian();
      s.squareness = 2e-4 * s.random.nextGaussian();
      s.rotationZero = 0.1 * s.random.nextGaussian();
      setUp.accept(s);
      s.draw();
      FirstArticleResult r =
          FirstArticleAnalysis.run(
              s.job(),
              List.of(s.article("a")),
              new AnalysisOptions(Transform.AFFINE, false, false, true, null, Set.of(), Set.of()));
      for (Map<String, Scores> m : List.of(own, pooled)) {
        score(m, s, r);
      }
    }
    return own;
  }

  private static void score(Map<String, Scores> m, SyntheticPanel s, FirstArticleResult r) {
    TransformValues v = r.panels().get(0).transform();
    TransformValues e = r.panels().get(0).standardErrors();
    add(m, "shift", v.shiftX(), s.shiftX, e.shiftX());
    add(m, "shift", v.shiftY(), s.shiftY, e.shiftY());
    add(m, "rotation", v.rotation(), s.rotationDeg, e.rotation());
    add(m, "scale", v.scaleXPpm(), 1e6 * s.scaleX, e.scaleXPpm());
    add(m, "scale", v.scaleYPpm(), 1e6 * s.scaleY, e.scaleYPpm());
    add(m, "scale", v.squarenessMrad(), 1e3 * s.squareness, e.squarenessMrad());
    for (GroupResult g : r.groups()) {
      double[] o = s.offset.get(g.factor() + " " + g.level());
      double turn = s.turnOf.get(g.factor() + " " + g.level());
      add(m, "part offset", g.offset().x(), o[0], g.standardErrors().x());
      add(m, "part offset", g.offset().y(), o[1], g.standardErrors().y());
      add(
          m,
          "part rotation",
          g.combined().rotation(),
          turn + s.rotationZero,
          g.combinedStandardErrors().rotation());
    }
  }

  private static void add(Map<String, Scores> m, String kind, double v, double truth, double se) {
    m.computeIfAbsent(kind, k -> new Scores()).add(v, truth, se);
  }

  @Test
  void standardErrorsAreHonest() {
    Map<String, Scores> pooled = new TreeMap<>();
    Map<String, Scores> usual = simulate(180 / PART, 1_000, pooled, s -> s.perBoard = 80);
    Map<String, Scores> few =
        simulate(
            220 / PART,
            2_000,
            pooled,
            s -> {
              s.perBoard = 20;
              s.types = 3;
            });
    Map<String, Scores> nearZero =
        simulate(
            100 / PART,
            3_000,
            pooled,
            s -> {
              s.typeSd = 0.003;
              s.typeRotationSd = 0.02;
            });
    System.out.println("80 placements, 6 types: " + usual);
    System.out.println("20 placements, 3 types: " + few);
    System.out.println("40 placements, 6 types, spread near 0: " + nearZero);
    System.out.println("pooled: " + pooled);
    pooled.forEach(
        (kind, z) -> {
          // A quarter of the articles has twice the standard error: three times what that adds.
          double slack = Study.FULL ? 0 : 3 * Study.error(0.95, z.n) / 2;
          assertThat(z.coverage())
              .as("coverage, %s %s", kind, z)
              .isBetween(0.93 - slack, 0.97 + slack);
          double wide = Study.FULL ? 0 : 3 / Math.sqrt(2.0 * z.n) / 2;
          assertThat(z.sd()).as("SD of z, %s %s", kind, z).isBetween(0.9 - wide, 1.1 + wide);
        });
    for (Map<String, Scores> cell : List.of(usual, few)) {
      // A cell has 45 scores and more: three binomial standard errors are added to the band.
      cell.forEach(
          (kind, z) -> {
            double slack = 3 * Study.error(0.95, z.n);
            assertThat(z.coverage())
                .as("coverage, %s %s", kind, z)
                .isBetween(0.93 - slack, 0.97 + slack);
          });
    }
    // Where the true spread is far below what six types can show, nobody can say how far: the
    // intervals of offsets are then wider than needed, never narrower.
    nearZero.forEach(
        (kind, z) ->
            assertThat(z.coverage())
                .as("%s %s", kind, z)
                .isGreaterThan(0.93 - (Study.FULL ? 0.03 : 3 * Study.error(0.95, z.n))));
  }
}
