package org.padtrue.report;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.report.file.OutputFolder;
import org.padtrue.report.file.Progress;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.page.HtmlReport;
import org.padtrue.report.plot.Charts;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.DrawnChart;

/** All files of a report. */
public final class AnalysisReport {
  private AnalysisReport() {}

  /** Writes analysis.json alone, for scripts; returns the file. */
  public static Path writeJson(FirstArticleResult r, Path outDir) {
    try (OutputFolder folder = new OutputFolder(outDir)) {
      folder.write("analysis.json", out -> AnalysisJson.write(r, out));
      return folder.commit().get(0);
    }
  }

  /**
   * Writes analysis.json, trims.csv, residuals.csv, report.html and charts/*.svg or *.png. Every
   * file is written under a temporary name and moved to its place in one step when all are ready,
   * so that a folder never holds half a report.
   *
   * @param r what was found
   * @param outDir folder, made when it is not there
   * @param formats what charts are drawn as; none: the page has none either
   * @param progress told how far it is
   * @return the files in the order written, report.html last
   * @throws org.padtrue.problem.InputException when the folder cannot be written
   */
  public static List<Path> write(
      FirstArticleResult r, Path outDir, Set<ChartFormat> formats, Progress progress) {
    try (OutputFolder folder = new OutputFolder(outDir)) {
      // tables first: a folder that cannot be written is found out before charts are drawn
      folder.write("analysis.json", out -> AnalysisJson.write(r, out));
      folder.write("trims.csv", out -> CsvTables.trims(r.trims(), out));
      folder.write("residuals.csv", out -> CsvTables.residuals(r, out));
      int total = Charts.count(r);
      List<DrawnChart> pictures =
          Charts.render(r, formats, done -> progress.step("drawing charts", done, total));
      folder.write("charts/", pictures);
      String page = HtmlReport.of(r, pictures);
      folder.write("report.html", out -> out.write(page.getBytes(StandardCharsets.UTF_8)));
      List<Path> files = folder.commit();
      progress.step("writing the report", 1, 1);
      return files;
    }
  }
}
