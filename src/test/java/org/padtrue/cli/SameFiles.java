package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.drift.DriftOptions;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.AnalysisOptions.Transform;
import org.padtrue.history.ArticleLog;
import org.padtrue.load.job.JobLoader;
import org.padtrue.log.DriftStudy;
import org.padtrue.panel.Factor;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.report.PlainReport;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.record.FirstArticleCsv;
import org.padtrue.report.record.FirstArticleJson;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.FirstArticleRecords;
import org.padtrue.report.record.RecordOptions;

/**
 * Files that the commands write for the samples, and for a made panel whose placements have a
 * nozzle, a feeder and a head each.
 */
final class SameFiles {

  private final Path dir;

  private final boolean whole;

  private SameFiles(Path dir, boolean whole) {
    this.dir = dir;
    this.whole = whole;
  }

  /**
   * Makes all files.
   *
   * @param whole with what takes long
   */
  static void make(Path dir, boolean whole) throws IOException {
    SameFiles f = new SameFiles(dir, whole);
    f.sample();
    if (whole) {
      f.sampleLog();
    }
    f.levels();
  }

  private void sample() throws IOException {
    String main = "samples/main-job/";
    Path job = Path.of(main + "job.json");
    Path first = Path.of(main + "article-1.csv");
    Path second = Path.of(main + "article-2.csv");
    analyse("sample", job, List.of(first), AnalysisOptions.withDefaults());
    if (whole) {
      analyse(
          "sample-two",
          job,
          List.of(first, second),
          new AnalysisOptions(
              Transform.AFFINE,
              true,
              true,
              false,
              List.of(Factor.PART, Factor.NOZZLE, Factor.BOARD),
              Set.of(),
              Set.of()));
    }
    Path json = dir.resolve("sample/analysis.json");
    run("sample-check", "check", job, json, second, "--out", dir.resolve("sample-check"));
    record("sample-record", job, json);
    apply("sample-apply", job, json, "part,nozzle");
    apply("sample-placed", job, json, "placement");
    if (whole) {
      plan("sample-plan", job, "--count", 20, "--from", json);
    }
    Path gauge = dir.resolve("gauge");
    run("gauge", "gauge", "samples/gauge/repeats.csv", "--job", job, "--out", gauge);
  }

  private void sampleLog() throws IOException {
    Path from = Files.createDirectories(dir.resolve("sample-articles"));
    int logged = 9;
    for (int i = 1; i <= logged; i++) {
      Path a = Path.of(String.format(Locale.ROOT, "samples/history/articles/a-%03d.csv", i));
      Files.copy(a, from.resolve(a.getFileName()));
    }
    List<String> lines = Files.readAllLines(Path.of("samples/history/conditions.csv"));
    Path conditions = Files.write(dir.resolve("conditions.in"), lines.subList(0, logged + 1));
    Path job = Path.of("samples/history/job.json");
    Path log = dir.resolve("sample.db");
    String url = log.toString();
    done("record", job, "--import", from, "--conditions", conditions, "--history", url, "--quiet");
    exported("sample-log", log);
  }

  /** Everything again with four factors. */
  private void levels() throws IOException {
    Levels made = new Levels(dir.resolve("levels-in"));
    analyse("levels", made.job, List.of(made.article(0, null)), AnalysisOptions.withDefaults());
    if (whole) {
      analyse(
          "levels-framed",
          made.job,
          List.of(made.article(1, null)),
          AnalysisOptions.withDefaults()
              .withFrames(Map.of(Factor.NOZZLE, OffsetFrame.PANEL, Factor.HEAD, OffsetFrame.PART))
              .withEqualScatter(true)
              .withAll(true));
    }
    Path json = dir.resolve("levels/analysis.json");
    apply("levels-apply", made.job, json, "part,nozzle,feeder,head");
    apply("levels-placed", made.job, json, "placement");
    Path placed = dir.resolve("levels-apply/placements.csv");
    run(
        "levels-check",
        "check",
        made.job,
        json,
        made.article(2, placed),
        "--out",
        dir.resolve("levels-check"));
    plan("levels-plan", made.job);
    Path log = dir.resolve("levels.db");
    int logged = whole ? 12 : 3;
    for (int i = 0; i < logged; i++) {
      List<Object> call =
          new ArrayList<>(List.of("record", made.job, made.article(10 + i, null), "--at"));
      call.add(String.format(Locale.ROOT, "2026-03-%02dT06:00:00Z", i + 1));
      call.addAll(List.of("--machine", "M1", "--history", log, "--as-is", "--quiet"));
      if (i == logged / 2 - 1) {
        call.addAll(List.of("--trim", "nozzle N2 x=0.05", "--trim", "part T1 y=-0.02"));
      }
      if (i == logged - 2) {
        call.addAll(List.of("--trims", json));
      }
      done(call.toArray());
    }
    exported("levels-log", log);
    if (whole) {
      plan("levels-log-plan", made.job, "--count", 25, "--history", log);
    }
  }

  private void exported(String name, Path log) throws IOException {
    Path out = Files.createDirectories(dir.resolve(name));
    done(
        "history",
        "export",
        "--history",
        log,
        "--csv",
        out.resolve("tables"),
        "--json",
        out.resolve("log.json"));
    try (ArticleLog l = ArticleLog.openToRead(log.toString())) {
      PlainReport.write(DriftStudy.of(l, null, null, DriftOptions.withDefaults()), out);
    }
  }

