package org.padtrue.firstarticle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.padtrue.SyntheticPanel;
import org.padtrue.check.AnalysedBefore;
import org.padtrue.check.TrimCheck;
import org.padtrue.check.TrimCheckFinding;
import org.padtrue.check.TrimCheckResult;
import org.padtrue.check.TrimCheckTerm;
import org.padtrue.check.TrimCheckVerdict;
import org.padtrue.firstarticle.decide.EnteredTrims;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.Alias;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Measured;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.article.Article;

/** In which frame a nozzle's offset acts: on the sheet, in words, in the check. */
class FrameRulesTest {
  private static final NozzleOffsets BOTH = new NozzleOffsets(0.06, 0.06);

  private static SyntheticPanel panel(long seed, int turns) {
    SyntheticPanel s = new SyntheticPanel(seed);
    s.perBoard = 80;
    s.types = 5;
    s.typeSd = 0.03;
    s.nozzles = 4;
    s.turns = turns;
    return s;
  }

  private static FirstArticleResult run(SyntheticPanel s, Article a, AnalysisOptions o) {
    return FirstArticleAnalysis.run(s.job(), List.of(a), o);
  }

  private static FirstArticleResult run(SyntheticPanel s, Article a) {
    return run(s, a, AnalysisOptions.withDefaults());
  }

  private static List<GroupResult> nozzles(FirstArticleResult r, String level) {
    return r.groups().stream()
        .filter(g -> g.factor() == Factor.NOZZLE && g.level().equals(level))
        .toList();
  }

  @Test
  void bothFramesAreTwoLinesAndTheirTrimsTakeBothOut() {
    SyntheticPanel s = panel(31, 4).draw();
    FirstArticleResult r = run(s, BOTH.into(s.article("a")));
    List<GroupResult> n2 = nozzles(r, "N2");
    assertThat(n2).extracting(GroupResult::frame).containsExactly("part", "panel");
    // rotation has no frame: it stands once
    assertThat(n2.get(1).offset().rotation()).isNaN();
    assertThat(n2.get(0).offset().rotation()).isNotNaN();
    assertThat(r.trims())
        .filteredOn(t -> t.where().equals("nozzle N2"))
        .extracting(TrimLine::frame)
        .containsExactlyInAnyOrder("part", "panel");
    assertThat(n2.get(0).trim().reason()).contains("turns with the part");
    assertThat(n2.get(1).trim().reason()).contains("stays with the panel");
    assertThat(r.tests()).anyMatch(t -> t.family().equals("nozzle in the panel frame x"));
    assertThat(r.variances()).anyMatch(v -> v.source().equals("nozzle in the panel frame"));
    assertThat(r.notes())
        .anyMatch(
            t ->
                t.startsWith("offsets by nozzle: one that turns with the part (p")
                    && t.contains("and one that stays with the panel (p"));
    double after = 0;
    int n = 0;
    for (PlacementResult p : r.placements()) {
      after += p.afterTrim().x() * p.afterTrim().x() + p.afterTrim().y() * p.afterTrim().y();
      n += 2;
    }
    // scatter is 20 um; a tenth on top for what was estimated
    assertThat(Math.sqrt(after / n)).isLessThan(0.022);
  }

  /** Deviations of the next panel with the trims entered, through the check. */
  @Test
  void theCheckHoldsBothFramesToTheirPromise() {
    SyntheticPanel s = panel(32, 4).draw();
    FirstArticleResult r = run(s, BOTH.into(s.article("a")));
    assertThat(nozzles(r, "N2")).hasSize(2);
    Article second = BOTH.into(s.article("b"));
    TrimCheckResult right = check(s, r, second, TrimKind.values());
    assertThat(right.verdict()).isEqualTo(TrimCheckVerdict.HELD);
    assertThat(right.terms())
        .extracting(TrimCheckTerm::term)
        .contains("nozzle N2", "nozzle N2 in the panel frame");
    EnumSet<TrimKind> without = EnumSet.allOf(TrimKind.class);
    without.remove(TrimKind.NOZZLE);
    TrimCheckResult missing = check(s, r, second, without.toArray(new TrimKind[0]));
    assertThat(missing.terms())
        .filteredOn(t -> t.term().startsWith("nozzle N2"))
        .extracting(TrimCheckTerm::finding)
        .containsOnly(TrimCheckFinding.NOT_ENTERED);
  }

  private static TrimCheckResult check(
      SyntheticPanel s, FirstArticleResult r, Article second, TrimKind... entered) {
    EnteredTrims t =
        EnteredTrims.of(
            r.batchTrim(), r.groups(), s.job().array(), EnumSet.copyOf(List.of(entered)));
    Article done =
        NozzleOffsets.add(second, m -> at(t, m).x(), m -> at(t, m).y(), m -> at(t, m).rotation());
    return TrimCheck.run(s.job(), AnalysedBefore.of(r), List.of(done));
  }

