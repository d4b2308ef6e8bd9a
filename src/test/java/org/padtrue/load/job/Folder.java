package org.padtrue.load.job;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/** Writes the files of a test into a folder. */
public record Folder(Path path) {
  public Path write(String name, String text) {
    return write(name, text.getBytes(StandardCharsets.UTF_8));
  }

  public Path write(String name, byte[] bytes) {
    try {
      return Files.write(path.resolve(name), bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
