package org.padtrue.drift.hint;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
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
   * Reads a table: a header that names material, low..., high... and source, in any order and among
   * other columns; '#' begins a comment line. The source comes last and may hold commas.
   */
  public static List<Expansion> read(InputStream in) throws IOException {
    List<Expansion> table = new ArrayList<>();
    BufferedReader r = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
    Columns columns = Columns.DEFAULT;
    for (String line = r.readLine(); line != null; line = r.readLine()) {
      String text = line.strip();
      if (text.startsWith("#") || text.isEmpty()) {
        continue;
      }
      if (text.toLowerCase(Locale.ROOT).contains("material,")) {
        columns = Columns.of(text);
        continue;
      }
      Expansion e = columns.parse(text);
      if (e != null) {
        table.add(e);
      }
    }
    return table;
  }

  /** Where the columns stand. */
  private record Columns(int material, int low, int high, int source) {
    static final Columns DEFAULT = new Columns(0, 1, 2, 3);

    static Columns of(String header) {
      String[] names = header.toLowerCase(Locale.ROOT).split(",");
      return new Columns(
          find(names, "material", 0),
          find(names, "low", 1),
          find(names, "high", 2),
          find(names, "source", names.length));
    }

    private static int find(String[] names, String start, int otherwise) {
      for (int i = 0; i < names.length; i++) {
        if (names[i].strip().startsWith(start)) {
          return i;
        }
      }
      return otherwise;
    }

    @Nullable Expansion parse(String line) {
      String[] f = line.split(",", source + 1);
      if (f.length <= Math.max(material, Math.max(low, high))) {
        return null;
      }
      try {
        double from = Double.parseDouble(f[low].strip());
        double to = Double.parseDouble(f[high].strip());
        double factor = Math.max(Math.abs(from), Math.abs(to)) < PLAIN ? 1e6 : 1;
        String origin = source < f.length ? unquoted(f[source]) : "";
        return new Expansion(unquoted(f[material]), from * factor, to * factor, origin);
      } catch (NumberFormatException noNumber) {
        return null;
      }
    }
  }

  private static String unquoted(String s) {
    String t = s.strip();
    return t.length() > 1 && t.startsWith("\"") && t.endsWith("\"")
        ? t.substring(1, t.length() - 1)
        : t;
  }

  /** True when a slope with a standard error could be this material. */
  public boolean matches(double slope, double standardError) {
    double s = Math.abs(slope);
    double low = Math.min(Math.abs(lowPpmPerK), Math.abs(highPpmPerK));
    double high = Math.max(Math.abs(lowPpmPerK), Math.abs(highPpmPerK));
    return s + 2 * standardError >= low && s - 2 * standardError <= high;
  }
}
