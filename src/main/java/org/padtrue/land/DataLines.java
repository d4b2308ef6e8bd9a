package org.padtrue.land;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * Reads the project's own small reference tables: comma separated, '#' lines are remarks, the last
 * column is free text and may hold commas, no quotes. The first line that is no remark is the
 * header.
 */
final class DataLines {
  private DataLines() {}

  /**
   * One row.
   *
   * @param line 1-based line number
   * @param cells trimmed cells, never more than the header has
   */
  record Row(int line, List<String> cells) {}

  /** Rows of a table, header first. */
  static List<Row> read(Reader in, int columns) throws IOException {
    List<Row> rows = new ArrayList<>();
    BufferedReader r = new BufferedReader(in);
    int n = 0;
    for (String s = r.readLine(); s != null; s = r.readLine()) {
      n++;
      String t = n == 1 && s.startsWith("\uFEFF") ? s.substring(1) : s;
      if (!t.isBlank() && !t.startsWith("#")) {
        List<String> cells = new ArrayList<>();
        for (String c : t.split(",", columns)) {
          cells.add(c.strip());
        }
        rows.add(new Row(n, List.copyOf(cells)));
      }
    }
    return rows;
  }

  /** Rows of a bundled table, header first. */
  static List<Row> bundled(String name, int columns) {
    try (InputStream in = DataLines.class.getResourceAsStream("/org/padtrue/shared/" + name)) {
      if (in == null) {
        throw new IllegalStateException("bundled table " + name + " is missing from the program");
      }
      return read(new InputStreamReader(in, StandardCharsets.UTF_8), columns);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
