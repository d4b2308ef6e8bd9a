package org.padtrue.web.bench;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.web.kept.Shelf;
import org.padtrue.web.kept.Skipped;
import org.padtrue.web.kept.Trash;
import org.padtrue.web.server.EndedSessions;
import org.padtrue.web.server.FileNames;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Secret;

/**
 * The folder in which the pages work: {@code jobs/ID/} with the files of a job, {@code
 * articles/ID/} with the journal and files of an article. One server at a time.
 */
public final class Workspace implements AutoCloseable {
  private static final Duration LEFT_BEHIND = Duration.ofDays(1);

  private final Path folder;
  private final FileChannel lockFile;
  private final Shelf jobFolders;
  private final Shelf articleFolders;
  private final Trash trash;
  private final Map<String, JobFolder> jobs = new ConcurrentHashMap<>();
  private final Map<String, BenchArticle> articles = new ConcurrentHashMap<>();
  private final Set<String> told = ConcurrentHashMap.newKeySet();
  private volatile Consumer<String> console = s -> {};

  private Workspace(Path folder, FileChannel lockFile) throws IOException {
    this.folder = folder;
    this.lockFile = lockFile;
    jobFolders = new Shelf(folder.resolve("jobs"), "jobs", JobFolder.JOB);
    trash = new Trash(folder.resolve("deleted"), JobFolder.JOB, ArticleAbout.FILE);
    articleFolders = new Shelf(folder.resolve("articles"), "articles", ArticleAbout.FILE);
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
      Workspace w = new Workspace(folder.toRealPath(), c);
      w.clearIncoming(Instant.now().minus(LEFT_BEHIND));
      return w;
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

  /** Sessions that were signed out. */
  public EndedSessions ended() throws IOException {
    return EndedSessions.of(folder.resolve("ended-sessions"), Instant.now());
  }

  /** Says what the console should hear, each thing once; what is wrong now at once. */
  public void tell(Consumer<String> hearer) throws IOException {
    console = hearer;
    skipped();
  }

  /** Sentences on folders that are neither job nor article. */
  List<String> skipped() throws IOException {
    List<Skipped> all = new ArrayList<>();
    jobFolders.names(all::add);
    for (String id : articleFolders.names(all::add)) {
      opened(id, all::add);
    }
    all.forEach(this::said);
    return all.stream().map(Skipped::sentence).toList();
  }

  private void said(Skipped s) {
    if (told.add(s.among() + "/" + s.name())) {
      console.accept(s.sentence());
    }
  }

  /** Jobs, newest first. */
  List<JobFolder> jobs() throws IOException {
    List<JobFolder> all = new ArrayList<>();
    for (String id : jobFolders.names(this::said)) {
      all.add(jobOf(id));
    }
    return all;
  }

  public JobFolder job(String id) {
    FileNames.id(id);
    if (!jobFolders.has(id)) {
      notDeleted("jobs", id, "This job");
      throw Refusal.notThere("There is no such job here.");
    }
    jobFolders
        .trouble(id)
        .ifPresent(
            why -> {
              throw Refusal.notThere(new Skipped("jobs", id, why).sentence());
            });
    return jobOf(id);
  }

  private JobFolder jobOf(String id) {
    return jobs.computeIfAbsent(id, i -> new JobFolder(i, jobFolders.folder().resolve(i)));
  }

  /** A folder of the workspace beside jobs and articles, by a name of the program's own. */
  public Path folder(String name) {
    return folder.resolve(name);
  }

  /** A folder for files whose job has no name yet. */
  public Path incoming() throws IOException {
    return Files.createDirectories(folder.resolve("incoming").resolve(Secret.name()));
  }

  /** A new job of that name, made of a folder of incoming files. */
  public JobFolder newJob(String name, Path incoming) throws IOException {
    return jobOf(placed(jobFolders, name, incoming));
  }

  /** Removes a folder of incoming files of which nothing was made. */
  public static void drop(Path incoming) throws IOException {
    if (Files.exists(incoming, LinkOption.NOFOLLOW_LINKS)) {
      try (Stream<Path> s = Files.walk(incoming)) {
        for (Path p : s.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(p);
        }
      }
    }
  }

  /** Removes what a crash left behind before a time. */
  private void clearIncoming(Instant before) throws IOException {
    Path incoming = folder.resolve("incoming");
    if (!Files.isDirectory(incoming, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    try (Stream<Path> s = Files.list(incoming)) {
      for (Path p : s.toList()) {
        if (Files.getLastModifiedTime(p, LinkOption.NOFOLLOW_LINKS).toInstant().isBefore(before)) {
          drop(p);
        }
      }
    }
  }

  /** Articles, newest first; all, or those of one job. */
  public List<BenchArticle> articles(@Nullable String job) throws IOException {
    List<BenchArticle> all = new ArrayList<>();
    for (String id : articleFolders.names(this::said)) {
      opened(id, this::said)
          .filter(a -> job == null || a.about().job().equals(job))
          .filter(a -> !trash.has("jobs", a.about().job()))
          .ifPresent(all::add);
    }
    return all;
  }

  private Optional<BenchArticle> opened(String id, Consumer<Skipped> skipped) {
    try {
      return Optional.of(
          articles.computeIfAbsent(
              id, i -> BenchArticle.open(i, articleFolders.folder().resolve(i))));
    } catch (InputException e) {
      skipped.accept(new Skipped("articles", id, String.valueOf(e.problems().get(0).found())));
      return Optional.empty();
    }
  }

  /** An article's name, also of one that was deleted. */
  public String nameOf(String id) {
    try {
      return article(id).about().name();
    } catch (Refusal e) {
      return "an article that is gone";
    }
  }

  public BenchArticle article(String id) {
    FileNames.id(id);
    if (!articleFolders.has(id)) {
      notDeleted("articles", id, "This article");
      throw Refusal.notThere("There is no such article here.");
    }
    List<Skipped> why = new ArrayList<>();
    articleFolders.trouble(id).ifPresent(w -> why.add(new Skipped("articles", id, w)));
    Optional<BenchArticle> a = why.isEmpty() ? opened(id, why::add) : Optional.empty();
    return a.orElseThrow(() -> Refusal.notThere(why.get(0).sentence()));
  }

  private void notDeleted(String kind, String id, String what) {
    if (trash.has(kind, id)) {
      throw Refusal.notThere(
          what
              + " was deleted. It can be taken back under Deleted, at the end of the list of"
              + " jobs.");
    }
  }

  /** Name of a deleted job or article; its id where the files do not tell. */
  public String name(Trash.Deleted d) {
    if (d.kind().equals("jobs")) {
      return new JobFolder(d.id(), d.folder()).name();
    }
    try {
      return ArticleAbout.read(d.folder()).name();
    } catch (IOException | DateTimeException e) {
      return d.id();
    }
  }

  /** What was deleted. */
  public Trash trash() {
    return trash;
  }

  /** Deletes a job or an article; it can be taken back. Nothing happens when it is deleted. */
  public synchronized void delete(String kind, String id) throws IOException {
    Shelf from = kind.equals("jobs") ? jobFolders : articleFolders;
    if (from.has(FileNames.id(id))) {
      trash.take(from, id);
      forget(kind, id);
    }
  }

  /** Takes a deleted job or article back to its old place. */
  public synchronized void takeBack(String kind, String id) throws IOException {
    Shelf to = kind.equals("jobs") ? jobFolders : articleFolders;
    if (!to.has(FileNames.id(id))) {
      if (!trash.has(kind, id)) {
        throw Refusal.notThere("There is nothing of that name among the deleted.");
      }
      trash.giveBack(to, id);
      forget(kind, id);
    }
  }

  private void forget(String kind, String id) {
    if (kind.equals("jobs")) {
      jobs.remove(id);
    } else {
      articles.remove(id);
    }
  }

  /** What a new article's folder holds before it takes its place. */
  interface Filling {
    /** Fills the folder; the article as it is to be. */
    ArticleAbout fill(Path aside, ArticleAbout begun) throws IOException;
  }

  /** A new article of a job, with nothing in it. */
  public BenchArticle newArticle(JobFolder job, String name) throws IOException {
    return newArticle(job, name, (aside, begun) -> begun);
  }

  /** Writes what an article has beside its entries into its folder. */
  @FunctionalInterface
  public interface Extra {
    void write(Path folder) throws IOException;
  }

  /**
   * A new article of a job with placements to measure, in walking order; all of it or nothing.
   *
   * @param kind says what the panel is
   * @param keys panel/column/row/ref
   * @param extra what else its folder holds
   */
  public BenchArticle newArticle(
      JobFolder job, String name, UnaryOperator<ArticleAbout> kind, List<String> keys, Extra extra)
      throws IOException {
    return newArticle(
        job,
        name,
        (aside, begun) -> {
          extra.write(aside);
          plan(aside, keys);
          return kind.apply(begun);
        });
  }

  private static void plan(Path aside, List<String> keys) throws IOException {
    List<Entry> planned = new ArrayList<>();
    for (String key : keys) {
      String place = Integer.toString(planned.size() + 1);
      planned.add(Entry.of(Entry.Kind.PLANNED, key, place));
    }
    EntryJournal.open(aside.resolve(BenchArticle.JOURNAL)).append(planned);
  }

  /** A new article of a job: made aside, and moved to its place when it is whole. */
  BenchArticle newArticle(JobFolder job, String name, Filling filling) throws IOException {
    Path aside = incoming();
    try {
      // of a job's first panel nothing is to be asked
      PanelKind kind = articles(job.id()).isEmpty() ? PanelKind.FIRST : PanelKind.UNSAID;
      filling.fill(aside, ArticleAbout.of(job.id(), name, kind)).write(aside);
      return article(placed(articleFolders, name, aside));
    } finally {
      drop(aside);
    }
  }

  private synchronized String placed(Shelf shelf, String name, Path whole) throws IOException {
    String id = fresh(shelf, FileNames.slug(name));
    shelf.take(whole, id);
    return id;
  }

  /** A name that nobody has yet. */
  private String fresh(Shelf shelf, String slug) {
    for (int n = 1; ; n++) {
      String id = n == 1 ? slug : slug + "-" + n;
      if (!shelf.has(id) && !trash.has(shelf.among(), id)) {
        return id;
      }
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
