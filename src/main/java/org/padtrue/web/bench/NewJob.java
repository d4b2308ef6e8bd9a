package org.padtrue.web.bench;

import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.corrected.CorrectedFileInputs;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.placement.Bills;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.QuestionException;
import org.padtrue.web.server.FileNames;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Uploads;

/**
 * A job made of the files that somebody dropped on the page: job file, placements, bill of
 * materials, part types, measurements, in any order and under any names.
 */
final class NewJob {
  private static final String PLACEMENTS = "\"placements\"";

  private final Workspace workspace;

  NewJob(Workspace workspace) {
    this.workspace = workspace;
  }

  /**
   * What became of the files.
   *
   * @param job the job
   * @param articles articles that were among them
   */
  record Made(JobFolder job, List<BenchArticle> articles) {}

  /** Makes a job, and an article of each file of measurements. */
  Made of(List<UploadedFile> files) throws IOException {
    Path aside = workspace.incoming();
    try {
      JobFolder unnamed = new JobFolder("job", aside);
      List<String> tables = new ArrayList<>(Uploads.write(files, aside));
      Optional<String> own = take(tables, aside, PLACEMENTS);
      Optional<String> parts = take(tables, aside, "\"parts\"");
      if (own.isPresent()) {
        notOurs(tables, aside);
        Files.move(aside.resolve(own.get()), unnamed.jobFile());
      } else {
        notOurs(tables, aside);
        draft(unnamed, tables, parts.orElse(""));
      }
      JobFolder job =
          workspace.newJob(
              unnamed.drafted() ? JobSettings.read(aside).name() : unnamed.name(), aside);
      return new Made(job, adopt(job));
    } finally {
      Workspace.drop(aside);
    }
  }

  /** Writes files beside those of a job, all whole first; gives the names that they got. */
  static List<String> sent(Workspace workspace, List<UploadedFile> files, Path folder)
      throws IOException {
    Path aside = workspace.incoming();
    try {
      List<String> names = new ArrayList<>(Uploads.write(files, aside));
      if (names.contains(JobFolder.JOB) && !has(aside.resolve(JobFolder.JOB), PLACEMENTS)) {
        notOurs(names, aside);
      }
      for (String n : names) {
        Files.move(aside.resolve(n), folder.resolve(n), StandardCopyOption.REPLACE_EXISTING);
      }
      return names;
    } finally {
      Workspace.drop(aside);
    }
  }

  private static boolean has(Path file, String key) throws IOException {
    return new String(Files.readAllBytes(file), StandardCharsets.UTF_8).contains(key);
  }

  /** A file that is called like a job file and is none makes room for ours. */
  static void notOurs(List<String> names, Path folder) throws IOException {
    int at = names.indexOf(JobFolder.JOB);
    if (at >= 0) {
      String other = FileNames.aside(JobFolder.JOB);
      Files.move(
          folder.resolve(JobFolder.JOB),
          folder.resolve(other),
          StandardCopyOption.REPLACE_EXISTING);
      names.set(at, other);
    }
  }

  /** The JSON file that has a key, taken out of the list. */
  private static Optional<String> take(List<String> names, Path folder, String key)
      throws IOException {
    for (String n : names) {
      boolean json = n.toLowerCase(Locale.ROOT).endsWith(".json");
      if (json && has(folder.resolve(n), key)) {
        names.remove(n);
        return Optional.of(n);
      }
    }
    return Optional.empty();
  }

  /** Finds the placement file by trying: the one that the others are articles of. */
  private static void draft(JobFolder job, List<String> tables, String parts) throws IOException {
    if (tables.isEmpty()) {
      throw Refusal.bad("There is no placement file among these; send it along.");
    }
    List<String> bills = new ArrayList<>();
    for (String t : tables) {
      if (Bills.is(job.folder().resolve(t))) {
        bills.add(t);
      }
    }
    bills.add("");
    JobSettings best = JobSettings.of(stem(tables.get(0)), tables.get(0), parts);
    int most = -1;
    for (String t : tables) {
      for (String bill : bills) {
        if (bill.equals(t)) {
          continue;
        }
        JobSettings s = JobSettings.of(stem(t), t, parts, bill);
        s.write(job.folder());
        int score = score(job, tables, t, bill);
        if (score > most) {
          most = score;
          best = s;
        }
      }
    }
    best.write(job.folder());
  }

