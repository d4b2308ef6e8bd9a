package org.padtrue.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;

/** Analysis and check of the bundled sample, made once for all tests that read them. */
final class SampleRun {
  static final Path JOB = Path.of("samples/main-job/job.json");
  static final Path ARTICLE = Path.of("samples/main-job/article-1.csv");
  private static final Path FOLDER = make();

  private SampleRun() {}

  static Path analysis() {
    return FOLDER.resolve("analysis.json");
  }

  static Path check() {
    return FOLDER.resolve("check.json");
  }

  private static Path make() {
    try {
      Path f = Files.createTempDirectory("padtrue-sample");
      Runtime.getRuntime().addShutdownHook(new Thread(() -> delete(f)));
      Run.analyse(JOB, ARTICLE, f);
      Run r =
          Run.of(
              "check",
              JOB,
              f.resolve("analysis.json"),
              "samples/main-job/article-2.csv",
              "--out",
              f,
              "--quiet");
      if (r.code() != 0) {
        throw new IllegalStateException(r.err());
      }
      return f;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void delete(Path folder) {
    try (Stream<Path> all = Files.walk(folder)) {
      all.sorted(Comparator.reverseOrder()).forEach(p -> p.toFile().delete());
    } catch (IOException e) {
      // a temporary folder that stays is no harm
    }
  }
}
