package org.padtrue.report;

import com.fasterxml.jackson.databind.SequenceWriter;
import com.fasterxml.jackson.dataformat.csv.CsvGenerator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.List;
import org.padtrue.trim.MeasuringPlan;

/**
 * A measuring plan as a table to work down and fill in, in walking order.
 *
 * <p>Comma, decimal point, UTF-8, one header line: {@code order, column, row, ref, part, x, y,
 * rotation} with the nominal pose in the panel frame (mm, degrees), then {@code dx, dy, drotation},
 * empty, for what is measured; filled in, the file is an article.
 */
public final class PlanCsv {
  static final List<String> COLUMNS =
      List.of(
          "order", "column", "row", "ref", "part", "x", "y", "rotation", "dx", "dy", "drotation");

  private PlanCsv() {}

  /** Writes a plan into a file, in one step. */
  public static void write(MeasuringPlan plan, Path file) {
    Path folder = file.toAbsolutePath().getParent();
    try (OutputFolder out = new OutputFolder(folder == null ? Path.of(".") : folder)) {
      out.write(String.valueOf(file.getFileName()), s -> write(plan, s));
      out.commit();
    }
  }

  static void write(MeasuringPlan plan, OutputStream stream) throws IOException {
    CsvSchema.Builder b = CsvSchema.builder();
    COLUMNS.forEach(b::addColumn);
    CsvMapper mapper = new CsvMapper();
    mapper.enable(CsvGenerator.Feature.STRICT_CHECK_FOR_QUOTING);
    try (SequenceWriter w =
        mapper.writer(b.build().withHeader().withLineSeparator("\n")).writeValues(stream)) {
      for (MeasuringPlan.PlanLine l : plan.lines()) {
        w.write(
            List.of(
                Integer.toString(l.order()),
                Integer.toString(l.column()),
                Integer.toString(l.row()),
                l.ref(),
                l.part(),
                Show.plain(l.x()),
                Show.plain(l.y()),
                Show.plain(l.rotation()),
                "",
                "",
                ""));
      }
    }
  }
}
