package org.padtrue.drift;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.padtrue.drift.cause.SlowKind;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.hint.Cause;
import org.padtrue.drift.hint.Expansion;
import org.padtrue.drift.hint.Hint;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.panel.Factor;
import org.padtrue.panel.term.OffsetAxis;

/** The whole analysis on small invented series with known truth. */
class DriftAnalysisTest {
  private static final Instant START = Instant.parse("2026-01-05T06:00:00Z");
  private static final List<Expansion> MATERIALS =
      List.of(
          new Expansion("carbon steel", 11, 12, "handbook"),
          new Expansion("aluminium", 23, 24, "handbook"));

  private static DriftSeries series(String name, String unit, double[] y, double se) {
    List<SeriesPoint> points = new ArrayList<>();
    for (int i = 0; i < y.length; i++) {
      points.add(point(i, y[i], y[i], se));
    }
    return new DriftSeries(name, unit, points);
  }

  private static SeriesPoint point(int i, double value, double state, double se) {
    return new SeriesPoint(
        START.plus(Duration.ofHours(6L * i)),
        "A" + i,
        value,
        state,
        se,
        Double.NaN,
        Double.NaN,
        Double.NaN);
  }

  private static double[] noise(int n, double sd, long seed) {
    Random r = new Random(seed);
    double[] y = new double[n];
    for (int i = 0; i < n; i++) {
      y[i] = sd * r.nextGaussian();
    }
    return y;
  }

  /**
   * 40 articles, 6 hours apart, drifting 2 um a day from 0: reaches 50 um 25 days after the start.
   */
  @Test
  void forecastOfACreepIncludesTheTruth() {
    double[] y = noise(40, 0.001, 1);
    for (int i = 0; i < y.length; i++) {
      y[i] += 0.002 * i / 4.0;
    }
    DriftResult r =
        new DriftAnalysis(DriftOptions.withDefaults().withLimits(Map.of("shiftX", 0.05)))
            .run(List.of(series("shiftX", "mm", y, 0.0005)), List.of());
    SeriesDrift d = r.series().get(0);
    assertThat(d.slow()).isEqualTo(SlowKind.TREND);
    assertThat(d.trend().low()).isLessThan(0.002);
    assertThat(d.trend().high()).isGreaterThan(0.002);
    Instant truth = START.plus(Duration.ofDays(25));
    Forecast f = d.forecast();
    assertThat(f.limit()).isEqualTo(0.05);
    assertThat(truth).isBetween(f.low(), f.high());
    assertThat(Duration.between(f.low(), f.high())).isLessThan(Duration.ofDays(6));
    assertThat(r.hints()).hasSize(1);
    assertThat(r.hints().get(0).cause()).isEqualTo(Cause.REGISTRATION);
    assertThat(r.hints().get(0).sentence())
        .contains("reaching its no-adjustment limit of +50.0 \u00b5m about 2026-01-");
  }

  /**
   * A trim moves what is observed, not the machine's state: no change, and the forecast counts it.
   */
  @Test
  void aTrimIsNoJumpButMovesTheForecast() {
    double[] y = noise(40, 0.001, 2);
    List<SeriesPoint> points = new ArrayList<>();
    for (int i = 0; i < y.length; i++) {
      double state = y[i] + 0.002 * i / 4.0;
      points.add(point(i, state - (i >= 20 ? 0.02 : 0), state, 0.0005));
    }
    DriftResult r =
        new DriftAnalysis(DriftOptions.withDefaults().withLimits(Map.of("shiftX", 0.05)))
            .run(List.of(new DriftSeries("shiftX", "mm", points)), List.of());
    SeriesDrift d = r.series().get(0);
    assertThat(d.changes()).isEmpty();
    assertThat(START.plus(Duration.ofDays(35))).isBetween(d.forecast().low(), d.forecast().high());
  }

  @Test
  void bothScalesWithTemperatureNameTheMaterial() {
    Random random = new Random(7);
    List<DriftSeries> all = new ArrayList<>();
    double[] t = new double[60];
    for (int i = 0; i < t.length; i++) {
      t[i] = 22 + 2 * Math.sin(i * 0.7) + 0.3 * random.nextGaussian();
    }
    for (String name : List.of("scaleXPpm", "scaleYPpm")) {
      List<SeriesPoint> points = new ArrayList<>();
      for (int i = 0; i < t.length; i++) {
        double v = 11.5 * (t[i] - 22) + 3 * random.nextGaussian();
        points.add(
            new SeriesPoint(
                START.plus(Duration.ofHours(6L * i)),
                "A" + i,
                v,
                v,
                2,
                Double.NaN,
                t[i],
                Double.NaN));
      }
      all.add(new DriftSeries(name, "ppm", points));
    }
    DriftResult r =
        new DriftAnalysis(new DriftOptions(0.05, 0, 0.2, 1, Map.of(), MATERIALS))
            .run(all, List.of());
    TemperatureEffect x = r.series().get(0).temperature();
    assertThat(x.slope()).isCloseTo(11.5, within(4 * x.standardError()));
    assertThat(r.hints()).hasSize(1);
    Hint h = r.hints().get(0);
    assertThat(h.cause()).isEqualTo(Cause.TEMPERATURE);
    assertThat(h.series()).containsExactly("scaleXPpm", "scaleYPpm");
    assertThat(h.sentence())
        .startsWith("Both scales move with temperature alike")
        .contains("carbon steel 11.0 to 12.0 ppm/K")
        .doesNotContain("aluminium");
  }

