package org.padtrue.report;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.padtrue.log.DriftStudy;
import org.padtrue.report.file.OutputFolder;
import org.padtrue.report.file.Progress;
import org.padtrue.report.json.DriftJson;
import org.padtrue.report.page.DriftPage;
import org.padtrue.report.plot.DriftCharts;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.DrawnChart;

/** All files of a study of drift. */
public final class DriftReport {
  private DriftReport() {}

  /** Writes drift.json alone, for scripts; returns the file. */
  public static Path writeJson(DriftStudy s, Path outDir) {
    try (OutputFolder folder = new OutputFolder(outDir)) {
      folder.write("drift.json", out -> DriftJson.write(s, out));
      return folder.commit().get(0);
    }
  }

  /**
   * Writes drift.json, drift.html and charts/*.svg or *.png, all or none.
   *
   * @param s what was found
   * @param outDir folder, made when it is not there
   * @param formats what charts are drawn as; none: the page has none either
   * @param progress told how far it is
   * @return the files in the order written
   * @throws org.padtrue.problem.InputException when the folder cannot be written
   */
  public static List<Path> write(
      DriftStudy s, Path outDir, Set<ChartFormat> formats, Progress progress) {
    try (OutputFolder folder = new OutputFolder(outDir)) {
      folder.write("drift.json", out -> DriftJson.write(s, out));
      List<DrawnChart> pictures =
          DriftCharts.render(s, formats, done -> progress.step("drawing charts", done, 0));
      folder.write("charts/", pictures);
      String page = DriftPage.of(s, pictures);
      folder.write("drift.html", out -> out.write(page.getBytes(StandardCharsets.UTF_8)));
      List<Path> files = folder.commit();
      progress.step("writing the report", 1, 1);
      return files;
    }
  }
}
