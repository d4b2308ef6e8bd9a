package org.padtrue.firstarticle.result;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.AnalysisOptions.Transform;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Stage;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;

/** Rules of the decision on simulated articles with large, clear offsets. */
class DecisionRulesTest {
  private static SyntheticPanel panel(long seed) {
    SyntheticPanel s = new SyntheticPanel(seed);
    s.perBoard = 90;
    s.types = 5;
    s.typeSd = 0.08;
    s.shiftX = 0.15;
    s.shiftY = -0.10;
    return s;
  }

  private static FirstArticleResult run(SyntheticPanel s) {
    return FirstArticleAnalysis.run(
        s.job(), List.of(s.article("a")), AnalysisOptions.withDefaults());
  }

  @Test
  void trimIsTheCorrectionToAdd() {
    SyntheticPanel s = panel(1).draw();
    FirstArticleResult r = run(s);
    assertThat(r.batchTrim().shift().decision()).isEqualTo(Decision.TRIM);
    for (PlacementResult p : r.placements()) {
      double c = p.afterTrim().x() - p.deviation().x();
      // The whole correction undoes the systematic part: what is left is scatter.
      assertThat(Math.hypot(p.afterTrim().x(), p.afterTrim().y())).isLessThan(6 * 0.02 * 1.3);
      assertThat(c).isNotNaN();
    }
    for (GroupResult g : r.groups()) {
      double[] o = s.offset.get("part " + g.level());
      if (g.trim().decision() == Decision.TRIM && g.trim().value().x() != 0) {
        double whole = g.trim().value().x() + r.batchTrim().common().value().x();
        assertThat(whole).isCloseTo(-o[0], within(0.04));
      }
    }
  }

  @Test
  void turnAboutThePanelOriginKeepsTheFieldWhole() {
    SyntheticPanel s = panel(2);
    s.rotationDeg = 0.2;
    s.draw();
    FirstArticleResult r = run(s);
    assertThat(r.batchTrim().rotation().value()).isCloseTo(-0.2, within(0.02));
    // With rotation entered too, the shift at the origin undoes the transform's own shift.
    assertThat(r.batchTrim().shift().value().x())
        .isCloseTo(-r.panels().get(0).transform().shiftX(), within(0.005));
    assertThat(r.prediction().nextTrimmed()).isLessThan(1.3 * r.prediction().floor());
  }

  @Test
  void whatTheMachineDoesNotAcceptIsNotOnTheSheet() {
    SyntheticPanel s = panel(3);
    s.accepts.remove(TrimKind.PART);
    s.draw();
    FirstArticleResult r = run(s);
    assertThat(r.groups())
        .anySatisfy(g -> assertThat(g.trim().decision()).isEqualTo(Decision.NOT_ACCEPTED));
    assertThat(r.trims()).noneMatch(t -> t.kind().equals("part"));
  }

  @Test
  void machineReferenceHidesScale() {
    SyntheticPanel s = panel(4);
    s.reference = Reference.MACHINE;
    s.scaleX = 1e-3;
    s.draw();
    FirstArticleResult r = run(s);
    assertThat(r.panels().get(0).transform().scaleXPpm()).isNaN();
    assertThat(r.batchTrim().scale().decision()).isEqualTo(Decision.CANNOT_TELL);
  }

  @Test
  void landsReferenceNeverTrimsAnAxis() {
    SyntheticPanel s = panel(5);
    s.reference = Reference.LANDS;
    s.scaleX = 1e-3;
    s.draw();
    FirstArticleResult r = run(s);
    assertThat(r.panels().get(0).transform().scaleXPpm()).isCloseTo(1000, within(150.0));
    assertThat(r.batchTrim().scale().decision()).isEqualTo(Decision.CANNOT_TELL);
    assertThat(r.aliases()).anyMatch(a -> a.terms().contains("board stretch"));
  }

  @Test
  void afterReflowTypesThatCentreThemselvesAreLeft() {
    SyntheticPanel s = panel(6);
    s.stage = Stage.REFLOWED;
    s.draw();
    assertThat(run(s).trims()).isEmpty();
  }

  @Test
  void oneRotationMakesShiftAndCommonAliases() {
    SyntheticPanel s = panel(7);
    s.turns = 1;
    s.draw();
    FirstArticleResult r = run(s);
    assertThat(r.aliases())
        .anySatisfy(a -> assertThat(a.terms()).contains("common x", "shift x"))
        .anySatisfy(a -> assertThat(a.terms()).contains("common y", "shift y"));
    assertThat(r.batchTrim().common().decision()).isNotEqualTo(Decision.TRIM);
  }

