package org.padtrue.web.bench;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.corrected.CorrectedFileInputs;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.web.server.PageWords;

/** The files of one job, and the job read from them; read again when one of them has changed. */
public final class JobFolder {
  static final String JOB = "job.json";

  private final String id;
  private final Path folder;
  private @Nullable LoadedJob loaded;
  private long stamp = -1;

  JobFolder(String id, Path folder) {
    this.id = id;
    this.folder = folder;
  }

  public String id() {
    return id;
  }

  public Path folder() {
    return folder;
  }

  public Path jobFile() {
    return folder.resolve(JOB);
  }

  /** True when the page wrote the job file itself. */
  boolean drafted() {
    return Files.exists(folder.resolve(JobSettings.FILE));
  }

  /** True when the page wrote the job file and nobody has spoken of the machine yet. */
  public boolean machineUnsaid() {
    try {
      return drafted() && !JobSettings.read(folder).machine().asked();
    } catch (IOException | InputException e) {
      return false;
    }
  }

  /**
   * The job.
   *
   * @throws InputException with every problem; names of files are those that were sent
   */
  public synchronized LoadedJob load() {
    long now = newest();
    LoadedJob j = loaded;
    if (j == null || now != stamp) {
      confined();
      j = JobLoader.loadWithFile(jobFile()).orThrow();
      loaded = j;
      stamp = now;
    }
    return j;
  }

  /** The job's name, or that of its folder while it cannot be read. */
  public String name() {
    try {
      return load().job().name();
    } catch (InputException e) {
      return id;
    }
  }

  /** A job file may name files of its own folder only. */
  private void confined() {
    List<Path> named;
    try {
      named = CorrectedFileInputs.of(jobFile());
    } catch (InvalidPathException e) {
      throw outside(String.valueOf(e.getInput()));
    }
    for (Path p : named) {
      Path plain = p.toAbsolutePath().normalize();
      if (!plain.startsWith(folder.toAbsolutePath().normalize()) || Files.isSymbolicLink(p)) {
        throw outside(String.valueOf(folder.relativize(plain)));
      }
    }
  }

  private static InputException outside(String name) {
    return new InputException(
        Problem.of(
            JOB,
            "the job names '" + name + "', which is not beside it",
            "send that file along and name it without a folder"));
  }

  private long newest() {
    try (var files = Files.list(folder)) {
      long sum = 0;
      for (Path p : files.sorted().toList()) {
        BasicFileAttributes a =
            Files.readAttributes(p, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
        sum = 31 * sum + a.lastModifiedTime().toMillis() + a.size();
      }
      return sum;
    } catch (IOException | UncheckedIOException e) {
      throw new InputException(
          Problem.of(id, "the files of the job cannot be read", "see that they may be read"));
    }
  }

  /** Problems in words for the page: without the folders of this machine. */
  public static List<String> sentences(InputException e, Path folder) {
    return plain(e.problems().stream().map(Problem::sentence).toList(), folder);
  }

  /** Sentences without the folders of this machine. */
  static List<String> plain(List<String> sentences, Path folder) {
    return sentences.stream()
        .map(s -> PageWords.plain(s.replace(folder + File.separator, "")))
        .toList();
  }
}
