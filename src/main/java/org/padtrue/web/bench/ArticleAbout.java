package org.padtrue.web.bench;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Properties;
import org.padtrue.web.server.StoredText;

/**
 * What an article is, beside its entries.
 *
 * @param job id of its job
 * @param name as people call it
 * @param begun when it was begun
 * @param file name of an uploaded article file in its folder, empty when everything is typed
 * @param partsRegistered true when a picture was registered on the parts themselves
 * @param kind what it is to its job
 * @param after id of the article whose trims were entered before this panel was placed; empty
 *     unless {@code kind} is AFTER
 */
public record ArticleAbout(
    String job,
    String name,
    Instant begun,
    String file,
    boolean partsRegistered,
    PanelKind kind,
    String after) {
  static final String FILE = "about.properties";

  static ArticleAbout of(String job, String name, PanelKind kind) {
    Instant now = Instant.now().truncatedTo(ChronoUnit.SECONDS);
    return new ArticleAbout(job, name, now, "", false, kind, "");
  }

  ArticleAbout withFile(String uploaded) {
    return new ArticleAbout(job, name, begun, uploaded, partsRegistered, kind, after);
  }

  ArticleAbout onParts() {
    return new ArticleAbout(job, name, begun, file, true, kind, after);
  }

  /** Of another kind; AFTER needs {@link #placedAfter}. */
  public ArticleAbout ofKind(PanelKind other) {
    if (other == PanelKind.AFTER) {
      throw new IllegalArgumentException("after which article?");
    }
    return new ArticleAbout(job, name, begun, file, partsRegistered, other, "");
  }

  /** Placed after the trims of an article were entered. */
  public ArticleAbout placedAfter(String article) {
    return new ArticleAbout(job, name, begun, file, partsRegistered, PanelKind.AFTER, article);
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
        p.getProperty("partsRegistered", "false").equals("true"),
        !after.isEmpty() ? PanelKind.AFTER : kind == PanelKind.AFTER ? PanelKind.UNSAID : kind,
        after);
  }

  void write(Path folder) throws IOException {
    Properties p = new Properties();
    p.setProperty("job", job);
    p.setProperty("name", name);
    p.setProperty("begun", begun.toString());
    p.setProperty("file", file);
    p.setProperty("partsRegistered", Boolean.toString(partsRegistered));
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
