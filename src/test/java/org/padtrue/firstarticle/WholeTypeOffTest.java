package org.padtrue.firstarticle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.padtrue.SyntheticPanel;
import org.padtrue.check.AnalysedBefore;
import org.padtrue.check.TrimCheck;
import org.padtrue.check.TrimCheckFinding;
import org.padtrue.check.TrimCheckResult;
import org.padtrue.check.TrimCheckTerm;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.quantity.Angles;

/**
 * A type that is off as a whole is systematic, however far; one or two placements are asked about.
 */
class WholeTypeOffTest {
  /** The article with every placement of a type moved in its own axes. */
  static Article moved(Article a, String part, double x, double y, int most) {
    List<Measured> rows = new ArrayList<>();
    int n = 0;
    for (Measured m : a.measured()) {
      boolean move = m.placement().part().equals(part) && n++ < most;
      double c = move ? Angles.cosDeg(m.nominal().rotationDeg()) : 0;
      double s = move ? Angles.sinDeg(m.nominal().rotationDeg()) : 0;
      rows.add(
          new Measured(
              m.panel(),
              m.board(),
              m.placement(),
              m.nominal(),
              m.dxMm() + c * x - s * y,
              m.dyMm() + s * x + c * y,
              m.dRotationDeg(),
              m.uMm(),
              m.uRotationDeg(),
              m.levels(),
              m.order(),
              m.note(),
              m.line()));
    }
    return new Article(a.file(), rows, List.of(), false, false, OptionalDouble.empty(), List.of());
  }

  private static SyntheticPanel panel(long seed, int placements, int types) {
    SyntheticPanel s = new SyntheticPanel(seed);
    s.perBoard = placements;
    s.types = types;
    return s.draw();
  }

  private static GroupResult type(FirstArticleResult r, String level) {
    return r.groups().stream()
        .filter(g -> g.factor() == Factor.PART && g.level().equals(level))
        .findFirst()
        .orElseThrow();
  }

  private static long of(SyntheticPanel s, String part) {
    return s.job().placements().stream().filter(p -> p.part().equals(part)).count();
  }

  @Test
  void manyAlikeAreOneLineWithATrim() {
    for (double off : new double[] {0.3, 1.0, 2.5}) {
      for (long seed = 1; seed <= 3; seed++) {
        SyntheticPanel s = panel(900 + seed, 67, 5);
        Article a = moved(s.article("a"), "T1", off, -0.2, 1000);
        FirstArticleResult r =
            FirstArticleAnalysis.run(s.job(), List.of(a), AnalysisOptions.withDefaults());
        assertThat(r.excluded()).as("seed %d, %s mm", seed, off).isEmpty();
        GroupResult g = type(r, "T1");
        assertThat(g.trim().decision()).isEqualTo(Decision.TRIM);
        double[] own = s.offset.get("part T1");
        assertThat(g.trim().value().x() + off + own[0]).isBetween(-0.03, 0.03);
        assertThat(g.trim().value().y() - 0.2 + own[1]).isBetween(-0.03, 0.03);
        // The others are held to each other as if it were not there.
        for (GroupResult o : r.groups()) {
          double[] truth = s.offset.get("part " + o.level());
          if (!o.level().equals("T1")) {
            assertThat(Math.abs(o.combined().x() - truth[0])).isLessThan(0.03);
          }
        }
        if (off > 0.5) {
          assertThat(g.trim().reason())
              .contains("on all " + of(s, "T1") + ": origin in the library, or unit?");
        }
        // Tolerance 0.2 mm: all of them outside until trimmed.
        assertThat(r.acceptance().expectedOutside().value()).isGreaterThan(0.9 * of(s, "T1"));
        assertThat(r.acceptance().expectedOutsideAfterTrim().value()).isLessThan(1);
      }
    }
  }

  @Test
  void threeAlikeSuffice() {
    for (long seed = 1; seed <= 6; seed++) {
      SyntheticPanel s = panel(950 + seed, 40, 10);
      String rare =
          s.job().placements().stream()
              .map(p -> p.part())
              .distinct()
              .filter(p -> of(s, p) == 3)
              .findFirst()
              .orElse("");
      if (rare.isEmpty()) {
        continue;
      }
      Article a = moved(s.article("a"), rare, 0.3, 0, 3);
      FirstArticleResult r =
          FirstArticleAnalysis.run(s.job(), List.of(a), AnalysisOptions.withDefaults());
      assertThat(r.excluded()).as("seed %d", seed).isEmpty();
      assertThat(type(r, rare).trim().decision()).isEqualTo(Decision.TRIM);
    }
  }

