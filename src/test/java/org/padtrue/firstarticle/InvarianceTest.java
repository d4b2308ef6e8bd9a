package org.padtrue.firstarticle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.UnaryOperator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.Article;
import org.padtrue.quantity.Angles;

/** Turning, shifting, mirroring the whole input or shuffling its rows changes what it should. */
class InvarianceTest {
  /** Optimisers stop at slightly different points; 1e-5 mm is a hundredth of a micrometre. */
  private static final double OFFSET_TOL = 1e-5;

  private record Case(Job job, Article article) {
    FirstArticleResult run() {
      return FirstArticleAnalysis.run(
          job,
          List.of(article),
          AnalysisOptions.withDefaults().with(AnalysisOptions.Transform.AFFINE));
    }
  }

  private static Case drawn(int seed) {
    SyntheticPanel s = new SyntheticPanel(seed);
    s.tolerances = false;
    s.perBoard = 60;
    s.types = 5;
    s.shiftX = 0.05;
    s.shiftY = -0.08;
    s.rotationDeg = 0.05;
    s.scaleX = 3e-4;
    s.scaleY = -2e-4;
    s.squareness = 4e-4;
    s.draw();
    return new Case(s.job(), s.article("a"));
  }

  /** Moves nominal poses by one rule and deviations (x, y, rotation) by another. */
  private static Case moved(Case c, UnaryOperator<Pose> nominal, UnaryOperator<Xyr> deviation) {
    Map<String, Placement> byRef = new HashMap<>();
    List<Placement> placements = new ArrayList<>();
    for (Placement p : c.job().placements()) {
      Placement q =
          new Placement(
              p.ref(), p.part(), nominal.apply(p.pose()), p.levels(), p.order(), p.line());
      placements.add(q);
      byRef.put(p.ref(), q);
    }
    List<Measured> rows = new ArrayList<>();
    for (Measured m : c.article().measured()) {
      Placement q = byRef.get(m.placement().ref());
      Xyr d = deviation.apply(new Xyr(m.dxMm(), m.dyMm(), m.dRotationDeg()));
      rows.add(
          new Measured(
              m.panel(),
              m.board(),
              q,
              q.pose(),
              d.x(),
              d.y(),
              d.rotation(),
              m.uMm(),
              m.uRotationDeg(),
              m.levels(),
              m.order(),
              m.note(),
              m.line()));
    }
    Job j = c.job();
    return new Case(
        new Job(
            j.name(),
            j.side(),
            j.stage(),
            placements,
            j.unplaced(),
            j.parts(),
            j.array(),
            j.fiducials(),
            j.acceptanceClass(),
            j.machine(),
            j.measurement(),
            j.notes()),
        article(c.article(), rows));
  }

  private static Article article(Article a, List<Measured> rows) {
    return new Article(
        a.file(), rows, a.fiducials(), a.poses(), a.partsRegistered(), a.temperatureC(), a.notes());
  }

  private static Map<String, GroupResult> groups(FirstArticleResult r) {
    Map<String, GroupResult> m = new HashMap<>();
    r.groups().forEach(g -> m.put(g.factor() + " " + g.level(), g));
    return m;
  }

  private static void assertOffsets(
      FirstArticleResult a, FirstArticleResult b, double signY, double signRotation) {
    Map<String, GroupResult> other = groups(b);
    for (GroupResult g : a.groups()) {
      GroupResult h = other.get(g.factor() + " " + g.level());
      assertThat(h.offset().x()).isCloseTo(g.offset().x(), within(OFFSET_TOL));
      assertThat(h.offset().y()).isCloseTo(signY * g.offset().y(), within(OFFSET_TOL));
      assertThat(h.offset().rotation())
          .isCloseTo(signRotation * g.offset().rotation(), within(1e-4));
      assertThat(h.standardErrors().x())
          .isCloseTo(g.standardErrors().x(), within(0.02 * g.standardErrors().x()));
    }
    assertThat(b.scatter().residualSd()).isCloseTo(a.scatter().residualSd(), within(1e-6));
  }