  private static Xyr at(EnteredTrims t, Measured m) {
    return t.at(m.nominal(), m.board(), m.placement().part(), m.levels());
  }

  @Test
  void halfATurnTellsTheFrame() {
    SyntheticPanel s = panel(33, 4);
    s.draw();
    NozzleOffsets planted = new NozzleOffsets(0.06, 0);
    Article a = onlyAt(s.article("a"), 0, 180);
    FirstArticleResult r = run(s, planted.into(a));
    assertThat(nozzles(r, "N2")).extracting(GroupResult::frame).containsExactly("panel");
    assertThat(r.aliases()).noneMatch(x -> x.terms().contains("nozzle in the panel frame"));
  }

  private static Article onlyAt(Article a, double... turns) {
    return new Article(
        a.file(),
        a.measured().stream()
            .filter(
                m -> {
                  double t = org.padtrue.quantity.Angles.wrap(m.nominal().rotationDeg());
                  return java.util.Arrays.stream(turns).anyMatch(x -> Math.abs(x - t) < 1);
                })
            .toList(),
        List.of(),
        false,
        false,
        java.util.OptionalDouble.empty(),
        List.of());
  }

  @Test
  void oneRotationTellsNothingAndTheSheetSaysWhatToMeasure() {
    SyntheticPanel s = panel(34, 1).draw();
    FirstArticleResult r = run(s, new NozzleOffsets(0.06, 0).into(s.article("a")));
    Alias alias =
        r.aliases().stream()
            .filter(x -> x.terms().contains("nozzle in the panel frame"))
            .findFirst()
            .orElseThrow();
    assertThat(alias.sentence())
        .matches(
            "whether an offset of a nozzle turns with the part or stays with the panel cannot be"
                + " told: no nozzle was measured at rotations that differ enough \\(nozzle N\\d: 0"
                + " degrees\\); place or measure parts of nozzle N\\d at another rotation, e.g. 90"
                + " degrees; until then it is taken to be one that turns with the part");
    assertThat(nozzles(r, "N2")).extracting(GroupResult::frame).containsExactly("part");
  }

  /** Every nozzle at a rotation of its own: four rotations in all, and still nothing is told. */
  @Test
  void oneRotationForEachNozzleTellsNothingEither() {
    SyntheticPanel s = panel(35, 4).draw();
    Article a = s.article("a");
    Article each =
        new Article(
            "a",
            a.measured().stream()
                .filter(
                    m -> {
                      double t =
                          90
                              * Integer.parseInt(
                                  String.valueOf(m.levels().get(Factor.NOZZLE)).substring(1));
                      return Math.abs(
                              org.padtrue.quantity.Angles.wrap(m.nominal().rotationDeg() - t))
                          < 1;
                    })
                .toList(),
            List.of(),
            false,
            false,
            java.util.OptionalDouble.empty(),
            List.of());
    FirstArticleResult r = run(s, each);
    assertThat(r.aliases()).anyMatch(x -> x.terms().contains("nozzle in the panel frame"));
  }

  @Test
  void aFrameThatIsAskedForIsTaken() {
    SyntheticPanel s = panel(36, 4).draw();
    Article a = BOTH.into(s.article("a"));
    for (OffsetFrame f : OffsetFrame.values()) {
      FirstArticleResult r =
          run(s, a, AnalysisOptions.withDefaults().withFrames(Map.of(Factor.NOZZLE, f)));
      assertThat(nozzles(r, "N2")).extracting(GroupResult::frame).containsExactly(f.key());
    }
    // the reference fit keeps the usual frames
    FirstArticleResult reference =
        run(
            s,
            a,
            new AnalysisOptions(
                AnalysisOptions.Transform.AFFINE, false, false, true, null, Set.of(), Set.of()));
    assertThat(nozzles(reference, "N2")).extracting(GroupResult::frame).containsExactly("part");
  }

  /**
   * Each type keeps to one nozzle: in the part frame they are one thing, in the panel frame not.
   */
  @Test
  void aNozzleForEachTypeIsStillToldInThePanelFrame() {
    SyntheticPanel s = panel(37, 4);
    s.nozzlePerType = true;
    s.draw();
    FirstArticleResult r = run(s, new NozzleOffsets(0.06, 0).into(s.article("a")));
    assertThat(nozzles(r, "N2")).extracting(GroupResult::frame).containsExactly("panel");
    double others = 0;
    for (GroupResult g : r.groups()) {
      others += g.factor() == Factor.NOZZLE && !g.level().equals("N2") ? g.offset().x() / 4 : 0;
    }
    // 16 placements of 20 um, and the mean of the others
    assertThat(nozzles(r, "N2").get(0).offset().x() - others).isCloseTo(0.06, within(0.02));
  }
}
