package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.padtrue.Study;

/**
 * Good files with a few bytes changed: every reader ends with 0 or 2. {@code -Dpadtrue.mutations=N}
 * for more; fuzzing of the same readers goes farther.
 */
@Timeout(300)
class ReaderMutationTest {
  private static final String[] PIECES = {
    "\"",
    "<",
    ">",
    "&",
    "%",
    "*",
    ",",
    ";",
    "\n",
    "\t",
    "{",
    "}",
    "[",
    "]",
    "-",
    "1e999",
    "NaN",
    "99999999999",
    "0.000",
    "null",
    "\u0000",
    "\u00e9",
    "\ufeff",
    "<!--",
    "]]>",
    "&#0;",
    "-0",
    "1e-400"
  };

  @TempDir private Path dir;

  @ParameterizedTest
  @EnumSource(ReaderHarness.Reader.class)
  void endsWithZeroOrTwo(ReaderHarness.Reader reader) throws IOException {
    ReaderHarness h = new ReaderHarness(reader, dir);
    if (reader == ReaderHarness.Reader.ARTICLE) {
      Path a = Files.writeString(dir.resolve("a.csv"), "ref,dx,dy\nR1,0.1,0\nR2,0,0.1\n");
      Run.analyse(dir.resolve("tiny.json"), a, dir);
    }
    byte[] seed = h.seed();
    long start = Long.getLong("padtrue.mutations.seed", 20260105L);
    int good = 0;
    int refused = 0;
    for (int i = 0; i < Study.runs("mutations", 15, 400); i++) {
      byte[] b = mutated(seed, new Random(start + i));
      Run r = h.run(b);
      assertThat(r.code()).as("mutation %d of %s: %s", i, reader, r.err()).isIn(0, 2);
      assertThat(r.code() == 2 && r.err().isBlank()).as("silent, mutation %d", i).isFalse();
      good += r.code() == 0 ? 1 : 0;
      refused += r.code() == 2 ? 1 : 0;
    }
    assertThat(refused).isPositive();
    assertThat(good + refused).isPositive();
  }

  private static byte[] mutated(byte[] seed, Random random) {
    byte[] b = seed;
    for (int n = 1 + random.nextInt(4); n > 0; n--) {
      int at = random.nextInt(b.length);
      int to = Math.min(b.length, at + random.nextInt(12));
      byte[] piece =
          switch (random.nextInt(4)) {
            case 0 -> new byte[] {(byte) random.nextInt(256)};
            case 1 -> PIECES[random.nextInt(PIECES.length)].getBytes(StandardCharsets.UTF_8);
            case 2 -> Arrays.copyOfRange(b, random.nextInt(at + 1), at);
            default -> new byte[0];
          };
      byte[] c = new byte[at + piece.length + b.length - to];
      System.arraycopy(b, 0, c, 0, at);
      System.arraycopy(piece, 0, c, at, piece.length);
      System.arraycopy(b, to, c, at + piece.length, b.length - to);
      b = c.length == 0 ? seed : c;
    }
    return b;
  }
}
