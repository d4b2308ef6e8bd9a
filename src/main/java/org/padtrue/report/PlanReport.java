package org.padtrue.report;

import com.fasterxml.jackson.databind.SequenceWriter;
import com.fasterxml.jackson.dataformat.csv.CsvGenerator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.padtrue.panel.Job;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.report.file.OutputFolder;
import org.padtrue.report.plot.PlanCharts;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.words.Show;

/**
 * A measuring plan as files: the table to work down, in walking order, and beside it the chart of
 * uncertainty and the map of the walk.
 *
 * <p>The table: comma, decimal point, UTF-8, one header line {@code order, column, row, ref, part,
 * x, y, rotation} with the nominal pose in the panel frame (mm, degrees). As a form it has three
 * more columns, {@code dx, dy, drotation}, empty, and says above them in a comment what to write:
 * filled in, it is an article.
 */
public final class PlanReport {
  static final List<String> COLUMNS =
      List.of("order", "column", "row", "ref", "part", "x", "y", "rotation");
  static final List<String> TO_FILL_IN = List.of("dx", "dy", "drotation");

  /** What to write into the form; reads as a comment. */
  static final String WHAT_TO_WRITE =
      "# dx, dy (mm), drotation (degrees): measured minus nominal, plus = right, up,"
          + " counter-clockwise as placed; leave empty what is not measured";

  private PlanReport() {}

  /**
   * Writes FILE and, beside it, the charts NAME-uncertainty and NAME-walk; all or none.
   *
   * @param job the job that is planned for
   * @param plan what to measure
   * @param wantedMm standard error that was wanted, mm; NaN when none was
   * @param form true for empty columns to fill in
   * @param file the table
   * @param formats what the charts are drawn as; none: there are no charts
   * @return the files in the order written, the table first
   * @throws org.padtrue.problem.InputException when a file cannot be written
   */
  public static List<Path> write(
      Job job,
      MeasuringPlan plan,
      double wantedMm,
      boolean form,
      Path file,
      Set<ChartFormat> formats) {
    Path folder = file.getParent();
    String name = String.valueOf(file.getFileName());
    int dot = name.lastIndexOf('.');
    String base = dot > 0 ? name.substring(0, dot) : name;
    try (OutputFolder out = new OutputFolder(folder == null ? Path.of("") : folder)) {
      out.write(name, s -> table(plan, form, s));
      out.write(base + "-", PlanCharts.render(job, plan, wantedMm, formats));
      return out.commit();
    }
  }

  /** Writes the table into a stream, which is closed; as a form with empty columns to fill in. */
  public static void table(MeasuringPlan plan, boolean form, OutputStream stream)
      throws IOException {
    table(plan, form, 1, stream);
  }

  /** The same for several panels, P1, P2 ..., one after the other; then with a column panel. */
  public static void table(MeasuringPlan plan, boolean form, int panels, OutputStream stream)
      throws IOException {
    List<String> columns = new ArrayList<>(COLUMNS);
    if (panels > 1) {
      columns.add(1, "panel");
    }
    if (form) {
      columns.addAll(TO_FILL_IN);
    }
    if (form) {
      stream.write((WHAT_TO_WRITE + "\n").getBytes(StandardCharsets.UTF_8));
    }
    CsvSchema.Builder b = CsvSchema.builder();
    columns.forEach(b::addColumn);
    CsvMapper mapper = new CsvMapper();
    mapper.enable(CsvGenerator.Feature.STRICT_CHECK_FOR_QUOTING);
    try (SequenceWriter w =
        mapper.writer(b.build().withHeader().withLineSeparator("\n")).writeValues(stream)) {
      for (int panel = 1; panel <= panels; panel++) {
        for (MeasuringPlan.PlanLine l : plan.lines()) {
          List<String> row = row(l);
          if (panels > 1) {
            row.set(0, Integer.toString((panel - 1) * plan.lines().size() + l.order()));
            row.add(1, "P" + panel);
          }
          if (form) {
            TO_FILL_IN.forEach(c -> row.add(""));
          }
          w.write(row);
        }
      }
    }
  }

  private static List<String> row(MeasuringPlan.PlanLine l) {
    return new ArrayList<>(
        List.of(
            Integer.toString(l.order()),
            Integer.toString(l.column()),
            Integer.toString(l.row()),
            l.ref(),
            l.part(),
            Show.plain(l.x()),
            Show.plain(l.y()),
            Show.plain(l.rotation())));
  }
}
