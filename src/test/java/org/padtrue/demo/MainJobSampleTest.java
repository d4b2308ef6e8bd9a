package org.padtrue.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Factor;

/** The committed sample is what its maker makes, and the main job finds what was planted. */
class MainJobSampleTest {
  /** A planted value lies within this many standard errors of its estimate. */
  private static final double WITHIN = 3;

  private static FirstArticleResult result;

  @BeforeAll
  static void analyse() {
    LoadedJob job = JobLoader.loadWithFile(SampleMaker.FOLDER.resolve("job.json")).orThrow();
    result =
        FirstArticleAnalysis.run(
            job.job(),
            List.of(ArticleLoader.load(SampleMaker.FOLDER.resolve("article-1.csv"), job).orThrow()),
            AnalysisOptions.withDefaults());
  }

  /** Zero tolerance: text for text. */
  @Test
  void committedFilesAreWhatTheMakerMakes() throws IOException {
    for (Map.Entry<String, String> f : SampleMaker.files().entrySet()) {
      assertSameText(
          f.getKey(), f.getValue(), Files.readString(SampleMaker.FOLDER.resolve(f.getKey())));
    }
  }

  @Test
  void filesTravelOnTheClassPath() throws IOException {
    for (Map.Entry<String, String> f : SampleMaker.files().entrySet()) {
      try (InputStream in =
          getClass().getResourceAsStream("/org/padtrue/samples/main-job/" + f.getKey())) {
        assertNotNull(in, f.getKey());
        assertSameText(
            f.getKey(), f.getValue(), new String(in.readAllBytes(), StandardCharsets.UTF_8));
      }
    }
  }

  @Test
  void panelTransformIsFound() {
    assertEquals(1, result.panels().size());
    PanelResult p = result.panels().get(0);
    assertEquals("affine", p.family());
    assertNear("shift x", Planted.SHIFT_X, p.transform().shiftX(), p.standardErrors().shiftX());
    assertNear("shift y", Planted.SHIFT_Y, p.transform().shiftY(), p.standardErrors().shiftY());
    assertNear(
        "rotation", Planted.ROTATION, p.transform().rotation(), p.standardErrors().rotation());
    assertNear(
        "scale x",
        1e6 * Planted.SCALE_X,
        p.transform().scaleXPpm(),
        p.standardErrors().scaleXPpm());
    assertNear(
        "scale y",
        1e6 * Planted.SCALE_Y,
        p.transform().scaleYPpm(),
        p.standardErrors().scaleYPpm());
    assertNear(
        "squareness", 0, p.transform().squarenessMrad(), p.standardErrors().squarenessMrad());
  }

  @Test
  void offsetsOfTypesAndNozzlesAreFound() {
    for (GroupResult g : result.groups()) {
      double[] planted =
          (g.factor() == Factor.PART ? Planted.TYPES : Planted.NOZZLES)
              .getOrDefault(g.level(), new double[3]);
      Xyr v = g.combined();
      Xyr se = g.combinedStandardErrors();
      assertNear(g.level() + " x", planted[0], v.x(), se.x());
      assertNear(g.level() + " y", planted[1], v.y(), se.y());
      assertNear(g.level() + " rotation", planted[2], v.rotation(), se.rotation());
    }
    assertThat(result.groups()).hasSize(12 + 5);
  }

  /** What was planted is trimmed, and the trims take out more than half of it. */
  @Test
  void whatWasPlantedIsTrimmed() {
    assertEquals(Decision.TRIM, result.batchTrim().shift().decision());
    assertEquals(Decision.TRIM, result.batchTrim().rotation().decision());
    assertEquals(Decision.TRIM, result.batchTrim().scale().decision());
    assertEquals(Decision.LEAVE, result.batchTrim().array().decision());
    int seen = 0;
    for (GroupResult g : result.groups()) {
      double[] planted =
          (g.factor() == Factor.PART ? Planted.TYPES : Planted.NOZZLES).get(g.level());
      if (planted == null) {
        continue;
      }
      seen++;
      assertEquals(Decision.TRIM, g.trim().decision(), g.level());
      Xyr v = g.trim().value();
      double left = Math.hypot(planted[0] + v.x(), planted[1] + v.y());
      assertTrue(left < 0.5 * Math.hypot(planted[0], planted[1]), g.level() + " leaves " + left);
    }
    assertEquals(3, seen);
    assertTrue(result.prediction().nextTrimmed() < 0.5 * result.prediction().nextUntrimmed());
  }

