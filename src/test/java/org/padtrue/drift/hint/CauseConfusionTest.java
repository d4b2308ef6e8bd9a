package org.padtrue.drift.hint;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.drift.DriftAnalysis;
import org.padtrue.drift.DriftOptions;
import org.padtrue.drift.DriftResult;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.SeriesPoint;

/**
 * Simulation: one cause planted in one series of twelve, which is told? Histories of 24 to 100
 * articles with a quick look now and then (five times the variance), room temperature that wanders
 * from article to article and so goes along with the step by chance, three articles a shift from
 * the start on. Steps anywhere with four articles or more on either side.
 *
 * <p>Six histories a cause, 200 in full, which is the table of the study; {@code
 * -Dpadtrue.confusion.seed=N} for other draws.
 */
class CauseConfusionTest {
  private static final int HISTORIES = Study.runs("confusion", 6, 200);
  private static final long SEED = Long.getLong("padtrue.confusion.seed", 71);
  private static final int SERIES = 12;
  private static final int[] LENGTHS = {24, 32, 42, 54, 72, 100};
  private static final String NAME = "nozzle N1 x";

  /** Least size of a step, in standard deviations of an article; the largest is three more. */
  private static final double LEAST = 3;

  /** Least correlation of step and temperature where they are to go along. */
  private static final double ALONG = 0.65;

  private static final double REPEATABILITY = 0.004;
  private static final DriftAnalysis ANALYSIS = new DriftAnalysis(DriftOptions.withDefaults());

  private enum Planted {
    NOTHING,
    STEP,
    STEP_EARLY_OR_LATE,
    STEP_AS_TEMPERATURE_TURNS,
    STEP_AND_SOME_TEMPERATURE,
    STEADY_DRIFT,
    TEMPERATURE,
    WARM_UP
  }

  private enum Told {
    NOTHING,
    CHART_ONLY,
    STEP,
    STEP_AND_TEMPERATURE,
    STEADY_DRIFT,
    TEMPERATURE,
    WARM_UP,
    OTHER_MIXTURE
  }

  private record Outcome(Told told, boolean elsewhere, boolean placed) {}

  @Test
  void aCauseIsToldAsWhatItIs() {
    Map<Planted, Map<Told, Integer>> table = new EnumMap<>(Planted.class);
    Map<Planted, Integer> elsewhere = new TreeMap<>();
    int placed = 0;
    for (Planted p : Planted.values()) {
      Map<Told, Integer> row = new EnumMap<>(Told.class);
      for (int k = 0; k < HISTORIES; k++) {
        Outcome o = run(p, new Random(SEED * 1_000_003 + 1000L * p.ordinal() + k));
        row.merge(o.told, 1, Integer::sum);
        elsewhere.merge(p, o.elsewhere ? 1 : 0, Integer::sum);
        placed += o.placed && p.name().startsWith("STEP") ? 1 : 0;
      }
      table.put(p, row);
    }
    print(table, elsewhere);
    int steps = 0;
    int told = 0;
    for (Planted p :
        List.of(
            Planted.STEP,
            Planted.STEP_EARLY_OR_LATE,
            Planted.STEP_AS_TEMPERATURE_TURNS,
            Planted.STEP_AND_SOME_TEMPERATURE)) {
      Map<Told, Integer> row = table.getOrDefault(p, Map.of());
      told += row.getOrDefault(Told.STEP, 0) + row.getOrDefault(Told.STEP_AND_TEMPERATURE, 0);
      steps += HISTORIES;
    }
    System.out.printf(
        Locale.ROOT,
        "steps told as steps: %d of %d, within two articles of their place: %d%n",
        told,
        steps,
        placed);
    assertThat(told / (double) steps).isGreaterThanOrEqualTo(0.95 - 2 * error(0.95, steps));
    for (Planted p : List.of(Planted.STEADY_DRIFT, Planted.TEMPERATURE, Planted.WARM_UP)) {
      int right = table.getOrDefault(p, Map.of()).getOrDefault(Told.valueOf(p.name()), 0);
      assertThat(right / (double) HISTORIES)
          .as(p.name())
          .isGreaterThanOrEqualTo(0.9 - 2 * error(0.9, HISTORIES));
    }
    int quiet =
        HISTORIES - table.getOrDefault(Planted.NOTHING, Map.of()).getOrDefault(Told.NOTHING, 0);
    assertThat(quiet / (double) HISTORIES).isLessThanOrEqualTo(0.05 + 3 * error(0.05, HISTORIES));
  }

  private static double error(double p, int n) {
    return Math.sqrt(p * (1 - p) / n);
  }

  private static void print(
      Map<Planted, Map<Told, Integer>> table, Map<Planted, Integer> elsewhere) {
    StringBuilder out = new StringBuilder(String.format("%-28s", "planted \\ told"));
    for (Told t : Told.values()) {
      out.append(String.format("%15s", words(t.name())));
    }
    out.append(String.format("%15s%n", "other series"));
    table.forEach(
        (p, row) -> {
          out.append(String.format("%-28s", words(p.name())));
          for (Told t : Told.values()) {
            out.append(String.format("%15d", row.getOrDefault(t, 0)));
          }
          out.append(String.format("%15d%n", elsewhere.getOrDefault(p, 0)));
        });
    System.out.print(out);
  }

