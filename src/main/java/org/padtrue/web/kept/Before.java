package org.padtrue.web.kept;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredAnalysis;

/**
 * The analysis whose trims were entered before an article was placed, kept in that article's
 * folder: what is typed on the first one later changes nothing of it.
 */
public final class Before {
  private static final String FILE = "before.json";

  private Before() {}

  /** True when an article has one. */
  public static boolean in(Path folder) {
    return Files.isRegularFile(folder.resolve(FILE));
  }

  /** The analysis as it stood. */
  public static StoredAnalysis read(Path folder) {
    return AnalysisJson.read(folder.resolve(FILE));
  }

  /** Keeps a result in an article's folder. */
  public static void write(FirstArticleResult r, Path folder) {
    try {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      AnalysisJson.write(r, out);
      Aside.write(folder.resolve(FILE), out.toByteArray());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
