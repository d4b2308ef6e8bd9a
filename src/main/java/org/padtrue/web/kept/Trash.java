package org.padtrue.web.kept;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Deleted jobs and articles, whole, in folders of their own until they are taken back. */
public final class Trash {
  private final Shelf jobs;
  private final Shelf articles;

  /** A deleted job or article. */
  public record Deleted(String kind, String id, Path folder, Instant at) {}

  /**
   * @param folder where they stand
   * @param job file that makes a folder a job
   * @param article file that makes a folder an article
   */
  public Trash(Path folder, String job, String article) throws IOException {
    jobs = shelf(folder, "jobs", job);
    articles = shelf(folder, "articles", article);
  }

  private static Shelf shelf(Path folder, String kind, String mark) throws IOException {
    return new Shelf(Files.createDirectories(folder.resolve(kind)), kind, mark);
  }

  private Shelf of(String kind) {
    return kind.equals("jobs") ? jobs : articles;
  }

  public boolean has(String kind, String id) {
    return of(kind).has(id);
  }

  /** Everything deleted, the last first. */
  public List<Deleted> all() throws IOException {
    List<Deleted> all = new ArrayList<>();
    for (Shelf s : List.of(jobs, articles)) {
      for (String id : s.names(x -> {})) {
        Path p = s.folder().resolve(id);
        Instant at = Files.getLastModifiedTime(p).toInstant();
        all.add(new Deleted(s.among(), id, p, at));
      }
    }
    all.sort(Comparator.comparing(Deleted::at).reversed());
    return all;
  }

  /** Takes a whole folder out of its place. */
  public void take(Shelf from, String id) throws IOException {
    of(from.among()).take(from.folder().resolve(id), id);
    Files.setLastModifiedTime(of(from.among()).folder().resolve(id), FileTime.from(Instant.now()));
  }

  /** Gives it back. */
  public void giveBack(Shelf to, String id) throws IOException {
    to.take(of(to.among()).folder().resolve(id), id);
  }
}
