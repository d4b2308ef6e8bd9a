package org.padtrue.web.bench;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Properties;
import java.util.Set;
import org.padtrue.web.server.StoredText;

/**
 * What an article is, beside its entries.
 *
 * @param job id of its job
 * @param name as people call it
 * @param begun when it was begun
 * @param file name of an uploaded article file in its folder, empty when everything is typed
 * @param remarks what pictures that were accepted say of the whole article, as comment lines of its
 *     file
 * @param kind what it is to its job
 * @param after id of the article whose trims were entered before this panel was placed; empty
 *     unless {@code kind} is AFTER
 */
public record ArticleAbout(
    String job,
    String name,
    Instant begun,
    String file,
    List<String> remarks,
    PanelKind kind,
    String after) {
  public ArticleAbout {
    remarks = List.copyOf(remarks);
  }

  static final String FILE = "about.properties";
  private static final String ON_PARTS = "registered on parts";

  static ArticleAbout of(String job, String name, PanelKind kind) {
    Instant now = Instant.now().truncatedTo(ChronoUnit.SECONDS);
    return new ArticleAbout(job, name, now, "", List.of(), kind, "");
  }

  ArticleAbout withFile(String uploaded) {
    return new ArticleAbout(job, name, begun, uploaded, remarks, kind, after);
  }

  /** With remarks of pictures beside those that it has. */
  ArticleAbout remarking(List<String> more) {
    Set<String> all = new LinkedHashSet<>(remarks);
    all.addAll(more);
    return new ArticleAbout(job, name, begun, file, List.copyOf(all), kind, after);
  }

  /** Of another kind; AFTER needs {@link #placedAfter}. */
  public ArticleAbout ofKind(PanelKind other) {
    if (other == PanelKind.AFTER) {
      throw new IllegalArgumentException("after which article?");
    }
    return new ArticleAbout(job, name, begun, file, remarks, other, "");
  }

  /** Placed after the trims of an article were entered. */
  public ArticleAbout placedAfter(String article) {
    return new ArticleAbout(job, name, begun, file, remarks, PanelKind.AFTER, article);
  }

  static ArticleAbout read(Path folder) throws IOException {
    Properties p = StoredText.properties(folder.resolve(FILE));
    String after = p.getProperty("after", "");
    // before there were kinds, an article that was tied to none was a first one
    PanelKind kind = PanelKind.parse(p.getProperty("kind", "")).orElse(PanelKind.FIRST);
    return new ArticleAbout(
        p.getProperty("job", ""),
        p.getProperty("name", ""),
        Instant.parse(p.getProperty("begun", Instant.EPOCH.toString())),
        p.getProperty("file", ""),
        remarks(p),
        !after.isEmpty() ? PanelKind.AFTER : kind == PanelKind.AFTER ? PanelKind.UNSAID : kind,
        after);
  }

  private static List<String> remarks(Properties p) {
    // as it was kept before there were other remarks
    String old = p.getProperty("partsRegistered", "").equals("true") ? ON_PARTS : "";
    return p.getProperty("remarks", old).lines().filter(l -> !l.isBlank()).toList();
  }

  void write(Path folder) throws IOException {
    Properties p = new Properties();
    p.setProperty("job", job);
    p.setProperty("name", name);
    p.setProperty("begun", begun.toString());
    p.setProperty("file", file);
    p.setProperty("remarks", String.join("\n", remarks));
    p.setProperty("kind", kind.key());
    p.setProperty("after", after);
    StringWriter w = new StringWriter();
    p.store(w, null);
    Path part = folder.resolve(FILE + ".part");
    Files.writeString(part, w.toString(), StandardCharsets.UTF_8);
    Files.move(
        part,
        folder.resolve(FILE),
        StandardCopyOption.REPLACE_EXISTING,
        StandardCopyOption.ATOMIC_MOVE);
  }
}