  /** A type is nearer to where it belongs with its trim and those of all parts than without. */
  @Test
  void noTrimMovesItsTypeAway() {
    int trimmed = 0;
    for (GroupResult g : result.groups()) {
      if (g.factor() != Factor.PART || g.trim().decision() != Decision.TRIM) {
        continue;
      }
      trimmed++;
      Xyr before = g.combined();
      Xyr trim = g.trim().value();
      double turn = trim.rotation() + result.batchTrim().rotationZero().value();
      String what = g.level() + " " + before + " " + trim;
      assertTrue(Math.abs(before.x() + trim.x()) <= Math.abs(before.x()), what);
      assertTrue(Math.abs(before.y() + trim.y()) <= Math.abs(before.y()), what);
      assertTrue(Math.abs(before.rotation() + turn) <= Math.abs(before.rotation()), what);
    }
    assertTrue(trimmed >= 3);
  }

  /** The second article was placed with these numbers, so they must be those of the sheet. */
  @Test
  void whatWasTypedIsTheTrimSheet() {
    assertEquals(TypedTrims.SHIFT_X, result.batchTrim().shift().value().x(), 1e-12);
    assertEquals(TypedTrims.SHIFT_Y, result.batchTrim().shift().value().y(), 1e-12);
    assertEquals(TypedTrims.ROTATION, result.batchTrim().rotation().value(), 1e-12);
    assertEquals(TypedTrims.SCALE_X, 1e-6 * result.batchTrim().scale().xPpm(), 1e-12);
    assertEquals(TypedTrims.SCALE_Y, 1e-6 * result.batchTrim().scale().yPpm(), 1e-12);
    assertEquals(TypedTrims.SQUARENESS, 1e-3 * result.batchTrim().scale().squarenessMrad(), 1e-12);
    for (GroupResult g : result.groups()) {
      double[] typed =
          (g.factor() == Factor.PART ? TypedTrims.TYPES : TypedTrims.NOZZLES)
              .getOrDefault(g.level(), new double[3]);
      Xyr v = g.trim().value();
      assertThat(new double[] {v.x(), v.y(), g.trim().whole().rotation()})
          .as(g.level())
          .containsExactly(typed, within(1e-12));
    }
  }

  @Test
  void libraryTurnIsFoundAndTakenBack() {
    for (GroupResult g : result.groups()) {
      int turned = g.factor() == Factor.PART ? Planted.LIBRARY_TURN.getOrDefault(g.level(), 0) : 0;
      assertEquals(turned, g.zeroOrientation(), g.level());
      if (turned != 0) {
        assertEquals(360 - turned, g.trim().turn());
        assertEquals(0, g.trim().value().rotation(), 1);
      }
    }
  }

  @Test
  void grossErrorsAreNamedByTheirKind() {
    Map<String, String> found = new TreeMap<>();
    for (Excluded e : result.excluded()) {
      found.put(e.board() + "/" + e.ref(), e.kind());
    }
    assertEquals(new TreeMap<>(Planted.GROSS), found);
  }

  @Test
  void scatterIsFound() {
    // Pooled over both axes and 696 degrees of freedom: relative standard error 2.7 %.
    double sd = Math.hypot(result.scatter().sdX(), result.scatter().sdY()) / Math.sqrt(2);
    assertEquals(Planted.SCATTER, sd, WITHIN * 0.027 * Planted.SCATTER);
    // 341 degrees of freedom: 3.8 %.
    assertEquals(
        Planted.ROTATION_SCATTER,
        result.scatter().sdRotation(),
        WITHIN * 0.042 * Planted.ROTATION_SCATTER);
  }

  @Test
  void countsAddUp() {
    assertEquals(360, result.counts().nominal());
    assertEquals(360 - Planted.NOT_MEASURED.size(), result.counts().measured());
    assertEquals(Planted.GROSS.size(), result.counts().excluded());
    assertThat(result.missing()).containsExactlyInAnyOrderElementsOf(Planted.NOT_MEASURED);
  }

  /** The first line that differs says more than two files in full. */
  private static void assertSameText(String file, String made, String found) {
    List<String> a = made.lines().toList();
    List<String> b = found.lines().toList();
    for (int i = 0; i < Math.min(a.size(), b.size()); i++) {
      assertEquals(a.get(i), b.get(i), file + " line " + (i + 1));
    }
    assertTrue(made.equals(found), file + ": lines " + a.size() + " made, " + b.size() + " found");
  }

  private static void assertNear(String what, double planted, double found, double se) {
    assertTrue(se > 0, what + " has no standard error");
    double z = (found - planted) / se;
    assertTrue(
        Math.abs(z) < WITHIN,
        what + ": planted " + planted + ", found " + found + " +- " + se + ", z " + z);
  }
}
