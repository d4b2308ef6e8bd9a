package org.padtrue.report;

import java.nio.file.Path;
import java.util.Objects;

/** Writes a single file, whole or not at all. */
final class OneFile {
  private OneFile() {}

  static void write(Path to, OutputFolder.Content content) {
    Path full = to.toAbsolutePath();
    Path folder = Objects.requireNonNull(full.getParent(), "a folder is no file");
    try (OutputFolder f = new OutputFolder(folder)) {
      f.write(String.valueOf(full.getFileName()), content);
      f.commit();
    }
  }
}
