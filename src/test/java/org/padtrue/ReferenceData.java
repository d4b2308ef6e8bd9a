package org.padtrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** Published data sets on the test class path; their first line names the source. */
public final class ReferenceData {
  private ReferenceData() {}

  /** Rows of a CSV resource as text, header and '#' lines left out. */
  public static List<String[]> rows(Class<?> near, String name) {
    try (BufferedReader r =
        new BufferedReader(
            new InputStreamReader(
                Objects.requireNonNull(near.getResourceAsStream(name), name),
                StandardCharsets.UTF_8))) {
      List<String[]> out = new ArrayList<>();
      boolean header = false;
      for (String line = r.readLine(); line != null; line = r.readLine()) {
        if (line.startsWith("#") || line.isBlank()) {
          continue;
        }
        if (!header) {
          header = true;
          continue;
        }
        out.add(line.split(",", -1));
      }
      return out;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A column of numbers. */
  public static double[] column(List<String[]> rows, int i) {
    return rows.stream().mapToDouble(r -> Double.parseDouble(r[i].trim())).toArray();
  }
}
