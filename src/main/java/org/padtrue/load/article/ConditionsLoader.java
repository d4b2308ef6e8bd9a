package org.padtrue.load.article;

import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvParser;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.load.text.Nearest;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.WithProblems;

/**
 * Reads the table that goes with a folder of old articles: one line per article file, a header
 * first, comma or semicolon.
 *
 * <p>Columns: {@code article} (file name), and any of {@code at, machine, shift, operator, note,
 * temperature} (degrees Celsius), {@code humidity} (per cent), {@code minutesRunning,
 * placementsSinceService}; and {@code trim NAME}, a value that was added before the article, in the
 * unit of the series NAME (mm, degrees, ppm, mrad). An empty cell is not known.
 *
 * <pre>
 * article,at,shift,temperature,minutesRunning,trim scaleXPpm
 * a-001.csv,2026-03-02T06:10:00Z,early,22.4,10,
 * a-002.csv,2026-03-02T07:30:00Z,early,22.9,90,-120
 * </pre>
 */
public final class ConditionsLoader {
  private static final String TRIM = "trim ";
  private static final List<String> COLUMNS =
      List.of(
          "article",
          "at",
          "machine",
          "shift",
          "operator",
          "note",
          "temperature",
          "humidity",
          "minutesRunning",
          "placementsSinceService");

  private final ProblemList problems;
  private final List<String> header;

  private ConditionsLoader(String file, List<String> header) {
    this.problems = new ProblemList(file);
    this.header = header;
  }

  /**
   * Reads the table.
   *
   * @return lines by name of the article's file, and all problems
   * @throws InputException when the file as a whole cannot be used
   */
  public static WithProblems<Map<String, ArticleConditions>> load(Path path) {
    TextFile file = TextFile.read(path);
    List<String[]> rows = new ArrayList<>();
    List<Integer> lines = new ArrayList<>();
    read(file, rows, lines);
    if (rows.isEmpty()) {
      throw new InputException(
          Problem.of(file.name(), "it has no header line", "name the columns in its first line"));
    }
    ConditionsLoader l = new ConditionsLoader(file.name(), header(file.name(), rows.get(0)));
    l.refuseUnknownColumns(lines.get(0));
    Map<String, ArticleConditions> all = new LinkedHashMap<>();
    for (int i = 1; i < rows.size(); i++) {
      ArticleConditions c = l.row(rows.get(i), lines.get(i));
      if (all.putIfAbsent(c.file(), c) != null) {
        l.problems.add(
            c.line(), "article", "'" + c.file() + "' is listed twice", "leave one of the lines");
      }
    }
    return new WithProblems<>(all, l.problems.all());
  }

  private static void read(TextFile file, List<String[]> rows, List<Integer> lines) {
    String text = file.chars();
    String first = text.lines().filter(s -> !s.startsWith("#")).findFirst().orElse("");
    char separator = first.indexOf(';') >= 0 && first.indexOf(',') < 0 ? ';' : ',';
    CsvMapper mapper = new CsvMapper();
    mapper.enable(CsvParser.Feature.WRAP_AS_ARRAY);
    mapper.enable(CsvParser.Feature.SKIP_EMPTY_LINES);
    mapper.enable(CsvParser.Feature.TRIM_SPACES);
    CsvSchema schema = CsvSchema.emptySchema().withColumnSeparator(separator).withComments();
    try (MappingIterator<String[]> it =
        mapper.readerFor(String[].class).with(schema).readValues(text)) {
      while (it.hasNext()) {
        rows.add(it.next());
        lines.add(it.getCurrentLocation().getLineNr() - 1);
      }
    } catch (IOException | RuntimeException e) {
      throw new InputException(
          Problem.of(
              file.name(), "this is no table of comma-separated values", "export it again as CSV"));
    }
  }

  private static List<String> header(String file, String[] row) {
    List<String> names = new ArrayList<>();
    for (String cell : row) {
      names.add(known(cell.strip()));
    }
    if (!names.contains("article")) {
      throw new InputException(
          Problem.of(
              file, "there is no column 'article'", "give each line the name of its article file"));
    }
    return names;
  }

  private static String known(String cell) {
    if (cell.toLowerCase(java.util.Locale.ROOT).startsWith(TRIM)) {
      return TRIM + cell.substring(TRIM.length()).strip();
    }
    return COLUMNS.stream().filter(c -> c.equalsIgnoreCase(cell)).findFirst().orElse(cell);
  }

  private void refuseUnknownColumns(int line) {
    for (String name : header) {
      if (!COLUMNS.contains(name) && !name.startsWith(TRIM)) {
        List<String> near = Nearest.of(name, COLUMNS, 1);
        problems.add(
            line,
            "the column '" + name + "' is not known",
            near.isEmpty()
                ? "known are " + String.join(", ", COLUMNS) + " and 'trim NAME'"
                : "perhaps '" + near.get(0) + "' is meant");
      }
    }
  }

  private ArticleConditions row(String[] cells, int line) {
    Map<String, Double> trims = new LinkedHashMap<>();
    for (int c = 0; c < header.size(); c++) {
      if (header.get(c).startsWith(TRIM)) {
        double v = number(cells, header.get(c), line);
        if (!Double.isNaN(v) && v != 0) {
          trims.put(header.get(c).substring(TRIM.length()), v);
        }
      }
    }
    String file = text(cells, "article");
    if (file.isEmpty()) {
      problems.add(line, "article", "there is no file name", "name the article's file");
    }
    return new ArticleConditions(
        file,
        line,
        text(cells, "at"),
        text(cells, "machine"),
        text(cells, "shift"),
        text(cells, "operator"),
        text(cells, "note"),
        number(cells, "temperature", line),
        number(cells, "humidity", line),
        number(cells, "minutesRunning", line),
        number(cells, "placementsSinceService", line),
        trims);
  }

  private String text(String[] cells, String column) {
    int c = header.indexOf(column);
    return c < 0 || c >= cells.length ? "" : cells[c].strip();
  }

  private double number(String[] cells, String column, int line) {
    String s = text(cells, column);
    if (s.isEmpty()) {
      return Double.NaN;
    }
    try {
      double v = Double.parseDouble(s);
      if (Double.isFinite(v)) {
        return v;
      }
    } catch (NumberFormatException e) {
      // said below
    }
    problems.add(line, column, "'" + s + "' is not a number", "write it like 22.5");
    return Double.NaN;
  }
}
