package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * JSON and CSV that the commands write are byte for byte the same as before, times, folders and
 * sentences left out. Held are digests, in {@code same-files.txt}; to see what differs, write the
 * files whole at both commits with {@code -Dpadtrue.same=FOLDER} and compare the folders. When a
 * change is meant, replace the digests by those in the message.
 */
class SameFilesTest {
  private static final Pattern TIMES =
      Pattern.compile(
          "\"(recorded_at|recorded_by)\":\"[^\"]*\"|(?m)^(\\d+,\"?[0-9a-f]{64}\"?),[^,]*,[^,]*");

  /** Values that are for reading only. */
  private static final Pattern SENTENCES =
      Pattern.compile(
          "\"(sentence|reason|note|notes|why|where|about|unit|text|words)\":"
              + " ?\"(\\\\.|[^\"\\\\])*\"");

  @TempDir private Path temporary;

  @Test
  void whatIsWrittenIsTheSame() throws IOException {
    String given = System.getProperty("padtrue.same");
    Path dir = given == null ? temporary : Files.createDirectories(Path.of(given));
    SameFiles.make(dir, given != null);
    String digests = digests(dir);
    // another processor may round sines in the last place otherwise
    assumeTrue(System.getProperty("os.arch").equals("amd64"));
    try (var in = SameFilesTest.class.getResourceAsStream("same-files.txt")) {
      assertThat(in).as(digests).isNotNull();
      assertThat(digests).isEqualTo(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
  }

  private static String digests(Path dir) throws IOException {
    List<Path> files;
    try (Stream<Path> all = Files.walk(dir)) {
      files =
          all.filter(f -> f.toString().matches(".*\\.(json|csv)"))
              .filter(
                  f ->
                      !dir.relativize(f)
                          .toString()
                          .matches("(levels-in|sample-articles|levels-log-plan).*"))
              .sorted()
              .toList();
    }
    List<String> lines = new ArrayList<>();
    for (Path f : files) {
      String text = Files.readString(f).replace(dir.toString(), "DIR");
      text = TIMES.matcher(text).replaceAll("$1$2");
      text =
          f.toString().endsWith(".json")
              ? SENTENCES.matcher(text).replaceAll("$1")
              : text.replaceAll("(?m)(,?\"(\"\"|[^\"])*[a-z] [a-z](\"\"|[^\"])*\")+", "");
      lines.add(sha(text) + "  " + dir.relativize(f));
    }
    return String.join("\n", lines) + "\n";
  }

  private static String sha(String text) {
    try {
      byte[] all = text.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of()
          .formatHex(MessageDigest.getInstance("SHA-256").digest(all))
          .substring(0, 20);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
