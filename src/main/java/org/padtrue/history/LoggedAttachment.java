package org.padtrue.history;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * A file that belongs to an article, known by what it contains; the file itself stays where it is.
 *
 * @param sha256 hash of its bytes, lower-case hexadecimal
 * @param file name without folders
 * @param bytes length
 */
public record LoggedAttachment(String sha256, String file, long bytes) {
  /** Reads a file's hash and length. */
  public static LoggedAttachment of(Path file) {
    try {
      Path name = file.getFileName();
      return new LoggedAttachment(
          ContentHash.ofFile(file), name == null ? "" : name.toString(), Files.size(file));
    } catch (IOException e) {
      throw new InputException(
          Problem.of(file.toString(), "cannot be read", "check the path and its permissions"));
    }
  }
}
