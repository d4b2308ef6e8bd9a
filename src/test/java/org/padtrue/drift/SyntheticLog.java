package org.padtrue.drift;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.numeric.Order;

/**
 * Invented logs with known truth: three weeks of five days, two shifts, four articles a shift, 120
 * articles; 8 panel terms, 5 types and 4 nozzles in x, y and rotation: 35 series. Articles have
 * between 20 and 400 placements and standard errors to match; shift and rotation vary from panel to
 * panel.
 */
final class SyntheticLog {
  static final int ARTICLES = 120;
  static final double SHIFT_REPEATABILITY = 0.010;

  private final Random random;
  private final Instant[] at = new Instant[ARTICLES];
  private final double[] minutes = new double[ARTICLES];
  private final double[] temperature = new double[ARTICLES];
  private final double[] placements = new double[ARTICLES];
  private final double[] sinceService = new double[ARTICLES];
  private final Map<String, double[]> state = new TreeMap<>();
  private final Map<String, double[]> error = new TreeMap<>();
  private final Map<String, double[]> trims = new TreeMap<>();

  SyntheticLog(long seed) {
    random = new Random(seed);
    Instant monday = Instant.parse("2026-01-05T06:00:00Z");
    double[] inShift = {10, 45, 120, 300};
    for (int i = 0; i < ARTICLES; i++) {
      int day = i / 8;
      int shift = i / 4 % 2;
      double m = inShift[i % 4] + 10 * random.nextDouble();
      minutes[i] = m;
      at[i] =
          monday
              .plus(day + 2L * (day / 5), ChronoUnit.DAYS)
              .plus(8L * shift, ChronoUnit.HOURS)
              .plusSeconds(Math.round(60 * m));
      temperature[i] =
          22 + 1.5 * Math.sin(0.9 * day) + (shift == 1 ? 1.5 : 0) + 0.4 * random.nextGaussian();
      placements[i] = i % 6 == 5 ? 20 : 150 + 250 * random.nextDouble();
      sinceService[i] = 10_000.0 * i;
    }
    for (String s : List.of("shiftX", "shiftY")) {
      series(s, 0.018, SHIFT_REPEATABILITY);
    }
    series("rotation", 0.02, 0.006);
    series("scaleXPpm", 450, 10);
    series("scaleYPpm", 450, 10);
    series("squarenessMrad", 0.45, 0.01);
    series("scatterX", 0.010, 0.0003);
    series("scatterY", 0.010, 0.0003);
    for (String f : List.of("part T1", "part T2", "part T3", "part T4", "part T5")) {
      level(f, 5);
    }
    for (String f : List.of("nozzle N1", "nozzle N2", "nozzle N3", "nozzle N4")) {
      level(f, 4);
    }
  }

  private void level(String name, int levels) {
    series(name + " x", 0.018 * Math.sqrt(levels), 0.002);
    series(name + " y", 0.018 * Math.sqrt(levels), 0.002);
    series(name + " rotation", 0.3 * Math.sqrt(levels), 0.02);
  }

  // Estimates with a standard error of perPlacement / sqrt(placements) and a spread beyond it.
  private void series(String name, double perPlacement, double spread) {
    double[] v = new double[ARTICLES];
    double[] se = new double[ARTICLES];
    for (int i = 0; i < ARTICLES; i++) {
      se[i] = perPlacement / Math.sqrt(placements[i]);
      v[i] = se[i] * random.nextGaussian() + spread * random.nextGaussian();
    }
    state.put(name, v);
    error.put(name, se);
    trims.put(name, new double[ARTICLES]);
  }

  /** Typical standard deviation of one article of a series, spread and own error together. */
  double sigma(String name, double spread) {
    double[] se = error.get(name).clone();
    return Math.hypot(Order.median(se), spread);
  }

  SyntheticLog temperature(String name, double perKelvin) {
    for (int i = 0; i < ARTICLES; i++) {
      state.get(name)[i] += perKelvin * (temperature[i] - 22);
    }
    return this;
  }

  SyntheticLog warmUp(String name, double amplitude, double tau) {
    for (int i = 0; i < ARTICLES; i++) {
      state.get(name)[i] += amplitude * Math.exp(-minutes[i] / tau);
    }
    return this;
  }

  SyntheticLog creep(String name, double perDay, int from) {
    for (int i = from; i < ARTICLES; i++) {
      state.get(name)[i] += perDay * days(i, from);
    }
    return this;
  }

  double days(int i, int from) {
    return ChronoUnit.SECONDS.between(at[from], at[i]) / 86400.0;
  }

  SyntheticLog step(String name, double size, int from) {
    for (int i = from; i < ARTICLES; i++) {
      state.get(name)[i] += size;
    }
    return this;
  }

  /** A trim entered before an article: the observed value moves, the machine's state does not. */
  SyntheticLog trim(String name, double increment, int from) {
    for (int i = from; i < ARTICLES; i++) {
      trims.get(name)[i] += increment;
    }
    return this;
  }

  /** A service before an article: its count of placements starts again. */
  SyntheticLog service(int from) {
    for (int i = from; i < ARTICLES; i++) {
      sinceService[i] = 10_000.0 * (i - from);
    }
    return this;
  }

  Instant at(int i) {
    return at[i];
  }

  List<DriftSeries> upTo(int articles) {
    List<DriftSeries> all = new ArrayList<>();
    for (Map.Entry<String, double[]> e : state.entrySet()) {
      String name = e.getKey();
      List<SeriesPoint> points = new ArrayList<>();
      for (int i = 0; i < articles; i++) {
        double s = e.getValue()[i];
        points.add(
            new SeriesPoint(
                at[i],
                "A" + i,
                s + trims.get(name)[i],
                s,
                error.get(name)[i],
                minutes[i],
                temperature[i],
                sinceService[i]));
      }
      all.add(new DriftSeries(name, unit(name), points));
    }
    return all;
  }

  private static String unit(String name) {
    if (name.endsWith("Ppm")) {
      return "ppm";
    }
    if (name.endsWith("Mrad")) {
      return "mrad";
    }
    return name.endsWith("otation") ? "deg" : "mm";
  }
}