  @ParameterizedTest
  @ValueSource(ints = {11, 230, 1907, 6043})
  void turningTheWholeInputByAQuarter(int seed) {
    Case c = drawn(seed);
    FirstArticleResult a = c.run();
    FirstArticleResult b =
        moved(
                c,
                p -> new Pose(-p.yMm(), p.xMm(), Angles.wrap(p.rotationDeg() + 90)),
                d -> new Xyr(-d.y(), d.x(), d.rotation()))
            .run();
    assertOffsets(a, b, 1, 1);
    TransformValues t = a.panels().get(0).transform();
    TransformValues u = b.panels().get(0).transform();
    assertThat(u.shiftX()).isCloseTo(-t.shiftY(), within(OFFSET_TOL));
    assertThat(u.shiftY()).isCloseTo(t.shiftX(), within(OFFSET_TOL));
    assertThat(u.scaleXPpm()).isCloseTo(t.scaleYPpm(), within(0.1));
    assertThat(u.scaleYPpm()).isCloseTo(t.scaleXPpm(), within(0.1));
    assertThat(u.squarenessMrad()).isCloseTo(-t.squarenessMrad(), within(1e-4));
    // The image of the new +x is the turned image of the old -y.
    assertThat(u.rotation())
        .isCloseTo(t.rotation() + Math.toDegrees(1e-3 * t.squarenessMrad()), within(1e-5));
  }

  @ParameterizedTest
  @ValueSource(ints = {11, 230, 1907, 6043})
  void shiftingTheWholeInput(int seed) {
    Case c = drawn(seed);
    FirstArticleResult a = c.run();
    FirstArticleResult b =
        moved(c, p -> new Pose(p.xMm() + 100, p.yMm() - 250, p.rotationDeg()), d -> d).run();
    assertOffsets(a, b, 1, 1);
    TransformValues t = a.panels().get(0).transform();
    TransformValues u = b.panels().get(0).transform();
    assertThat(u.rotation()).isCloseTo(t.rotation(), within(1e-6));
    assertThat(u.scaleXPpm()).isCloseTo(t.scaleXPpm(), within(0.05));
    double a11 = (1 + 1e-6 * t.scaleXPpm()) * Math.cos(Math.toRadians(t.rotation()));
    double turn = Math.toRadians(t.rotation()) + 1e-3 * t.squarenessMrad();
    double a12 = -(1 + 1e-6 * t.scaleYPpm()) * Math.sin(turn);
    assertThat(u.shiftX())
        .isCloseTo(t.shiftX() - (a11 - 1) * 100 + a12 * 250, within(5 * OFFSET_TOL));
  }

  @ParameterizedTest
  @ValueSource(ints = {11, 230, 1907, 6043})
  void mirroringTheWholeInput(int seed) {
    Case c = drawn(seed);
    FirstArticleResult a = c.run();
    FirstArticleResult b =
        moved(
                c,
                p -> new Pose(-p.xMm(), p.yMm(), Angles.wrap(180 - p.rotationDeg())),
                d -> new Xyr(-d.x(), d.y(), -d.rotation()))
            .run();
    // The part's own x goes with the mirror, its y and its rotation against it.
    assertOffsets(a, b, -1, -1);
    TransformValues t = a.panels().get(0).transform();
    TransformValues u = b.panels().get(0).transform();
    assertThat(u.shiftX()).isCloseTo(-t.shiftX(), within(OFFSET_TOL));
    assertThat(u.shiftY()).isCloseTo(t.shiftY(), within(OFFSET_TOL));
    assertThat(u.rotation()).isCloseTo(-t.rotation(), within(1e-5));
    assertThat(u.squarenessMrad()).isCloseTo(-t.squarenessMrad(), within(1e-4));
  }

  @ParameterizedTest
  @ValueSource(ints = {11, 230, 1907, 6043})
  void orderOfRows(int seed) {
    Case c = drawn(seed);
    List<Measured> rows = new ArrayList<>(c.article().measured());
    Collections.shuffle(rows, new Random(seed));
    FirstArticleResult a = c.run();
    FirstArticleResult b = new Case(c.job(), article(c.article(), rows)).run();
    assertOffsets(a, b, 1, 1);
    assertThat(b.panels().get(0).transform().shiftX())
        .isCloseTo(a.panels().get(0).transform().shiftX(), within(1e-7));
    assertThat(b.trims()).hasSameSizeAs(a.trims());
  }
}
