package org.padtrue.report.json;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * JSON Schemas (draft 2020-12) of the files that this program reads and writes. Those of written
 * files list every key that this version writes, and require those that the contract promises.
 */
public final class Schemas {
  private static final List<String> NAMES =
      List.of(
          "job",
          "parts",
          "identification",
          "analysis",
          "check",
          "room",
          "gauge",
          "drift",
          "first-article",
          "camera",
          "taught");

  private Schemas() {}

  /** Names: files that people write first, then files that the program writes. */
  public static List<String> names() {
    return NAMES;
  }

  /** The text of a schema. */
  public static String text(String name) {
    if (!NAMES.contains(name)) {
      throw new IllegalArgumentException("no schema '" + name + "'; expected one of " + NAMES);
    }
    String path = "/org/padtrue/schema/" + name + ".schema.json";
    try (InputStream in = Schemas.class.getResourceAsStream(path)) {
      if (in == null) {
        throw new IllegalStateException(path + " is not on the class path");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
