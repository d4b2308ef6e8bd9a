package org.padtrue.drift;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/** Columns of the published data sets beside the tests; their first line names the source. */
public final class Data {
  private Data() {}

  public static double[] column(String file, String name) {
    List<String> lines = lines(file);
    int c = Arrays.asList(lines.get(0).split(",")).indexOf(name);
    return lines.stream().skip(1).mapToDouble(l -> Double.parseDouble(l.split(",")[c])).toArray();
  }

  private static List<String> lines(String file) {
    try (BufferedReader r =
        new BufferedReader(
            new InputStreamReader(
                Objects.requireNonNull(Data.class.getResourceAsStream(file), file),
                StandardCharsets.UTF_8))) {
      return r.lines().filter(l -> !l.startsWith("#") && !l.isBlank()).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static double[] fill(int n, double v) {
    double[] a = new double[n];
    Arrays.fill(a, v);
    return a;
  }
}
