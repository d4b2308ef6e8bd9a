package org.padtrue.cli;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredAnalysis;

/** One run of the program: what it printed and how it ended. */
record Run(int code, String out, String err) {
  static Run of(Object... args) {
    String[] texts = new String[args.length];
    for (int i = 0; i < texts.length; i++) {
      texts[i] = args[i].toString();
    }
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(texts, new PrintWriter(out, true), new PrintWriter(err, true));
    return new Run(code, out.toString(), err.toString());
  }

  /** What 'analyse' writes as analysis.json, without the charts, which take their time. */
  static StoredAnalysis analyse(Path job, Path article, Path folder) {
    ConsoleProgress silent = new ConsoleProgress(new PrintWriter(new StringWriter()), true);
    FirstArticleResult r =
        AnalyseCommand.analyse(job, List.of(article), AnalysisOptions.withDefaults(), silent);
    Path json = folder.resolve("analysis.json");
    try {
      Files.createDirectories(folder);
      try (OutputStream out = Files.newOutputStream(json)) {
        AnalysisJson.write(r, out);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return AnalysisJson.read(json);
  }
}
