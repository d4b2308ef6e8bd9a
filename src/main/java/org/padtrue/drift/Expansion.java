package org.padtrue.drift;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Range of a material's linear expansion.
 *
 * @param material its name
 * @param lowPpmPerK lower end, 1e-6 per kelvin
 * @param highPpmPerK upper end
 * @param source where it is from
 */
public record Expansion(String material, double lowPpmPerK, double highPpmPerK, String source) {
  private static final String TABLE = "/org/padtrue/shared/expansion.csv";

  /** Coefficients below this are plain 1/K, not 1e-6/K: no solid used here expands so little. */
  private static final double PLAIN = 1e-3;

  /** The table that comes with the program; empty when there is none. */
  public static List<Expansion> table() {
    try (InputStream in = Expansion.class.getResourceAsStream(TABLE)) {
      return in == null ? List.of() : read(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Reads material,lowPerK,highPerK,source; '#' begins a comment line; a header line is skipped.
   */
  static List<Expansion> read(InputStream in) throws IOException {
    List<Expansion> table = new ArrayList<>();
    BufferedReader r = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
    for (String line = r.readLine(); line != null; line = r.readLine()) {
      Expansion e = parse(line.strip());
      if (e != null) {
        table.add(e);
      }
    }
    return table;
  }

  private static @Nullable Expansion parse(String line) {
    String[] f = line.split(",", 4);
    if (line.startsWith("#") || f.length < 3) {
      return null;
    }
    try {
      double low = Double.parseDouble(f[1].strip());
      double high = Double.parseDouble(f[2].strip());
      double factor = Math.max(Math.abs(low), Math.abs(high)) < PLAIN ? 1e6 : 1;
      return new Expansion(
          unquoted(f[0]), low * factor, high * factor, f.length > 3 ? unquoted(f[3]) : "");
    } catch (NumberFormatException header) {
      return null;
    }
  }

  private static String unquoted(String s) {
    String t = s.strip();
    return t.length() > 1 && t.startsWith("\"") && t.endsWith("\"")
        ? t.substring(1, t.length() - 1)
        : t;
  }

  /** True when a slope with a standard error could be this material. */
  boolean matches(double slope, double standardError) {
    double s = Math.abs(slope);
    double low = Math.min(Math.abs(lowPpmPerK), Math.abs(highPpmPerK));
    double high = Math.max(Math.abs(lowPpmPerK), Math.abs(highPpmPerK));
    return s + 2 * standardError >= low && s - 2 * standardError <= high;
  }
}
