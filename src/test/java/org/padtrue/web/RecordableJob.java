package org.padtrue.web;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.bench.Workspace;

/** A small invented job with two articles in work, the first off by 0.12 mm in x. */
public final class RecordableJob {
  private RecordableJob() {}

  /** Makes the workspace {@code ws} in a folder. */
  public static void in(Path dir) throws IOException {
    try (Workspace w = Workspace.open(dir.resolve("ws"))) {
      JobFolder job = w.newJob("board", Files.createDirectory(dir.resolve("incoming")));
      StringBuilder csv = new StringBuilder("ref,part,x,y,rotation\n");
      for (int i = 0; i < 36; i++) {
        csv.append(
            String.format(
                Locale.ROOT,
                "U%d,%s,%d,%d,%d%n",
                i + 1,
                i % 3 == 0 ? "A" : "B",
                10 + 15 * (i % 6),
                10 + 12 * (i / 6),
                90 * (i / 3 % 4)));
      }
      Files.writeString(job.folder().resolve("placements.csv"), csv);
      Files.writeString(job.jobFile(), "{\"name\": \"Board\", \"placements\": \"placements.csv\"}");
      article(w, job, "first", 1, 0.12);
      article(w, job, "second", 2, 0);
    }
  }

  private static void article(Workspace w, JobFolder job, String name, long seed, double shift)
      throws IOException {
    Random random = new Random(seed);
    StringBuilder csv = new StringBuilder("ref,dx,dy,drotation\n");
    for (int i = 0; i < 36; i++) {
      csv.append(
          String.format(
              Locale.ROOT,
              "U%d,%.5f,%.5f,%.3f%n",
              i + 1,
              shift + 0.004 * random.nextGaussian(),
              0.004 * random.nextGaussian(),
              0.1 * random.nextGaussian()));
    }
    BenchArticle a = w.newArticle(job, name);
    Files.writeString(a.folder().resolve(name + ".csv"), csv);
    a.takeFile(name + ".csv");
  }
}