  @Test
  void anOrdinaryJobHasNoAlias() {
    SyntheticPanel s = panel(8);
    s.nozzles = 4;
    s.nozzleSd = 0.02;
    s.draw();
    assertThat(run(s).aliases()).isEmpty();
  }

  @Test
  void nozzlesThatKeepToOneTypeAreAliasesOfIt() {
    SyntheticPanel s = panel(9);
    s.nozzles = 5;
    s.nozzlePerType = true;
    s.draw();
    FirstArticleResult r = run(s);
    assertThat(r.aliases())
        .anySatisfy(a -> assertThat(a.terms()).contains("nozzle N2 x", "part T2 x"));
    assertThat(r.groups())
        .filteredOn(g -> g.factor() == Factor.NOZZLE)
        .allSatisfy(g -> assertThat(g.trim().decision()).isEqualTo(Decision.CANNOT_TELL));
  }

  @Test
  void severalArticlesGiveRegistrationFromPanelToPanel() {
    SyntheticPanel s = panel(10);
    s.repeatability = 0.05;
    s.draw();
    List<Article> articles = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      articles.add(s.article("a" + i + ".csv"));
    }
    FirstArticleResult r =
        FirstArticleAnalysis.run(s.job(), articles, AnalysisOptions.withDefaults());
    assertThat(r.panels()).hasSize(8);
    assertThat(r.panels().stream().map(PanelResult::panel)).doesNotHaveDuplicates();
    double sd =
        r.variances().stream()
            .filter(v -> v.source().equals("registration") && v.axis().equals("x"))
            .mapToDouble(VarianceLine::sd)
            .findFirst()
            .orElseThrow();
    // Seven degrees of freedom: the 99.9 % range of an estimated standard deviation.
    assertThat(sd).isBetween(0.05 * 0.29, 0.05 * 1.86);
    assertThat(r.batchTrim().shift().value().x()).isCloseTo(-0.15, within(0.08));
  }

  @Test
  void oneSharpPointDoesNotRule() {
    SyntheticPanel s = panel(11);
    s.draw();
    Article a = s.article("a");
    List<org.padtrue.panel.Measured> rows = new ArrayList<>();
    for (int i = 0; i < a.measured().size(); i++) {
      var m = a.measured().get(i);
      rows.add(
          new org.padtrue.panel.Measured(
              m.panel(),
              m.board(),
              m.placement(),
              m.nominal(),
              m.dxMm(),
              m.dyMm(),
              m.dRotationDeg(),
              i == 0 ? 1e-7 : 0.010,
              Double.NaN,
              m.levels(),
              m.order(),
              m.note(),
              m.line()));
    }
    Article sharp = new Article("b", rows, List.of(), false, false, a.temperatureC(), List.of());
    double plain = run(s, a).panels().get(0).transform().shiftX();
    double with = run(s, sharp).panels().get(0).transform().shiftX();
    double se = run(s, a).panels().get(0).standardErrors().shiftX();
    assertThat(with).isCloseTo(plain, within(0.5 * se));
    assertThat(run(s, sharp).scatter().measuringSd()).isCloseTo(0.010, within(1e-4));
  }

  private static FirstArticleResult run(SyntheticPanel s, Article a) {
    return FirstArticleAnalysis.run(
        s.job(), List.of(a), AnalysisOptions.withDefaults().with(Transform.RIGID));
  }

  @Test
  void tooFewPlacementsForAnAffineFitIsSaid() {
    SyntheticPanel s = new SyntheticPanel(12);
    s.perBoard = 2;
    s.types = 2;
    s.draw();
    assertThatThrownBy(
            () ->
                FirstArticleAnalysis.run(
                    s.job(),
                    List.of(s.article("a.csv")),
                    AnalysisOptions.withDefaults().with(Transform.AFFINE)))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "a.csv: the placements that were measured do not determine a transform of family"
                + " affine; measure more placements, spread over the panel, or take a simpler"
                + " --transform");
  }

  @Test
  void onePlacementIsEnoughToSaySomething() {
    SyntheticPanel s = new SyntheticPanel(13);
    s.perBoard = 1;
    s.types = 1;
    s.draw();
    FirstArticleResult r = run(s);
    assertThat(r.counts().used()).isEqualTo(1);
    assertThat(r.trims()).isEmpty();
  }
}
