package org.padtrue.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.CircumstanceOptions;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.door.Door;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.Conditions;
import org.padtrue.history.FolderImport;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedTrim;
import org.padtrue.load.article.ArticleConditions;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.article.ConditionsLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.log.Recording;
import org.padtrue.log.SeriesNames;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.words.TimeText;

/** Records a folder of old articles of one job with the table of their circumstances. */
final class ImportArticles {
  private final LoadedJob job;
  private final CircumstanceOptions otherwise;
  private final ZoneId zone;
  private final Map<String, ArticleConditions> conditions;
  private final @Nullable Path table;
  private final ConsoleProgress progress;
  private int done;

  ImportArticles(
      LoadedJob job,
      CircumstanceOptions otherwise,
      ZoneId zone,
      @Nullable Path table,
      ConsoleProgress progress) {
    this.job = job;
    this.otherwise = otherwise;
    this.zone = zone;
    this.table = table;
    this.progress = progress;
    this.conditions = table == null ? Map.of() : ConditionsLoader.load(table).orThrow();
  }

  /** Records what is new; files that cannot be used are named when all others are in. */
  FolderImport.Imported run(ArticleLog log, Path folder) {
    List<Path> files = new ArrayList<>(FolderImport.files(folder));
    files.removeIf(f -> table != null && same(f, table));
    refuseMissing(folder, files);
    return FolderImport.run(
        log,
        files,
        f -> {
          progress.step("reading " + f.getFileName(), ++done, files.size());
          return read(f);
        });
  }

  private static boolean same(Path a, Path b) {
    return a.toAbsolutePath().normalize().equals(b.toAbsolutePath().normalize());
  }

  private void refuseMissing(Path folder, List<Path> files) {
    Map<String, ArticleConditions> left = new LinkedHashMap<>(conditions);
    files.forEach(f -> left.remove(String.valueOf(f.getFileName())));
    List<Problem> problems = new ArrayList<>();
    for (ArticleConditions c : left.values()) {
      problems.add(
          new Problem(
              String.valueOf(table),
              c.line(),
              "article",
              "there is no file '" + c.file() + "' in " + folder,
              "mend the name or take the line out"));
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  private LoggedArticle read(Path file) {
    String name = String.valueOf(file.getFileName());
    ArticleConditions c = conditions.get(name);
    Article article = ArticleLoader.load(file, job).orThrow();
    Door.require(job.job(), List.of(article), job.asIs());
    ArticleTerms terms = ArticleTerms.of(job.job(), article);
    return Recording.of(
        job.job(),
        article,
        terms,
        new Recording.Circumstances(
            c == null || c.machine().isEmpty() ? otherwise.machine(null) : c.machine(),
            c == null || c.at().isEmpty()
                ? modified(file)
                : TimeText.parse(c.at(), zone, String.valueOf(table), c.line(), "at"),
            c == null ? otherwise.conditions(Conditions.UNKNOWN) : conditions(c),
            c == null || c.note().isEmpty() ? otherwise.note(null) : c.note(),
            c == null ? List.of() : trims(c),
            List.of()));
  }

  private Conditions conditions(ArticleConditions c) {
    Conditions d = otherwise.conditions(Conditions.UNKNOWN);
    return new Conditions(
        c.shift().isEmpty() ? d.shift() : c.shift(),
        c.operator().isEmpty() ? d.operator() : c.operator(),
        known(c.temperatureC(), d.temperatureC()),
        known(c.humidityPercent(), d.humidityPercent()),
        known(c.minutesRunning(), d.minutesRunning()),
        known(c.placementsSinceService(), d.placementsSinceService()));
  }

  private static double known(double v, double otherwise) {
    return Double.isNaN(v) ? otherwise : v;
  }

  private List<LoggedTrim> trims(ArticleConditions c) {
    List<LoggedTrim> all = new ArrayList<>();
    c.trims()
        .forEach(
            (name, v) -> {
              String unit =
                  SeriesNames.trimUnit(name)
                      .orElseThrow(
                          () ->
                              new InputException(
                                  Problem.of(
                                      String.valueOf(table),
                                      "no trim is called '" + name + "'",
                                      "name the column like 'trim scaleXPpm' or 'trim part R0603"
                                          + " x'")));
              SeriesNames.wrong(name, v)
                  .ifPresent(
                      why -> {
                        throw new InputException(
                            new Problem(
                                String.valueOf(table), c.line(), "trim " + name, why, "mend it"));
                      });
              all.addAll(new LoggedTrim(name, unit, v, LoggedTrim.usualScope(name), "").apart());
            });
    return all;
  }

  // A file without a line in the table: the best that is known is when it was written.
  private static Instant modified(Path file) {
    try {
      return Files.getLastModifiedTime(file).toInstant();
    } catch (IOException e) {
      throw new InputException(
          Problem.of(file.toString(), "its time cannot be read", "give 'at' in --conditions"));
    }
  }
}
