package org.padtrue.gauge;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/** Published data beside the tests: CSV with comment lines naming the source. */
final class GaugeData {
  private GaugeData() {}

  static List<Map<String, String>> rows(String resource) {
    try (InputStream in =
        Objects.requireNonNull(GaugeData.class.getResourceAsStream(resource), resource)) {
      List<Map<String, String>> rows = new ArrayList<>();
      String[] header = null;
      for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\r?\n")) {
        if (line.startsWith("#") || line.isBlank()) {
          continue;
        }
        String[] cells = line.split(",", -1);
        if (header == null) {
          header = cells;
          continue;
        }
        Map<String, String> row = new LinkedHashMap<>();
        for (int i = 0; i < header.length; i++) {
          row.put(header[i], cells[i]);
        }
        rows.add(row);
      }
      return rows;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A reading whose x and y are both the value. */
  static GaugeReading reading(String ref, String operator, String trial, double value) {
    return new GaugeReading(ref, operator, trial, false, value, value, Double.NaN, 0);
  }

  /** The crossed study 10 x 3 x 3. */
  static List<GaugeReading> crossed() {
    return rows("gauge-crossed-10x3x3.csv").stream()
        .map(
            r ->
                reading(
                    r.get("part"),
                    r.get("operator"),
                    r.get("trial"),
                    Double.parseDouble(r.get("y"))))
        .toList();
  }

  /** Numbers the distinct values of a column from 0. */
  static int[] levels(List<Map<String, String>> rows, String... columns) {
    Map<String, Integer> seen = new LinkedHashMap<>();
    return rows.stream()
        .mapToInt(
            r -> {
              StringBuilder key = new StringBuilder();
              for (String c : columns) {
                key.append(r.get(c)).append('|');
              }
              return seen.computeIfAbsent(key.toString(), k -> seen.size());
            })
        .toArray();
  }

  static double[] values(List<Map<String, String>> rows, String column) {
    return rows.stream().mapToDouble(r -> Double.parseDouble(r.get(column))).toArray();
  }
}
