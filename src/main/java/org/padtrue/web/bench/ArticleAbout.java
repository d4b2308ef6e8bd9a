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
 * @param after id of the article whose trims were entered before this panel was placed; empty for a
 *     first article
 */
public record ArticleAbout(
    String job, String name, Instant begun, String file, boolean partsRegistered, String after) {
  static final String FILE = "about.properties";

  static ArticleAbout of(String job, String name) {
    return new ArticleAbout(
        job, name, Instant.now().truncatedTo(ChronoUnit.SECONDS), "", false, "");
  }

  ArticleAbout withFile(String uploaded) {
    return new ArticleAbout(job, name, begun, uploaded, partsRegistered, after);
  }

  ArticleAbout onParts() {
    return new ArticleAbout(job, name, begun, file, true, after);
  }

  ArticleAbout placedAfter(String article) {
    return new ArticleAbout(job, name, begun, file, partsRegistered, article);
  }

  static ArticleAbout read(Path folder) throws IOException {
    Properties p = StoredText.properties(folder.resolve(FILE));
    return new ArticleAbout(
        p.getProperty("job", ""),
        p.getProperty("name", ""),
        Instant.parse(p.getProperty("begun", Instant.EPOCH.toString())),
        p.getProperty("file", ""),
        p.getProperty("partsRegistered", "false").equals("true"),
        p.getProperty("after", ""));
  }

  void write(Path folder) throws IOException {
    Properties p = new Properties();
    p.setProperty("job", job);
    p.setProperty("name", name);
    p.setProperty("begun", begun.toString());
    p.setProperty("file", file);
    p.setProperty("partsRegistered", Boolean.toString(partsRegistered));
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
