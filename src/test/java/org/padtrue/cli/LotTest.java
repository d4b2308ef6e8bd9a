package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedTrim;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Levels;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.json.StoredGroups;

/**
 * Lots off by 0.10 mm either way along their own x: trimmed, put into the file, checked, logged,
 * planned for. A factor that one of these forgets would be left alone without an error.
 */
class LotTest {
  private static final double OFF_MM = 0.10;
  private static final int PLACEMENTS = 60;
  private static final int LOTS = 4;
  private static final double SCATTER_MM = 0.015;

  /** Five standard errors of a mean of the placements of one lot, and a step of the machine. */
  private static final double TOL_MM = 5 * SCATTER_MM / Math.sqrt(PLACEMENTS / LOTS) + 0.005;

  @TempDir private Path dir;

  private static double planted(String lot) {
    return Integer.parseInt(lot.substring(1)) % 2 == 0 ? OFF_MM : -OFF_MM;
  }

  /** A job whose list or whose article names the lots. */
  private Path job(String column) throws IOException {
    Random r = new Random(7);
    StringBuilder s = new StringBuilder("ref,part,x,y,rotation," + column + "\n");
    for (int i = 0; i < PLACEMENTS; i++) {
      s.append(
          String.format(
              Locale.ROOT,
              "R%d,T%d,%.2f,%.2f,%d,L%d\n",
              i + 1,
              r.nextInt(5),
              80 * r.nextDouble(),
              60 * r.nextDouble(),
              90 * r.nextInt(4),
              i % LOTS));
    }
    Path folder = Files.createDirectories(dir.resolve(column));
    Files.writeString(folder.resolve("list.csv"), s);
    return Files.writeString(
        folder.resolve("job.json"),
        """
        {"name": "Lots", "units": "mm", "placements": "list.csv",
         "machine": {"resolution": 0.01, "rotationResolution": 0.1}}
        """);
  }

  /** What is measured of it, with what a list with trims in it adds to the programmed places. */
  private Path article(Path job, String name, int seed, Path placed) throws IOException {
    List<String> nominal = Files.readAllLines(job.resolveSibling("list.csv"));
    List<String> real = Files.readAllLines(placed);
    Random r = new Random(seed);
    StringBuilder s = new StringBuilder("ref,dx,dy,drotation\n");
    for (int i = 1; i < nominal.size(); i++) {
      String[] c = nominal.get(i).split(",");
      String[] p = real.get(i).split(",");
      double t = Math.toRadians(Double.parseDouble(c[4]));
      s.append(
          String.format(
              Locale.ROOT,
              "%s,%.3f,%.3f,%.2f\n",
              c[0],
              planted(c[5]) * Math.cos(t) + change(c, p, 2) + SCATTER_MM * r.nextGaussian(),
              planted(c[5]) * Math.sin(t) + change(c, p, 3) + SCATTER_MM * r.nextGaussian(),
              change(c, p, 4) + 0.1 * r.nextGaussian()));
    }
    return Files.writeString(job.resolveSibling(name), s);
  }

  private static double change(String[] nominal, String[] placed, int column) {
    return Double.parseDouble(placed[column]) - Double.parseDouble(nominal[column]);
  }

  private Path first(Path job, int seed) throws IOException {
    return article(job, "first.csv", seed, job.resolveSibling("list.csv"));
  }

  @Test
  void lotsAreTrimmedAsNozzlesWouldBe() throws IOException {
    Map<String, List<String>> trims = new HashMap<>();
    for (Factor f : List.of(Factor.LOT, Factor.NOZZLE)) {
      Path job = job(f.key());
      StoredAnalysis a = Run.analyse(job, first(job, 11), dir.resolve(f.key() + "-out"));
      List<String> values = new ArrayList<>();
      for (GroupResult g : a.groups()) {
        if (g.factor() == f) {
          assertThat(g.frame()).isEqualTo("part");
          assertThat(g.trim().decision()).as(g.level()).isEqualTo(Decision.TRIM);
          assertThat(g.trim().value().x()).isCloseTo(-planted(g.level()), within(TOL_MM));
          assertThat(g.trim().reason()).contains("sits at x ", "turns with the part");
          values.add(g.level() + " " + g.trim().value().x());
        }
      }
      trims.put(f.key(), values);
    }
    assertThat(trims.get("lot")).hasSize(LOTS).isEqualTo(trims.get("nozzle"));
  }

  /** The list says one lot, the article another: the article was there. */
  @Test
  void articleGoesBeforeTheList() throws IOException {
    Path job = job("lot");
    Path article = first(job, 12);
    List<String> rows = new ArrayList<>(Files.readAllLines(article));
    rows.set(0, rows.get(0) + ",Reel No");
    for (int i = 1; i < rows.size(); i++) {
      rows.set(i, rows.get(i) + (i % LOTS == 1 ? ",L9" : ","));
    }
    Files.write(article, rows);
    StoredAnalysis a = Run.analyse(job, article, dir.resolve("own"));
    assertThat(StoredGroups.of(a, Factor.LOT, "L0")).isEmpty();
    assertThat(StoredGroups.of(a, Factor.LOT, "L9").orElseThrow().trim().value().x())
        .isCloseTo(-OFF_MM, within(TOL_MM));
    assertThat(StoredGroups.of(a, Factor.LOT, "L1").orElseThrow().trim().decision())
        .isEqualTo(Decision.TRIM);
  }

