package org.padtrue.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Feeds bytes to one reader of the program through its own command; for fuzzing. */
public final class ReaderHarness {
  /** The readers: a seed file and the command that reads its like. */
  public enum Reader {
    PLACEMENTS("samples/main-job/placements.csv"),
    ARTICLE("samples/main-job/article-1.csv"),
    PARTS("samples/main-job/parts.json"),
    JOB("samples/main-job/job.json"),
    REPEATS("samples/gauge/repeats.csv"),
    ANALYSIS(""),
    IPC2581("src/test/resources/standards/example-ipc2581-revC.xml"),
    GERBER("src/test/resources/standards/example-gerber-x3-top.gbr");

    private final String seed;

    Reader(String seed) {
      this.seed = seed;
    }
  }

  private final Reader reader;
  private final Path dir;
  private final Path file;

  /**
   * @param dir an empty folder to work in
   */
  public ReaderHarness(Reader reader, Path dir) throws IOException {
    this.reader = reader;
    this.dir = dir;
    this.file = dir.resolve(reader == Reader.JOB ? "job.json" : "input");
    Files.writeString(dir.resolve("p.csv"), "ref,part,x,y,rotation\nR1,A,1,2,0\nR2,A,9,7,90\n");
    Files.writeString(dir.resolve("tiny.json"), "{\"placements\": \"p.csv\"}");
    Files.writeString(
        dir.resolve("parts-job.json"), "{\"placements\": \"p.csv\", \"parts\": \"input\"}");
    Files.writeString(dir.resolve("file-job.json"), "{\"placements\": \"input\"}");
  }

  /** A file that the reader understands. */
  public byte[] seed() throws IOException {
    if (reader != Reader.ANALYSIS) {
      byte[] all = Files.readAllBytes(Path.of(reader.seed));
      return all.length > 6000 && reader != Reader.PARTS ? lines(all) : all;
    }
    Path article =
        Files.writeString(dir.resolve("a.csv"), "ref,dx,dy,drotation\nR1,0.1,0,0\nR2,0,0.1,1\n");
    Run.analyse(dir.resolve("tiny.json"), article, dir);
    return Files.readAllBytes(dir.resolve("analysis.json"));
  }

  private static byte[] lines(byte[] all) {
    int end = 6000;
    while (end > 0 && all[end - 1] != '\n') {
      end--;
    }
    return java.util.Arrays.copyOf(all, end);
  }

  /** Runs the reader on bytes; the exit code. */
  public int feed(byte[] bytes) {
    return run(bytes).code();
  }

  Run run(byte[] bytes) {
    try {
      Files.write(file, bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    List<Object> args =
        switch (reader) {
          case PLACEMENTS, IPC2581, GERBER -> List.of("inspect", file);
          case ARTICLE ->
              List.of(
                  "check",
                  dir.resolve("tiny.json"),
                  dir.resolve("analysis.json"),
                  file,
                  "--out",
                  dir.resolve("out"));
          case PARTS -> List.of("plan", dir.resolve("parts-job.json"));
          case JOB -> List.of("plan", file);
          case REPEATS -> List.of("gauge", file);
          case ANALYSIS ->
              List.of("apply", dir.resolve("tiny.json"), file, "--out", dir.resolve("out.csv"));
        };
    return Run.of(args.toArray());
  }
}
