package org.padtrue.web.bench;

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
  public record Deleted(String kind, String id, String name, Instant at) {}

  Trash(Path folder) throws IOException {
    jobs = shelf(folder, "jobs", JobFolder.JOB);
    articles = shelf(folder, "articles", ArticleAbout.FILE);
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
        all.add(new Deleted(s.among(), id, name(s, id, p), at));
      }
    }
    all.sort(Comparator.comparing(Deleted::at).reversed());
    return all;
  }

  private static String name(Shelf s, String id, Path p) {
    if (s.among().equals("jobs")) {
      return new JobFolder(id, p).name();
    }
    try {
      return ArticleAbout.read(p).name();
    } catch (IOException | java.time.DateTimeException e) {
      return id;
    }
  }

  void take(Shelf from, String id) throws IOException {
    of(from.among()).take(from.folder().resolve(id), id);
    Files.setLastModifiedTime(of(from.among()).folder().resolve(id), FileTime.from(Instant.now()));
  }

  void giveBack(Shelf to, String id) throws IOException {
    to.take(of(to.among()).folder().resolve(id), id);
  }
}
