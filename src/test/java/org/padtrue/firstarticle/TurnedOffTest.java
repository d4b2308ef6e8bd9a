package org.padtrue.firstarticle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Job;
import org.padtrue.panel.article.Article;

/** What happens when a trim is not entered: that one goes, the others stay what they are. */
class TurnedOffTest {
  private static Job job;
  private static Article article;
  private static FirstArticleResult decided;

  @BeforeAll
  static void analyse() {
    Path sample = Path.of("samples/main-job");
    LoadedJob loaded = JobLoader.loadWithFile(sample.resolve("job.json")).orThrow();
    job = loaded.job();
    article = ArticleLoader.load(sample.resolve("article-1.csv"), loaded).orThrow();
    decided = run(Set.of());
  }

  private static FirstArticleResult run(Set<String> off) {
    return FirstArticleAnalysis.run(
        job, List.of(article), AnalysisOptions.withDefaults().withTurnedOff(off));
  }

  private static Map<String, List<Double>> values(FirstArticleResult r) {
    return r.trims().stream()
        .collect(
            Collectors.toMap(TrimLine::where, t -> List.of(t.addX(), t.addY(), t.addRotation())));
  }

  @Test
  void oneTurnedOffLeavesTheOthers() {
    for (String key : List.of("registration", "scale", "part SOIC8", "nozzle N2")) {
      FirstArticleResult r = run(Set.of(key));
      String gone =
          switch (key) {
            case "scale" -> "axis scale";
            case "part SOIC8" -> "part type SOIC8";
            default -> key;
          };
      Map<String, List<Double>> rest = values(decided);
      assertThat(rest.remove(gone)).as(key).isNotNull();
      if (key.equals("scale")) {
        rest.remove("squareness");
      }
      assertThat(values(r)).as(key).isEqualTo(rest);
      assertThat(r.prediction().nextTrimmed())
          .as(key)
          .isGreaterThan(decided.prediction().nextTrimmed());
      assertThat(r.prediction().nextUntrimmed())
          .as(key)
          .isEqualTo(decided.prediction().nextUntrimmed());
    }
  }

  @Test
  void allTurnedOffLeavesEverythingAsMeasured() {
    Set<String> all =
        new HashSet<>(Set.of("registration", "scale", "array", "common", "rotationZero"));
    decided.groups().forEach(g -> all.add(g.factor() + " " + g.level()));
    FirstArticleResult r = run(all);
    assertThat(r.trims()).isEmpty();
    for (PlacementResult p : r.placements()) {
      if (Double.isFinite(p.deviation().x())) {
        assertThat(p.afterTrim().x()).isCloseTo(p.deviation().x(), within(1e-12));
        assertThat(p.afterTrim().y()).isCloseTo(p.deviation().y(), within(1e-12));
        assertThat(Double.compare(p.margin(), p.marginAfterTrim())).isZero();
      }
    }
    assertThat(r.prediction().nextTrimmed())
        .isCloseTo(r.prediction().nextUntrimmed(), within(1e-12));
  }
}