  private static String words(String name) {
    return name.toLowerCase(Locale.ROOT)
        .replace('_', ' ')
        .replace("step and temperature", "step+temp.");
  }

  private static Outcome run(Planted p, Random r) {
    int n = LENGTHS[r.nextInt(LENGTHS.length)];
    double[] minutes = new double[n];
    double[] se = new double[n];
    double[] inShift = {8, 60, 240};
    for (int i = 0; i < n; i++) {
      minutes[i] = inShift[i % 3] + 10 * r.nextDouble();
      se[i] = (i % 6 == 5 ? 0.012 : 0.005) * (0.8 + 0.4 * r.nextDouble());
    }
    double sd = Math.hypot(REPEATABILITY, 0.005);
    int at = 4 + r.nextInt(n - 7);
    if (p == Planted.STEP_EARLY_OR_LATE) {
      int edge = 4 + r.nextInt(4);
      at = r.nextBoolean() ? edge : n - edge;
    }
    double[] celsius = temperature(n, r);
    while (p == Planted.STEP_AS_TEMPERATURE_TURNS && Math.abs(withStep(celsius, at)) < ALONG) {
      celsius = temperature(n, r);
    }
    double size = (r.nextBoolean() ? 1 : -1) * sd * (LEAST + 3 * r.nextDouble());
    List<DriftSeries> all = new ArrayList<>();
    for (int s = 0; s < SERIES; s++) {
      List<SeriesPoint> points = new ArrayList<>();
      for (int i = 0; i < n; i++) {
        double v = Math.hypot(REPEATABILITY, se[i]) * r.nextGaussian();
        if (s == 0) {
          v +=
              switch (p) {
                case NOTHING -> 0;
                case STEP, STEP_EARLY_OR_LATE, STEP_AS_TEMPERATURE_TURNS -> i >= at ? size : 0;
                case STEP_AND_SOME_TEMPERATURE ->
                    (i >= at ? size : 0) + 0.4 * sd * (celsius[i] - 22) / 2;
                case STEADY_DRIFT -> 1.3 * size * i / n;
                case TEMPERATURE -> 0.45 * size * (celsius[i] - 22) / 2;
                case WARM_UP -> 1.2 * size * Math.exp(-minutes[i] / 25);
              };
        }
        points.add(point(i, v, se[i], minutes[i], celsius[i]));
      }
      String name = s == 0 ? NAME : (s < 6 ? "nozzle N" : "part T") + (s + 1) + " x";
      all.add(new DriftSeries(name, "mm", points));
    }
    return outcome(ANALYSIS.run(all, List.of()), at);
  }

  // Wanders over some ten articles, and with the season.
  private static double[] temperature(int n, Random r) {
    double[] c = new double[n];
    double wander = r.nextGaussian();
    double season = r.nextGaussian();
    for (int i = 0; i < n; i++) {
      wander = 0.9 * wander + Math.sqrt(1 - 0.81) * r.nextGaussian();
      c[i] = 22 + 2 * (wander + season * (i - 0.5 * n) / n) + 0.3 * r.nextGaussian();
    }
    return c;
  }

  /** Correlation with a step. */
  private static double withStep(double[] v, int at) {
    int n = v.length;
    double mean = java.util.Arrays.stream(v).average().orElse(0);
    double share = 1 - at / (double) n;
    double sxy = 0;
    double sxx = 0;
    for (int i = 0; i < n; i++) {
      sxy += (v[i] - mean) * ((i >= at ? 1 : 0) - share);
      sxx += (v[i] - mean) * (v[i] - mean);
    }
    return sxy / Math.sqrt(sxx * n * share * (1 - share));
  }

  private static SeriesPoint point(int i, double v, double se, double minutes, double celsius) {
    Instant at =
        Instant.parse("2026-01-05T06:00:00Z")
            .plus(Duration.ofHours(8L * (i / 3)))
            .plusSeconds(Math.round(60 * minutes));
    return new SeriesPoint(at, "A" + i, v, v, se, minutes, celsius, Double.NaN);
  }

  private static Outcome outcome(DriftResult r, int at) {
    double half = r.family().half();
    SeriesDrift d = r.series().get(0);
    boolean step = !d.changes().isEmpty();
    boolean slope = d.trends(half);
    boolean warm = d.warmUp() != null;
    boolean temp = d.followsTemperature(half);
    int causes = (step ? 1 : 0) + (slope ? 1 : 0) + (warm ? 1 : 0) + (temp ? 1 : 0);
    Told told;
    if (causes == 0) {
      told = d.signals().isEmpty() ? Told.NOTHING : Told.CHART_ONLY;
    } else if (causes == 1) {
      told = step ? Told.STEP : slope ? Told.STEADY_DRIFT : warm ? Told.WARM_UP : Told.TEMPERATURE;
    } else {
      told = causes == 2 && step && temp ? Told.STEP_AND_TEMPERATURE : Told.OTHER_MIXTURE;
    }
    boolean elsewhere =
        r.hints().stream().flatMap(h -> h.series().stream()).anyMatch(s -> !s.equals(NAME));
    boolean placed = d.changes().stream().anyMatch(c -> Math.abs(c.index() - at) <= 2);
    return new Outcome(told, elsewhere, placed && step);
  }
}
