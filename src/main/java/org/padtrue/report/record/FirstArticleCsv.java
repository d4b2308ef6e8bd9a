package org.padtrue.report.record;

import com.fasterxml.jackson.databind.SequenceWriter;
import com.fasterxml.jackson.dataformat.csv.CsvGenerator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * The accountability table for a spreadsheet: comma, decimal point, UTF-8, one header line, quotes
 * where needed, empty where a value does not apply or is not known; mm and degrees to six decimals.
 *
 * <pre>
 * number,panel,column,row,ref,part,characteristic,designator,unit,nominal,lower,upper,result,
 * deviation,expanded_uncertainty,conformity,tools,nonconformance,comment
 * </pre>
 */
public final class FirstArticleCsv {
  static final List<String> COLUMNS =
      List.of(
          "number",
          "panel",
          "column",
          "row",
          "ref",
          "part",
          "characteristic",
          "designator",
          "unit",
          "nominal",
          "lower",
          "upper",
          "result",
          "deviation",
          "expanded_uncertainty",
          "conformity",
          "tools",
          "nonconformance",
          "comment");

  private FirstArticleCsv() {}

  /** Writes the table; the stream is closed. */
  public static void write(FirstArticleRecord r, OutputStream stream) throws IOException {
    CsvSchema.Builder b = CsvSchema.builder();
    COLUMNS.forEach(b::addColumn);
    CsvMapper mapper = new CsvMapper();
    mapper.enable(CsvGenerator.Feature.STRICT_CHECK_FOR_QUOTING);
    CsvSchema schema = b.build().withHeader().withLineSeparator("\n");
    try (SequenceWriter w = mapper.writer(schema).writeValues(stream)) {
      for (Characteristic c : r.characteristics()) {
        w.write(line(c));
      }
    }
  }

  private static String words(Conformity c) {
    return c == Conformity.SLIP
        ? "transcription error"
        : c.key().replaceAll("(?<=[a-z])(?=[A-Z])", " ").toLowerCase(Locale.ROOT);
  }

  private static List<String> line(Characteristic c) {
    return List.of(
        Integer.toString(c.number()),
        c.panel(),
        Integer.toString(c.board().column()),
        Integer.toString(c.board().row()),
        c.ref(),
        c.part(),
        c.kind().words(),
        c.designator(),
        c.kind().unit(),
        Figures.plain(c.nominal()),
        Figures.plain(c.lower()),
        Figures.plain(c.upper()),
        Figures.plain(c.result()),
        Figures.plain(c.deviation()),
        Figures.plain(c.expandedUncertainty()),
        words(c.conformity()),
        c.tools().stream().map(String::valueOf).collect(Collectors.joining(" ")),
        c.nonconformance(),
        c.comment());
  }
}