  @Test
  void oneOrTwoAreAskedAbout() {
    int asked = 0;
    for (long seed = 1; seed <= 12; seed++) {
      SyntheticPanel s = panel(980 + seed, 40, 12);
      for (String part : List.of("T3", "T7")) {
        if (of(s, part) > 2 || of(s, part) == 0) {
          continue;
        }
        Article a = moved(s.article("a"), part, 1.2, 0.4, 2);
        FirstArticleResult r =
            FirstArticleAnalysis.run(s.job(), List.of(a), AnalysisOptions.withDefaults());
        assertThat(r.excluded()).as("seed %d", seed).noneMatch(e -> e.kind().equals("gross"));
        if (!r.excluded().isEmpty()) {
          // What looks like an error of recording is named as such.
          continue;
        }
        TrimValue t = type(r, part).trim();
        assertThat(t.decision()).isEqualTo(Decision.CANNOT_TELL);
        assertThat(t.reason()).contains("the type's own offset, or a gross error?");
        asked++;
      }
    }
    assertThat(asked).isGreaterThan(0);
  }

  @Test
  void atHalfOfAllItIsStillTheTypeThatIsOff() {
    for (long seed = 1; seed <= 3; seed++) {
      SyntheticPanel s = panel(1_020 + seed, 60, 3);
      Article a = moved(s.article("a"), "T0", 0.8, 0.1, 1000);
      FirstArticleResult r =
          FirstArticleAnalysis.run(s.job(), List.of(a), AnalysisOptions.withDefaults());
      assertThat(r.excluded()).as("seed %d", seed).isEmpty();
    }
  }

  @Test
  void aTrimEnteredInInchesIsNamed() {
    for (long seed = 1; seed <= 3; seed++) {
      SyntheticPanel s = panel(1_040 + seed, 67, 5);
      Article first = moved(s.article("a"), "T1", 0.05, -0.03, 1000);
      FirstArticleResult r =
          FirstArticleAnalysis.run(s.job(), List.of(first), AnalysisOptions.withDefaults());
      Xyr trim = type(r, "T1").trim().value();
      // All trims but this are in force; this one 25.4 times.
      Article second = entered(s, r, moved(s.article("b"), "T1", 0.05, -0.03, 1000));
      second = moved(second, "T1", 24.4 * trim.x(), 24.4 * trim.y(), 1000);
      TrimCheckResult check = TrimCheck.run(s.job(), AnalysedBefore.of(r), List.of(second));
      assertThat(check.terms())
          .filteredOn(t -> t.term().equals("part T1"))
          .extracting(TrimCheckTerm::finding)
          .as("seed %d: %s", seed, check.terms())
          .containsExactly(TrimCheckFinding.WRONG_UNIT);
    }
  }

  private static Article entered(SyntheticPanel s, FirstArticleResult r, Article b) {
    java.util.Map<String, Xyr> fix = new java.util.HashMap<>();
    for (PlacementResult p : r.placements()) {
      fix.put(
          p.id(),
          new Xyr(
              p.afterTrim().x() - p.deviation().x(),
              p.afterTrim().y() - p.deviation().y(),
              p.afterTrim().rotation() - p.deviation().rotation()));
    }
    List<Measured> rows = new ArrayList<>();
    for (Measured m : b.measured()) {
      Xyr f = fix.get(m.id());
      rows.add(
          new Measured(
              m.panel(),
              m.board(),
              m.placement(),
              m.nominal(),
              m.dxMm() + f.x(),
              m.dyMm() + f.y(),
              Angles.wrap(m.dRotationDeg() + f.rotation()),
              m.uMm(),
              m.uRotationDeg(),
              m.levels(),
              m.order(),
              m.note(),
              m.line()));
    }
    return new Article(b.file(), rows, List.of(), false, false, OptionalDouble.empty(), List.of());
  }
}
