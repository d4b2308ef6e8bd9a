package org.padtrue.drift;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.numeric.Holm;

/** All p values of the family, adjusted together. */
final class Tests {
  private final Map<String, Double> adjusted;

  private Tests(Map<String, Double> adjusted) {
    this.adjusted = adjusted;
  }

  static Tests of(List<SeriesModel> models) {
    List<String> keys = new ArrayList<>();
    List<Double> p = new ArrayList<>();
    for (int i = 0; i < models.size(); i++) {
      SeriesModel m = models.get(i);
      if (m.trend != null) {
        put(keys, p, "trend" + i, m.trend.p());
      }
      for (int k = 0; k < m.changeP.length; k++) {
        put(keys, p, "change" + i + "/" + k, m.changeP[k]);
      }
      if (m.temperature != null) {
        put(keys, p, "temperature" + i, m.temperature.p());
      }
      if (m.warmUp != null) {
        put(keys, p, "warmUp" + i, m.warmUp.p());
      }
      for (int k = 0; k < m.eventSteps.size(); k++) {
        put(keys, p, "step" + i + "/" + k, m.eventSteps.get(k).p());
      }
    }
    double[] holm = Holm.adjust(p.stream().mapToDouble(Double::doubleValue).toArray());
    Map<String, Double> adjusted = new HashMap<>();
    for (int i = 0; i < holm.length; i++) {
      adjusted.put(keys.get(i), holm[i]);
    }
    return new Tests(adjusted);
  }

  private static void put(List<String> keys, List<Double> all, String key, double p) {
    if (!Double.isNaN(p)) {
      keys.add(key);
      all.add(p);
    }
  }

  int count() {
    return adjusted.size();
  }

  double trend(int series) {
    return adjusted.getOrDefault("trend" + series, Double.NaN);
  }

  double change(int series, int step) {
    return adjusted.getOrDefault("change" + series + "/" + step, Double.NaN);
  }

  double temperature(int series) {
    return adjusted.getOrDefault("temperature" + series, Double.NaN);
  }

  double warmUp(int series) {
    return adjusted.getOrDefault("warmUp" + series, Double.NaN);
  }

  double step(int series, int event) {
    return adjusted.getOrDefault("step" + series + "/" + event, Double.NaN);
  }
}
