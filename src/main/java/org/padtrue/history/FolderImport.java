package org.padtrue.history;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Records a folder of old articles in order of the time they were measured. */
public final class FolderImport {
  private FolderImport() {}

  /** Makes an article of a file. */
  public interface Source {
    /**
     * Reads and fits one file.
     *
     * @throws InputException when the file cannot be used
     */
    LoggedArticle read(Path file);
  }

  /**
   * What became of the files.
   *
   * @param recorded names of the files recorded
   * @param known names of the files whose articles were in the log already
   * @param problems what was wrong with the others
   */
  public record Imported(List<String> recorded, List<String> known, List<Problem> problems) {
    public Imported {
      recorded = List.copyOf(recorded);
      known = List.copyOf(known);
      problems = List.copyOf(problems);
    }
  }

  private record Ready(Path file, LoggedArticle article) {}

  /** Imports files, the oldest article first. */
  public static Imported run(ArticleLog log, List<Path> files, Source source) {
    List<Ready> ready = new ArrayList<>();
    List<Problem> problems = new ArrayList<>();
    for (Path file : files) {
      try {
        ready.add(new Ready(file, source.read(file)));
      } catch (InputException e) {
        problems.addAll(e.problems());
      }
    }
    ready.sort(Comparator.comparing((Ready r) -> r.article.measuredAt()));
    List<String> recorded = new ArrayList<>();
    List<String> known = new ArrayList<>();
    for (Ready r : ready) {
      String name = String.valueOf(r.file.getFileName());
      if (log.contains(r.article)) {
        known.add(name);
        continue;
      }
      try {
        log.record(r.article);
        recorded.add(name);
      } catch (InputException e) {
        problems.addAll(e.problems());
      }
    }
    return new Imported(recorded, known, problems);
  }

  /** The CSV files of a folder by name, its subfolders not. */
  public static List<Path> files(Path folder) {
    try (Stream<Path> all = Files.list(folder)) {
      return all.filter(Files::isRegularFile)
          .filter(f -> f.toString().toLowerCase(Locale.ROOT).endsWith(".csv"))
          .sorted()
          .toList();
    } catch (IOException e) {
      throw new InputException(
          Problem.of(folder.toString(), "the folder cannot be read", "check the path"));
    }
  }
}
