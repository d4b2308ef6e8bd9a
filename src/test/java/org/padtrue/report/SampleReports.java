package org.padtrue.report;

import java.nio.file.Path;
import java.util.List;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.report.file.Progress;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.words.ConsoleSummary;

/** Writes sample reports to look at: arguments are a folder and numbers of placements. */
public final class SampleReports {
  private SampleReports() {}

  public static void main(String[] args) {
    Path folder = Path.of(args[0]);
    for (String n : List.of(args).subList(1, args.length)) {
      FirstArticleResult r =
          n.equals("0") ? SampleResults.nothingToDo(120) : SampleResults.of(Integer.parseInt(n));
      AnalysisReport.write(r, folder.resolve(n), ChartFormat.shown(), Progress.SILENT);
      ConsoleSummary.of(r, folder.resolve(n)).forEach(System.out::println);
    }
  }
}
