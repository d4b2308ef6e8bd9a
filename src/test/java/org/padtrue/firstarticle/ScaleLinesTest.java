package org.padtrue.firstarticle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.TrimLine;

/** Axis scale and squareness are entered each where it is there, on a line of its own. */
class ScaleLinesTest {
  private static List<String> lines(long seed, double scaleX, double scaleY, double squareness) {
    SyntheticPanel s = new SyntheticPanel(seed);
    s.perBoard = 60;
    s.typeSd = 0;
    s.typeRotationSd = 0;
    s.scaleX = scaleX;
    s.scaleY = scaleY;
    s.squareness = squareness;
    s.draw();
    return FirstArticleAnalysis.run(
            s.job(), List.of(s.article("a")), AnalysisOptions.withDefaults())
        .trims()
        .stream()
        .map(TrimLine::where)
        .filter(w -> w.equals("axis scale") || w.equals("squareness"))
        .toList();
  }

  @Test
  void eachStandsWhereItIsThere() {
    int needless = 0;
    int runs = Study.runs("scales", 4, 8);
    for (long seed = 1; seed <= runs; seed++) {
      assertThat(lines(seed, 2.5e-3, -2.5e-3, 2.5e-3))
          .containsExactlyInAnyOrder("axis scale", "squareness");
      List<String> scale = lines(100 + seed, 2.5e-3, -2.5e-3, 0);
      List<String> angle = lines(200 + seed, 0, 0, 2.5e-3);
      assertThat(scale).contains("axis scale");
      assertThat(angle).contains("squareness");
      needless += scale.size() + angle.size() - 2;
    }
    // A value that is nought passes Akaike's criterion in 16 % (chi-square of 1 above 2), one of
    // two in 29 %: of 16 there 3.6 are expected, and 9 or more in less than one case of a hundred;
    // of
    // 8 1.8, and 6 or more in one of 400 (binomial).
    assertThat(needless).isLessThan(runs < 8 ? 6 : 9);
  }
}
