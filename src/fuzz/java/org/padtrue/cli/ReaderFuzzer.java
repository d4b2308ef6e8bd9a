package org.padtrue.cli;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Coverage-guided fuzzing of every reader: whatever the bytes, the command ends with 0 or 2 and in
 * time. The fuzzer (Jazzer) calls {@link #fuzzerTestOneInput}; {@link #main} runs it for each
 * reader in a process of its own.
 */
public final class ReaderFuzzer {
  private static final String PROPERTY = "padtrue.fuzz.reader";
  private static final int SECONDS_PER_INPUT = 60;

  private static final ReaderHarness HARNESS = harness();

  private ReaderFuzzer() {}

  private static ReaderHarness harness() {
    String reader = System.getProperty(PROPERTY);
    try {
      return reader == null
          ? new ReaderHarness(ReaderHarness.Reader.PLACEMENTS, Files.createTempDirectory("fuzz"))
          : prepared(ReaderHarness.Reader.valueOf(reader));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static ReaderHarness prepared(ReaderHarness.Reader reader) throws IOException {
    Path dir = Files.createTempDirectory("fuzz");
    ReaderHarness h = new ReaderHarness(reader, dir);
    if (reader == ReaderHarness.Reader.ARTICLE) {
      Path a = Files.writeString(dir.resolve("a.csv"), "ref,dx,dy\nR1,0.1,0\nR2,0,0.1\n");
      Run.analyse(dir.resolve("tiny.json"), a, dir);
    }
    return h;
  }

  /** One input; anything but exit code 0 or 2 is a finding. */
  public static void fuzzerTestOneInput(byte[] bytes) {
    Run r = HARNESS.run(bytes);
    if (r.code() != 0 && r.code() != 2) {
      throw new IllegalStateException("exit code " + r.code() + ": " + r.err());
    }
    if (r.code() == 2 && r.err().isBlank()) {
      throw new IllegalStateException("refused without a sentence");
    }
  }

  /**
   * Fuzzes the readers one after the other.
   *
   * @param args folder for corpora and findings; seconds for each reader; readers, or all of them
   */
  public static void main(String[] args) throws IOException, InterruptedException {
    Path out = Files.createDirectories(Path.of(args[0]));
    List<String> readers = new ArrayList<>();
    for (ReaderHarness.Reader r : ReaderHarness.Reader.values()) {
      if (args.length < 3 || List.of(args).subList(2, args.length).contains(r.name())) {
        readers.add(r.name());
      }
    }
    int found = 0;
    for (String r : readers) {
      int code = fuzz(r, Files.createDirectories(out.resolve(r)), Integer.parseInt(args[1]));
      System.out.println(r + (code == 0 ? ": nothing found" : ": something found, see " + out));
      found += code == 0 ? 0 : 1;
    }
    System.exit(found);
  }

  private static int fuzz(String reader, Path out, int seconds)
      throws IOException, InterruptedException {
    Path corpus = Files.createDirectories(out.resolve("corpus"));
    ReaderHarness.Reader r = ReaderHarness.Reader.valueOf(reader);
    ReaderHarness h = new ReaderHarness(r, Files.createTempDirectory("seed"));
    Files.write(corpus.resolve("seed"), h.seed());
    Process p =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx1g",
                "-Djava.awt.headless=true",
                "-D" + PROPERTY + "=" + reader,
                "-cp",
                System.getProperty("java.class.path"),
                "com.code_intelligence.jazzer.Jazzer",
                "--target_class=" + ReaderFuzzer.class.getName(),
                "--instrumentation_includes=org.padtrue.**",
                "--reproducer_path=" + out,
                "-artifact_prefix=" + out + File.separator,
                "-max_total_time=" + seconds,
                "-timeout=" + SECONDS_PER_INPUT,
                "-rss_limit_mb=4000",
                corpus.toString())
            .redirectErrorStream(true)
            .redirectOutput(out.resolve("fuzzer.log").toFile())
            .start();
    return p.waitFor();
  }
}
