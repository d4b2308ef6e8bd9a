package org.padtrue.web.bench;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.web.server.FileNames;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Secret;

/**
 * The folder in which the pages work: {@code jobs/ID/} with the files of a job, {@code
 * articles/ID/} with the journal and files of an article. One server at a time.
 */
public final class Workspace implements AutoCloseable {
  private final Path folder;
  private final FileChannel lockFile;
  private final Map<String, JobFolder> jobs = new ConcurrentHashMap<>();
  private final Map<String, BenchArticle> articles = new ConcurrentHashMap<>();

  private Workspace(Path folder, FileChannel lockFile) {
    this.folder = folder;
    this.lockFile = lockFile;
  }

  /**
   * Opens a workspace, making it when it is not there.
   *
   * @throws InputException when the folder cannot be used or another server has it
   */
  public static Workspace open(Path folder) {
    try {
      Files.createDirectories(folder.resolve("jobs"));
      Files.createDirectories(folder.resolve("articles"));
      Path lock = folder.resolve("lock");
      FileChannel c = FileChannel.open(lock, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      if (!locked(c)) {
        c.close();
        throw new InputException(
            Problem.of(
                folder.toString(),
                "another padtrue serves this workspace",
                "use its pages, stop it, or name another folder with --workspace"));
      }
      return new Workspace(folder.toRealPath(), c);
    } catch (IOException e) {
      throw new InputException(
          Problem.of(
              folder.toString(),
              "the workspace cannot be used (" + e + ")",
              "name a folder that may be written with --workspace"));
    }
  }

  private static boolean locked(FileChannel c) throws IOException {
    try {
      @Nullable FileLock l = c.tryLock();
      return l != null;
    } catch (OverlappingFileLockException e) {
      return false;
    }
  }

  public Secret secret() throws IOException {
    return Secret.of(folder.resolve("secret"));
  }

  /** Jobs, newest first. */
  List<JobFolder> jobs() throws IOException {
    List<JobFolder> all = new ArrayList<>();
    for (Path p : newestFirst(folder.resolve("jobs"))) {
      all.add(job(String.valueOf(p.getFileName())));
    }
    return all;
  }

  public JobFolder job(String id) {
    Path p = folder.resolve("jobs").resolve(FileNames.id(id));
    if (!Files.isDirectory(p)) {
      throw Refusal.notThere("There is no such job here.");
    }
    return jobs.computeIfAbsent(id, i -> new JobFolder(i, p));
  }

  /** A folder for files whose job has no name yet. */
  Path incoming() throws IOException {
    return Files.createDirectories(folder.resolve("incoming").resolve(Secret.name()));
  }

  /** A new job of that name, made of a folder of incoming files. */
  public JobFolder newJob(String name, Path incoming) throws IOException {
    Path jobs = folder.resolve("jobs");
    String id = fresh(jobs, FileNames.slug(name));
    // the empty folder holds the name until the whole one takes its place
    Files.move(
        incoming,
        jobs.resolve(id),
        StandardCopyOption.REPLACE_EXISTING,
        StandardCopyOption.ATOMIC_MOVE);
    return job(id);
  }

  /** Removes a folder of incoming files of which no job was made. */
  static void drop(Path incoming) throws IOException {
    if (Files.exists(incoming)) {
      try (Stream<Path> s = Files.list(incoming)) {
        for (Path p : s.toList()) {
          Files.delete(p);
        }
      }
      Files.delete(incoming);
    }
  }

  /** Articles, newest first; all, or those of one job. */
  List<BenchArticle> articles(@Nullable String job) throws IOException {
    List<BenchArticle> all = new ArrayList<>();
    for (Path p : newestFirst(folder.resolve("articles"))) {
      BenchArticle a = article(String.valueOf(p.getFileName()));
      if (job == null || a.about().job().equals(job)) {
        all.add(a);
      }
    }
    return all;
  }

  BenchArticle article(String id) {
    Path p = folder.resolve("articles").resolve(FileNames.id(id));
    if (!Files.isRegularFile(p.resolve(ArticleAbout.FILE))) {
      throw Refusal.notThere("There is no such article here.");
    }
    return articles.computeIfAbsent(id, i -> BenchArticle.open(i, p));
  }

  /** A new article of a job. */
  public BenchArticle newArticle(JobFolder job, String name) throws IOException {
    Path all = folder.resolve("articles");
    String id = fresh(all, FileNames.slug(name));
    ArticleAbout.of(job.id(), name).write(all.resolve(id));
    return article(id);
  }

  /** Makes a folder whose name nobody has yet. */
  private static String fresh(Path in, String slug) throws IOException {
    for (int n = 1; ; n++) {
      String id = n == 1 ? slug : slug + "-" + n;
      if (!Files.exists(in.resolve(id))) {
        Files.createDirectory(in.resolve(id));
        return id;
      }
    }
  }

  private static List<Path> newestFirst(Path in) throws IOException {
    try (Stream<Path> s = Files.list(in)) {
      return s.filter(Files::isDirectory)
          .sorted(Comparator.comparing(Workspace::changed).reversed().thenComparing(p -> p))
          .toList();
    }
  }

  private static long changed(Path p) {
    try {
      return Files.getLastModifiedTime(p).toMillis();
    } catch (IOException e) {
      return 0;
    }
  }

  @Override
  public void close() {
    try {
      lockFile.close();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
