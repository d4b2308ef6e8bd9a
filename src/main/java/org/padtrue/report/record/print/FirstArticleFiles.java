package org.padtrue.report.record.print;

import java.nio.file.Path;
import java.util.List;
import org.padtrue.report.file.OutputFolder;
import org.padtrue.report.record.FirstArticleCsv;
import org.padtrue.report.record.FirstArticleJson;
import org.padtrue.report.record.FirstArticleRecord;

/** All files of a record. */
public final class FirstArticleFiles {
  /** The printed record. */
  public static final String PDF = "first-article.pdf";

  /** The accountability table. */
  public static final String CSV = "first-article.csv";

  /** Everything, for other programs. */
  public static final String JSON = "first-article.json";

  private FirstArticleFiles() {}

  /**
   * Writes PDF, CSV and JSON, or none of them.
   *
   * @param r the record
   * @param paper paper to print on
   * @param outDir folder, made when it is not there
   * @return the files in the order written, the PDF last
   * @throws org.padtrue.problem.InputException when the folder cannot be written
   */
  public static List<Path> write(FirstArticleRecord r, Paper paper, Path outDir) {
    try (OutputFolder folder = new OutputFolder(outDir)) {
      folder.write(JSON, out -> FirstArticleJson.write(r, out));
      folder.write(CSV, out -> FirstArticleCsv.write(r, out));
      folder.write(PDF, out -> FirstArticlePdf.write(r, paper, out));
      return folder.commit();
    }
  }
}
