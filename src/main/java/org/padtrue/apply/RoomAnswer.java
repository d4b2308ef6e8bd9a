package org.padtrue.apply;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.placement.Axes;
import org.padtrue.panel.Side;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.RoomPage;
import org.padtrue.report.file.OutputFolder;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.NextJson;
import org.padtrue.report.json.RoomJson;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.room.RoomItem;
import org.padtrue.room.RoomOptions;
import org.padtrue.room.RoomResult;
import org.padtrue.room.RoomSearch;
import org.padtrue.room.RoomSubject;

/**
 * Room for a job: what was found and what leaves it behind.
 *
 * @param result groups and moves
 * @param options what was asked
 * @param head what it belongs to
 * @param items every placement where it was looked at
 */
public record RoomAnswer(
    RoomResult result, RoomOptions options, RoomSubject head, List<RoomItem> items) {
  public RoomAnswer {
    items = List.copyOf(items);
  }

  /**
   * What is asked.
   *
   * @param gapMm gap, mm
   * @param probability with which it is kept
   * @param maxMm longest move, mm
   * @param fix refs or part types that stay
   * @param turn refs or part types that may be turned
   * @param eachBoard true where boards need not move alike
   */
  public record Asked(
      double gapMm,
      double probability,
      double maxMm,
      Set<String> fix,
      Set<String> turn,
      boolean eachBoard) {
    public Asked {
      fix = Set.copyOf(fix);
      turn = Set.copyOf(turn);
    }

    /** As 'room' asks when nothing else is said. */
    public static Asked withDefaults() {
      return new Asked(
          RoomOptions.GAP_MM,
          RoomOptions.PROBABILITY,
          RoomOptions.MAX_MM,
          Set.of(),
          Set.of(),
          false);
    }
  }

  /**
   * What tells where placements are expected.
   *
   * @param analysis of this job
   * @param next what it expects of the next panel
   */
  public record Analysed(StoredAnalysis analysis, NextJson.Next next) {
    /** Reads an analysis.json. */
    public static Analysed read(Path file) {
      return new Analysed(AnalysisJson.read(file), NextJson.read(file));
    }

    /** An analysis in memory. */
    public static Analysed of(FirstArticleResult r) {
      return new Analysed(AnalysisJson.stored(r), NextJson.of(r));
    }
  }

  /**
   * Looks for room.
   *
   * @param analysed null = as drawn
   * @throws InputException when names are not known or wishes contradict
   */
  public static RoomAnswer of(LoadedJob job, Asked asked, @Nullable Analysed analysed) {
    if (asked.eachBoard() && !job.wholePanel()) {
      throw new InputException(
          Problem.of(
              job.placements().name(),
              "the file gives one board for all, so boards cannot move by themselves",
              "leave --each-board out, or give a file of the whole panel"));
    }
    RoomInputs in;
    String hash = null;
    if (analysed == null) {
      in = RoomInputs.drawn(job, asked.eachBoard());
    } else {
      StoredAnalysis a = analysed.analysis();
      in = RoomInputs.expected(job, a, analysed.next(), asked.eachBoard());
      hash = a.hash();
    }
    RoomOptions options =
        new RoomOptions(
            asked.gapMm(),
            asked.probability(),
            asked.maxMm(),
            in.keys(asked.fix(), "--fix"),
            in.keys(asked.turn(), "--turn"));
    List<RoomItem> items = in.items();
    contradict(job, items, in, options);
    Axes axes = job.placements().axes();
    Side side = job.job().side();
    return new RoomAnswer(
        RoomSearch.of(items, in.spread(), in.scatterMm(), options),
        options,
        new RoomSubject(
            job.job().name(), hash, axes.signX(side), axes.signY(), axes.signRotation(side)),
        items);
  }

  private static void contradict(
      LoadedJob job, List<RoomItem> items, RoomInputs in, RoomOptions options) {
    List<Problem> problems = new ArrayList<>();
    for (String pair : RoomSearch.contradictions(items, in.spread(), in.scatterMm(), options)) {
      problems.add(
          Problem.of(
              job.placements().name(),
              pair + " are nearer to each other than --gap, and --fix holds both",
              "take one of them out of --fix, or give a smaller --gap"));
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  /** room.json, for a page to hand out. */
  public byte[] json() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    RoomJson.write(result, options, head, out);
    return out.toByteArray();
  }

  /** Writes room.json alone, for scripts; returns the file. */
  public Path writeJson(Path dir) {
    try (OutputFolder folder = new OutputFolder(dir)) {
      folder.write("room.json", out -> RoomJson.write(result, options, head, out));
      return folder.commit().get(0);
    }
  }

  /** Writes room.json and room.html, both or none. */
  public List<Path> write(Path dir) {
    try (OutputFolder folder = new OutputFolder(dir)) {
      folder.write("room.json", out -> RoomJson.write(result, options, head, out));
      String page = RoomPage.of(result, options, head, items);
      folder.write("room.html", out -> out.write(page.getBytes(StandardCharsets.UTF_8)));
      return folder.commit();
    }
  }
}
