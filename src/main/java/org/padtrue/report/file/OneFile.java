package org.padtrue.report.file;

import java.nio.file.Path;
import java.util.Objects;

/** Writes a single file, whole or not at all. */
public final class OneFile {
  private OneFile() {}

  /** Complains, with nothing left behind, where a file could not be written: before long work. */
  public static void checkPlace(Path to) {
    Path full = to.toAbsolutePath();
    try (OutputFolder f =
        new OutputFolder(Objects.requireNonNull(full.getParent(), "a folder is no file"))) {
      f.write(String.valueOf(full.getFileName()), out -> {});
    }
  }

  public static void write(Path to, OutputFolder.Content content) {
    Path full = to.toAbsolutePath();
    Path folder = Objects.requireNonNull(full.getParent(), "a folder is no file");
    try (OutputFolder f = new OutputFolder(folder)) {
      f.write(String.valueOf(full.getFileName()), content);
      f.commit();
    }
  }
}