  /** Takes a bill of materials that was sent after the placement file. */
  static void bill(JobFolder job, List<String> names) throws IOException {
    if (!job.drafted()) {
      return;
    }
    JobSettings s = JobSettings.read(job.folder());
    for (String n : names) {
      if (!n.equals(s.placements()) && Bills.is(job.folder().resolve(n))) {
        s.withBill(n).write(job.folder());
      }
    }
  }

  /**
   * Readable as placements: 2, or 1 where only refs remain that the bill does not name; 1 more with
   * a bill, and for every other table that is an article of it.
   */
  private static int score(JobFolder job, List<String> tables, String placements, String bill) {
    int billed = bill.isEmpty() ? 0 : 1;
    try {
      LoadedJob loaded = JobLoader.loadWithFile(job.jobFile()).orThrow();
      int score = 2 + billed;
      for (String t : tables) {
        boolean other = !t.equals(placements) && !t.equals(bill);
        score += other && isArticle(job, loaded, t) ? 1 : 0;
      }
      // an article may be readable as a list of placements; deviations never are
      return score;
    } catch (InputException e) {
      boolean asked = e.problems().stream().allMatch(p -> p.sentence().contains("\"unlisted\""));
      return asked ? billed : 0;
    }
  }

  private static boolean isArticle(JobFolder job, LoadedJob loaded, String file) {
    try {
      Article a = ArticleLoader.load(job.folder().resolve(file), loaded).orThrow();
      // a placement file repeats every nominal position: nobody measures that
      return a.measured().stream().anyMatch(m -> m.dxMm() != 0 || m.dyMm() != 0);
    } catch (QuestionException e) {
      // it is one, and the question is asked on its page; unless it seems to be of another board
      return !e.question().key().equals("otherBoard");
    } catch (InputException e) {
      return false;
    }
  }

  /** Makes articles of the files in a job's folder that turn out to be articles of it. */
  List<BenchArticle> adopt(JobFolder job) throws IOException {
    List<BenchArticle> made = new ArrayList<>();
    LoadedJob loaded;
    try {
      loaded = job.load();
    } catch (InputException e) {
      return made;
    }
    for (String name : unused(job)) {
      if (isArticle(job, loaded, name)) {
        made.add(
            workspace.newArticle(
                job,
                stem(name),
                (aside, begun) -> {
                  Files.copy(job.folder().resolve(name), aside.resolve(name));
                  return begun.withFile(name);
                }));
        Files.delete(job.folder().resolve(name));
      }
    }
    return made;
  }

  /** Files in a job's folder that the job does not name. */
  static List<String> unused(JobFolder job) throws IOException {
    List<Path> own = CorrectedFileInputs.of(job.jobFile());
    try (Stream<Path> s = Files.list(job.folder())) {
      return s.filter(Files::isRegularFile)
          .filter(p -> !own.contains(p))
          .map(p -> String.valueOf(p.getFileName()))
          .filter(n -> !n.equals(JobSettings.FILE) && !n.endsWith(".part"))
          .sorted()
          .toList();
    }
  }

  /** Why a file of a job's folder is no article of it. */
  static String why(JobFolder job, LoadedJob loaded, String file) {
    try {
      ArticleLoader.load(job.folder().resolve(file), loaded).orThrow();
      return "it repeats nominal positions and measures nothing.";
    } catch (InputException e) {
      return JobFolder.sentences(e, job.folder()).get(0) + ".";
    }
  }

  static String stem(String file) {
    int dot = file.lastIndexOf('.');
    return dot > 0 ? file.substring(0, dot) : file;
  }
}
