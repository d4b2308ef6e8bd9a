package org.padtrue.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.drift.DriftOptions;
import org.padtrue.drift.ExcessSpread;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.cause.Change;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.drift.hint.Cause;
import org.padtrue.drift.hint.Hint;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.Conditions;
import org.padtrue.history.LoggedTrim;
import org.padtrue.load.article.ArticleConditions;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.article.ConditionsLoader;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.log.DriftStudy;
import org.padtrue.log.Recording;
import org.padtrue.panel.article.Article;

/** The sample history: its files come from the maker, and what was planted in it is found. */
class HistorySampleTest {
  /** Standard errors within which a planted value must lie. */
  private static final double WITHIN = 3;

  @TempDir static Path folder;
  private static DriftStudy study;

  @BeforeAll
  static void recordAll() {
    Path sample = HistoryMaker.FOLDER;
    LoadedJob job = JobLoader.loadWithFile(sample.resolve("job.json")).orThrow();
    Map<String, ArticleConditions> conditions =
        ConditionsLoader.load(sample.resolve("conditions.csv")).orThrow();
    String url = folder.resolve("log.db").toString();
    try (ArticleLog log = ArticleLog.open(url)) {
      for (ArticleConditions c : conditions.values()) {
        Article a = ArticleLoader.load(sample.resolve("articles").resolve(c.file()), job).orThrow();
        List<LoggedTrim> trims = new ArrayList<>();
        c.trims()
            .forEach(
                (n, v) ->
                    trims.add(
                        new LoggedTrim(
                            n, n.endsWith("Ppm") ? "ppm" : "mm", v, LoggedTrim.usualScope(n), "")));
        log.record(
            Recording.of(
                job.job(),
                a,
                ArticleTerms.of(job.job(), a),
                new Recording.Circumstances(
                    c.machine(),
                    java.time.Instant.parse(c.at()),
                    new Conditions(
                        c.shift(),
                        "",
                        c.temperatureC(),
                        Double.NaN,
                        c.minutesRunning(),
                        Double.NaN),
                    "",
                    trims,
                    List.of())));
      }
      study = DriftStudy.of(log, null, null, DriftOptions.withDefaults());
    }
  }

  @Test
  void filesComeFromTheMaker() throws IOException {
    Map<String, String> made = new TreeMap<>(HistoryMaker.files());
    for (Map.Entry<String, String> f : made.entrySet()) {
      assertThat(Files.readString(HistoryMaker.FOLDER.resolve(f.getKey())))
          .as(f.getKey())
          .isEqualTo(f.getValue());
    }
    try (Stream<Path> s = Files.list(HistoryMaker.FOLDER.resolve("articles"))) {
      assertThat(s.count()).isEqualTo(PlantedHistory.ARTICLES);
    }
  }

  private static SeriesDrift series(String name) {
    return study.drift().series().stream()
        .filter(d -> d.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> hinted(Cause cause) {
    return study.drift().hints().stream()
        .filter(h -> h.cause() == cause)
        .map(Hint::series)
        .flatMap(List::stream)
        .toList();
  }

  @Test
  void everyPlantedDriftGetsItsCauseAndNothingElseAHint() {
    assertThat(hinted(Cause.BELT_STRETCH)).containsExactly("scaleXPpm");
    assertThat(hinted(Cause.TEMPERATURE)).containsExactly("scaleXPpm", "scaleYPpm");
    assertThat(hinted(Cause.WARM_UP)).containsExactly("shiftY");
    assertThat(hinted(Cause.NOZZLE)).containsExactly("nozzle N2 x");
    assertThat(study.drift().hints()).hasSize(4);
  }

  @Test
  void sizesAreThosePlanted() {
    var trend = series("scaleXPpm").trend();
    assertThat(trend).isNotNull();
    assertThat(PlantedHistory.CREEP_PPM_PER_DAY).isBetween(trend.low(), trend.high());
    for (String name : List.of("scaleXPpm", "scaleYPpm")) {
      TemperatureEffect t = series(name).temperature();
      assertThat(t).isNotNull();
      assertThat(Math.abs(t.slope() - PlantedHistory.PPM_PER_KELVIN))
          .isLessThan(WITHIN * t.standardError());
    }
    WarmUp w = series("shiftY").warmUp();
    assertThat(w).isNotNull();
    assertThat(Math.abs(w.amplitude() - PlantedHistory.WARM_UP))
        .isLessThan(WITHIN * w.amplitudeSe());
    assertThat(Math.abs(w.minutes() - PlantedHistory.WARM_UP_MINUTES))
        .isLessThan(WITHIN * w.minutesSe());
  }

  @Test
  void theNozzleStepIsFoundWithinThreeArticlesAndStaysWithItsNozzle() {
    List<Change> changes = series("nozzle N2 x").changes();
    assertThat(changes).hasSize(1);
    Change c = changes.get(0);
    assertThat(Math.abs(c.index() - PlantedHistory.NOZZLE_FROM)).isLessThanOrEqualTo(3);
    assertThat(Math.abs(c.size() - PlantedHistory.NOZZLE_STEP))
        .isLessThan(WITHIN * c.standardError());
  }

  @Test
  void trimsJumpInTheValuesAndNotInTheStates() {
    for (String name : List.of("part SOIC8 x", "scaleXPpm")) {
      double trim = PlantedHistory.TRIMS.get(name);
      for (SeriesPoint p : series(name).series().points()) {
        boolean after = Long.parseLong(p.article()) > PlantedHistory.TRIMMED_FROM;
        // exact but for the rounding of a subtraction
        assertThat(p.value() - p.state()).isCloseTo(after ? trim : 0, within());
      }
    }
    assertThat(series("part SOIC8 x").changes()).isEmpty();
  }

  private static org.assertj.core.data.Offset<Double> within() {
    return org.assertj.core.data.Offset.offset(1e-9);
  }

  @Test
  void theLogTellsHowWellPanelsAreRegistered() {
    Map<String, Double> truth =
        Map.of(
            "shiftX", PlantedHistory.REPEATABILITY,
            "shiftY", PlantedHistory.REPEATABILITY,
            "rotation", PlantedHistory.ROTATION_REPEATABILITY);
    assertThat(study.repeatability()).hasSize(3);
    for (ExcessSpread e : study.repeatability()) {
      // 95 % intervals are about two standard errors to either side
      double se = (e.high() - e.low()) / 4;
      assertThat(Math.abs(e.sd() - truth.get(e.series()))).isLessThan(WITHIN * se);
    }
  }
}
