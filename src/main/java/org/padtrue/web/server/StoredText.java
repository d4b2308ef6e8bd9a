package org.padtrue.web.server;

import java.io.IOException;
import java.io.StringReader;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Properties;

/** Texts that the pages wrote themselves and that a disk may have damaged since. */
public final class StoredText {
  private StoredText() {}

  /**
   * Answers kept in a file. A byte that is no UTF-8 costs its letter, not the file.
   *
   * @throws IOException when the file cannot be read, or not as answers
   */
  public static Properties properties(Path file) throws IOException {
    Properties p = new Properties();
    try {
      p.load(new StringReader(new String(Files.readAllBytes(file), StandardCharsets.UTF_8)));
    } catch (IllegalArgumentException e) {
      throw new IOException(file.getFileName() + " is damaged", e);
    }
    return p;
  }

  /** A percent-encoded text; empty when it is none. */
  public static Optional<String> decoded(String text) {
    try {
      return Optional.of(URLDecoder.decode(text, StandardCharsets.UTF_8));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }
}