  private void analyse(String name, Path job, List<Path> articles, AnalysisOptions o)
      throws IOException {
    ConsoleProgress silent = new ConsoleProgress(new PrintWriter(new StringWriter()), true);
    FirstArticleResult r = AnalyseCommand.analyse(job, articles, o, silent);
    PlainReport.write(r, dir.resolve(name));
  }

  /** The record of a first article without its PDF. */
  private void record(String name, Path job, Path json) throws IOException {
    FirstArticleRecord r =
        FirstArticleRecords.of(
            JobLoader.load(job).orThrow(), AnalysisJson.read(json), RecordOptions.withDefaults());
    Path out = Files.createDirectories(dir.resolve(name));
    try (OutputStream o = Files.newOutputStream(out.resolve("first-article.json"))) {
      FirstArticleJson.write(r, o);
    }
    try (OutputStream o = Files.newOutputStream(out.resolve("first-article.csv"))) {
      FirstArticleCsv.write(r, o);
    }
  }

  private void apply(String name, Path job, Path json, String kinds) throws IOException {
    Path out = Files.createDirectories(dir.resolve(name)).resolve("placements.csv");
    run(name, "apply", job, json, "--out", out, "--trims", kinds);
  }

  private void plan(String name, Path job, Object... more) throws IOException {
    List<Object> call = new ArrayList<>(List.of("plan", job));
    call.addAll(Arrays.asList(more));
    call.addAll(List.of("--out", Files.createDirectories(dir.resolve(name)).resolve("plan.csv")));
    run(name, call.toArray());
  }

  /** Runs a command, with what it prints beside what it writes. */
  private void run(String name, Object... call) throws IOException {
    String printed = done(call);
    Path out = Files.createDirectories(dir.resolve(name)).resolve("console.txt");
    Files.writeString(out, printed);
  }

  private static String done(Object... call) {
    Run r = Run.of(call);
    assertThat(r.code()).as(Arrays.toString(call) + r.err()).isZero();
    return r.out();
  }

  /** A panel of 2 x 2 boards with known offsets of every kind of level. */
  private static final class Levels {
    private static final int PLACEMENTS = 40;
    private final Path dir;
    private final Path job;

    Levels(Path dir) throws IOException {
      this.dir = Files.createDirectories(dir);
      job =
          Files.writeString(
              dir.resolve("job.json"),
              """
              {"name": "Levels", "units": "mm", "placements": "placements.csv",
               "panel": {"columns": 2, "rows": 2, "boards": [
                 {"column": 1, "row": 1, "x": 5, "y": 5}, {"column": 1, "row": 2, "x": 5, "y": 50},
                 {"column": 2, "row": 2, "x": 70, "y": 50}]},
               "machine": {"resolution": 0.01, "rotationResolution": 0.1}}
              """);
      Random r = new Random(20260117);
      StringBuilder s = new StringBuilder("ref,part,x,y,rotation,nozzle,feeder,head,order\n");
      for (int i = 0; i < PLACEMENTS; i++) {
        s.append(
            String.format(
                Locale.ROOT,
                "R%d,T%d,%.2f,%.2f,%d,N%d,F%d,H%d,%d\n",
                i + 1,
                i % 5,
                60 * r.nextDouble(),
                40 * r.nextDouble(),
                90 * r.nextInt(4),
                r.nextInt(4),
                // two feeders for each type, but one of a single type that shares all else
                2 * (i % 5) + (i % 5 == 4 ? 0 : r.nextInt(2)),
                r.nextInt(3),
                i + 1));
      }
      Files.writeString(dir.resolve("placements.csv"), s);
    }

    /**
     * A measured panel.
     *
     * @param placed a placement list with trims in it, whose changes are added; null for none
     */
    Path article(int number, Path placed) throws IOException {
      List<String> nominal = Files.readAllLines(dir.resolve("placements.csv"));
      List<String> real = placed == null ? nominal : Files.readAllLines(placed);
      Random r = new Random(7_000 + number);
      StringBuilder s = new StringBuilder("column,row,ref,dx,dy,drotation\n");
      for (int column = 1; column <= 2; column++) {
        for (int row = 1; row <= 2; row++) {
          for (int i = 1; i < nominal.size(); i++) {
            String[] c = nominal.get(i).split(",");
            String[] p = real.get(i).split(",");
            double t = Math.toRadians(Double.parseDouble(c[4]));
            boolean n2 = c[5].equals("N2");
            double px = (c[1].equals("T1") ? 0.06 : 0) + (n2 ? -0.05 : 0);
            double py = (c[1].equals("T3") ? -0.04 : 0) + (c[6].equals("F4") ? 0.05 : 0);
            double hx = c[7].equals("H1") ? 0.04 : 0;
            double turn = c[1].equals("T2") ? 0.8 : 0;
            double moved = number < 10 ? 0 : 0.004 * (number - 10);
            s.append(
                String.format(
                    Locale.ROOT,
                    "%d,%d,%s,%.3f,%.3f,%.2f\n",
                    column,
                    row,
                    c[0],
                    0.03
                        + hx
                        + moved
                        + px * Math.cos(t)
                        - py * Math.sin(t)
                        + change(c, p, 2)
                        + 0.015 * r.nextGaussian(),
                    -0.02
                        + px * Math.sin(t)
                        + py * Math.cos(t)
                        + change(c, p, 3)
                        + 0.015 * r.nextGaussian(),
                    turn + change(c, p, 4) + 0.1 * r.nextGaussian()));
          }
        }
      }
      return Files.writeString(dir.resolve("article-" + number + ".csv"), s);
    }

    private static double change(String[] nominal, String[] placed, int column) {
      return Double.parseDouble(placed[column]) - Double.parseDouble(nominal[column]);
    }
  }
}
