package org.padtrue.web.check;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.web.kept.Aside;

/**
 * The analysis whose trims were entered before an article was placed, kept in that article's
 * folder: what is typed on the first one later changes nothing of it.
 */
final class Before {
  static final String FILE = "before.json";

  private Before() {}

  static boolean in(Path folder) {
    return Files.isRegularFile(folder.resolve(FILE));
  }

  static StoredAnalysis read(Path folder) {
    return AnalysisJson.read(folder.resolve(FILE));
  }

  static void write(FirstArticleResult r, Path folder) {
    try {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      AnalysisJson.write(r, out);
      Aside.write(folder.resolve(FILE), out.toByteArray());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