  @Test
  void checkTellsWhetherLotsWereEntered() throws IOException {
    Path job = job("lot");
    Path out = dir.resolve("analysed");
    Run.analyse(job, first(job, 13), out);
    Path json = out.resolve("analysis.json");
    Path placed = job.resolveSibling("placed.csv");
    Run applied = Run.of("apply", job, json, "--out", placed, "--trims", "lot");
    assertThat(applied.code()).as(applied.err()).isZero();
    Map<String, String> held = check(job, json, article(job, "second.csv", 14, placed));
    Map<String, String> not =
        check(job, json, article(job, "third.csv", 15, job.resolveSibling("list.csv")));
    for (int k = 0; k < LOTS; k++) {
      assertThat(held).containsEntry("lot L" + k, "held");
      assertThat(not).containsEntry("lot L" + k, "notEntered");
    }
  }

  private Map<String, String> check(Path job, Path json, Path second) throws IOException {
    Path out = dir.resolve("check");
    Run r = Run.of("check", job, json, second, "--out", out, "--quiet");
    assertThat(r.code()).as(r.err()).isZero();
    Map<String, String> found = new TreeMap<>();
    JsonNode terms = new ObjectMapper().readTree(out.resolve("check.json").toFile()).get("terms");
    terms.forEach(t -> found.put(t.get("term").asText(), t.get("finding").asText()));
    return found;
  }

  @Test
  void logFollowsLotsAndTheirTrims() throws IOException {
    Path job = job("lot");
    Path out = dir.resolve("analysed");
    Run.analyse(job, first(job, 16), out);
    Path log = dir.resolve("log.db");
    for (int i = 0; i < 3; i++) {
      List<Object> call = new ArrayList<>(List.of("record", job));
      call.add(article(job, "a" + i + ".csv", 20 + i, job.resolveSibling("list.csv")));
      call.addAll(List.of("--machine", "M1", "--history", log, "--quiet"));
      call.addAll(List.of("--at", "2026-03-0" + (i + 1) + "T06:00:00Z"));
      if (i == 2) {
        call.addAll(List.of("--trims", out.resolve("analysis.json"), "--trim", "lot L0 y=0.03"));
      }
      Run r = Run.of(call.toArray());
      assertThat(r.code()).as(r.err()).isZero();
    }
    try (ArticleLog l = ArticleLog.openToRead(log.toString())) {
      assertThat(l.article(1).orElseThrow().placements())
          .filteredOn(p -> p.ref().equals("R3"))
          .allSatisfy(p -> assertThat(p.levels()).isEqualTo(Levels.NONE.with(Factor.LOT, "L2")));
      assertThat(l.article(3).orElseThrow().trims())
          .extracting(LoggedTrim::name)
          .contains("lot L0 x", "lot L1 x", "lot L2 x", "lot L3 x", "lot L0 y");
    }
    Run drift = Run.of("drift", "--history", log, "--out", dir.resolve("drift"), "--quiet");
    assertThat(drift.code()).as(drift.err()).isZero();
    JsonNode series =
        new ObjectMapper().readTree(dir.resolve("drift/drift.json").toFile()).get("series");
    Map<String, JsonNode> points = new HashMap<>();
    series.forEach(s -> points.put(s.get("name").asText(), s.get("points")));
    for (int k = 0; k < LOTS; k++) {
      JsonNode p = points.get("lot L" + k + " x");
      assertThat(p).as("lot L%d", k).hasSize(3);
      assertThat(p.get(0).get("value").doubleValue())
          .isCloseTo(planted("L" + k), within(2 * TOL_MM));
      // nothing was entered in truth: the state moves by the trim that the log was told of
      assertThat(p.get(2).get("state").doubleValue() - p.get(2).get("value").doubleValue())
          .isCloseTo(planted("L" + k), within(TOL_MM));
    }
  }

  @Test
  void planMeasuresEveryLot() throws IOException {
    Path job = job("lot");
    Path list = dir.resolve("plan.csv");
    Run r = Run.of("plan", job, "--count", 15, "--out", list);
    assertThat(r.code()).as(r.err()).isZero();
    assertThat(r.out().replaceAll("\\s+", " ")).contains("lots 0.020 mm");
    Map<String, Integer> counts = new TreeMap<>();
    List<String> nominal = Files.readAllLines(job.resolveSibling("list.csv"));
    List<String> planned = Files.readAllLines(list);
    for (String row : planned.subList(1, planned.size())) {
      int number = Integer.parseInt(row.split(",")[3].substring(1));
      counts.merge(nominal.get(number).split(",")[5], 1, Integer::sum);
    }
    assertThat(counts).hasSize(LOTS).allSatisfy((k, n) -> assertThat(n).isGreaterThanOrEqualTo(3));
  }
}