  /** A step of one type at a service that the count of placements tells of. */
  @Test
  void aStepAtAServiceIsSaidToBeTheService() {
    List<SeriesPoint> points = new ArrayList<>();
    double[] e = noise(40, 0.002, 3);
    for (int i = 0; i < 40; i++) {
      double v = e[i] + (i >= 25 ? 0.02 : 0);
      points.add(
          new SeriesPoint(
              START.plus(Duration.ofHours(6L * i)),
              "A" + i,
              v,
              v,
              0.001,
              Double.NaN,
              Double.NaN,
              1000.0 * (i >= 25 ? i - 25 : i)));
    }
    DriftResult r =
        new DriftAnalysis(DriftOptions.withDefaults())
            .run(List.of(new DriftSeries("squarenessMrad", "mrad", points)), List.of());
    SeriesDrift d = r.series().get(0);
    assertThat(d.changes()).hasSize(1);
    assertThat(d.changes().get(0).index()).isEqualTo(25);
    assertThat(d.changes().get(0).size()).isCloseTo(0.02, within(0.003));
    assertThat(d.eventSteps()).hasSize(1);
    assertThat(r.hints()).extracting(Hint::cause).containsExactly(Cause.SERVICE);
  }

  @Test
  void repeatabilityIsTheSpreadBeyondTheStandardErrors() {
    Random random = new Random(4);
    double[] y = new double[200];
    List<SeriesPoint> points = new ArrayList<>();
    for (int i = 0; i < y.length; i++) {
      double se = i % 2 == 0 ? 0.002 : 0.012;
      y[i] = 0.010 * random.nextGaussian() + se * random.nextGaussian();
      points.add(point(i, y[i], y[i], se));
    }
    DriftResult r =
        new DriftAnalysis(DriftOptions.withDefaults())
            .run(List.of(new DriftSeries("shiftX", "mm", points)), List.of());
    ExcessSpread s = r.repeatability().get(0);
    assertThat(s.sd()).isCloseTo(0.010, within(0.0015));
    assertThat(0.010).isBetween(s.low(), s.high());
  }

  @Test
  void shortConstantAndEmptySeriesAreNoFault() {
    DriftResult r =
        new DriftAnalysis(DriftOptions.withDefaults())
            .run(
                List.of(
                    series("shiftX", "mm", new double[0], 0.001),
                    series("shiftY", "mm", new double[] {1}, 0.001),
                    series("rotation", "deg", new double[] {1, 2, 3}, 0),
                    series("scaleXPpm", "ppm", Data.fill(30, 5), 0),
                    series("scaleYPpm", "ppm", Data.fill(30, 5), Double.NaN),
                    series("scatterX", "mm", noise(30, 0.01, 5), Double.NaN)),
                List.of());
    assertThat(r.hints()).isEmpty();
    assertThat(r.series()).hasSize(6);
    assertThat(r.series().get(3).trend().perDay()).isZero();
    assertThat(r.series().get(3).trend().p()).isEqualTo(1);
  }

  /**
   * Several panels measured at one moment make a series without a trend, and an empty log no
   * series.
   */
  @Test
  void oneMomentAndNoSeries() {
    List<SeriesPoint> points = new ArrayList<>();
    double[] e = noise(12, 0.01, 6);
    for (int i = 0; i < e.length; i++) {
      points.add(point(0, e[i], e[i], 0.002));
    }
    DriftAnalysis a = new DriftAnalysis(DriftOptions.withDefaults());
    DriftResult r = a.run(List.of(new DriftSeries("shiftX", "mm", points)), List.of());
    assertThat(r.series().get(0).trend()).isNull();
    assertThat(r.series().get(0).forecast()).isNull();
    DriftResult none = a.run(List.of(), List.of());
    assertThat(none.hints()).isEmpty();
    assertThat(none.family().sentence())
        .isEqualTo("No series has articles enough for control limits yet.");
  }

  @Test
  void namesTellFactorLevelAndAxis() {
    DriftSeries s = new DriftSeries("part R 0603 x", "mm", List.of());
    assertThat(s.factor()).isEqualTo(Factor.PART);
    assertThat(s.level()).isEqualTo("R 0603");
    assertThat(s.axis()).isEqualTo(OffsetAxis.X);
    DriftSeries p = new DriftSeries("scaleXPpm", "ppm", List.of());
    assertThat(p.factor()).isNull();
    assertThat(p.axis()).isNull();
    assertThat(p.level()).isEmpty();
  }

  /** Coefficients may be in 1/K or in 1e-6/K; comments and a header are no rows. */
  @Test
  void expansionTableIsReadTolerantly() throws Exception {
    String text =
        "# source: handbook\nmaterial,lowPerK,highPerK,source\nglass,8e-6,9e-6,book\n"
            + "\"steel\",11,12,\"a, b\"\n";
    List<Expansion> t =
        Expansion.read(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
    assertThat(t).hasSize(2);
    assertThat(t.get(0).lowPpmPerK()).isCloseTo(8, within(1e-9));
    assertThat(t.get(1)).isEqualTo(new Expansion("steel", 11, 12, "a, b"));
    String more = "material,low,high,value,source\ncopper,16,18,17,a book, from memory\n";
    assertThat(Expansion.read(new ByteArrayInputStream(more.getBytes(StandardCharsets.UTF_8))))
        .containsExactly(new Expansion("copper", 16, 18, "a book, from memory"));
    assertThat(Expansion.table())
        .as("the bundled table")
        .hasSizeGreaterThan(5)
        .allMatch(e -> e.lowPpmPerK() <= e.highPpmPerK() && !e.source().isEmpty());
  }
}
