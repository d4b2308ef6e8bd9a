package org.padtrue.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.log.DriftStudy;
import org.padtrue.report.file.OutputFolder;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.DriftJson;
import org.padtrue.report.page.DriftPage;
import org.padtrue.report.page.HtmlReport;
import org.padtrue.report.words.ConsoleSummary;
import org.padtrue.report.words.DriftSummary;

/** The files of a report without its charts, which take most of the time. */
public final class PlainReport {
  private PlainReport() {}

  /** What 'analyse' writes, with what it prints as console.txt. */
  public static void write(FirstArticleResult r, Path dir) throws IOException {
    try (OutputFolder folder = new OutputFolder(dir)) {
      folder.write("analysis.json", out -> AnalysisJson.write(r, out));
      folder.write("trims.csv", out -> CsvTables.trims(r.trims(), out));
      folder.write("residuals.csv", out -> CsvTables.residuals(r, out));
      text(folder, "report.html", HtmlReport.of(r, List.of()));
      text(folder, "console.txt", String.join("\n", ConsoleSummary.of(r, dir)));
      folder.commit();
    }
  }

  /** What 'drift' writes, with what it prints. */
  public static void write(DriftStudy s, Path dir) throws IOException {
    try (OutputFolder folder = new OutputFolder(dir)) {
      folder.write("drift.json", out -> DriftJson.write(s, out));
      text(folder, "drift.html", DriftPage.of(s, List.of()));
      text(folder, "console.txt", String.join("\n", DriftSummary.of(s, dir)));
      folder.commit();
    }
  }

  private static void text(OutputFolder folder, String name, String text) throws IOException {
    folder.write(name, out -> out.write(text.getBytes(StandardCharsets.UTF_8)));
  }
}
