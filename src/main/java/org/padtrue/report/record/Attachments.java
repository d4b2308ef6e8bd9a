package org.padtrue.report.record;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Reads files for their SHA-256. */
public final class Attachments {
  private Attachments() {}

  /**
   * Takes one file into the record.
   *
   * @param role what it is
   * @param file where it is
   * @return its name, length and hash; an unreadable file is an {@link InputException}
   */
  public static Attachment of(String role, Path file) {
    MessageDigest digest = sha256();
    long bytes = 0;
    try (InputStream in = Files.newInputStream(file)) {
      byte[] buffer = new byte[1 << 16];
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        digest.update(buffer, 0, n);
        bytes += n;
      }
    } catch (IOException e) {
      throw new InputException(
          Problem.of(
              file.toString(),
              Files.isDirectory(file) ? "this is a folder" : "the file cannot be read",
              "name a file that can be attached"));
    }
    String name = String.valueOf(file.getFileName());
    return new Attachment(role, name, bytes, HexFormat.of().formatHex(digest.digest()));
  }

  /** Takes a file in memory into the record. */
  public static Attachment of(String role, String name, byte[] content) {
    return new Attachment(
        role, name, content.length, HexFormat.of().formatHex(sha256().digest(content)));
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
