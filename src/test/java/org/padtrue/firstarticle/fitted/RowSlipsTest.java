package org.padtrue.firstarticle.fitted;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;

/** Gross errors that only the whole job tells, in poses and in deviations. */
class RowSlipsTest {
  private final SyntheticPanel panel = new SyntheticPanel(11);

  private Article article(boolean poses, java.util.function.UnaryOperator<Measured> spoil) {
    List<Measured> rows = new ArrayList<>();
    for (Measured m : panel.article("a.csv").measured()) {
      rows.add(spoil.apply(m));
    }
    return new Article("a.csv", rows, List.of(), poses, false, OptionalDouble.empty(), List.of());
  }

  private static Measured moved(Measured m, double dx, double dy) {
    return new Measured(
        m.panel(),
        m.board(),
        m.placement(),
        m.nominal(),
        m.dxMm() + dx,
        m.dyMm() + dy,
        m.dRotationDeg(),
        m.uMm(),
        m.uRotationDeg(),
        m.levels(),
        m.order(),
        m.note(),
        m.line());
  }

  private FirstArticleResult run(Article a) {
    return FirstArticleAnalysis.run(panel.job(), List.of(a), AnalysisOptions.withDefaults());
  }

  private Measured row(String id) {
    return panel.article("a").measured().stream()
        .filter(m -> m.id().equals(id))
        .findFirst()
        .orElseThrow();
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void aPartMeasuredOnItsNeighbour(boolean poses) {
    panel.columns = 2;
    panel.draw();
    Measured r7 = row("1/1/R7");
    Measured r9 = row("1/1/R9");
    double dx = r9.nominal().xMm() - r7.nominal().xMm();
    double dy = r9.nominal().yMm() - r7.nominal().yMm();
    FirstArticleResult r = run(article(poses, m -> m.id().equals("1/1/R7") ? moved(m, dx, dy) : m));
    assertThat(r.excluded()).hasSize(1);
    Excluded e = r.excluded().get(0);
    assertThat(e.ref()).isEqualTo("R7");
    assertThat(e.kind()).isEqualTo("neighbour");
    assertThat(e.fault()).isFalse();
    assertThat(e.sentence())
        .matches(
            "1/1/R7 is recorded [0-9.]+ mm off, where its neighbour 1/1/R9 stands: it looks"
                + " measured on that one");
  }

  /** Each is off by the difference of the nominal positions, whatever the notation. */
  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void twoRefsRecordedForEachOther(boolean poses) {
    panel.draw();
    Measured a = row("1/1/R7");
    Measured b = row("1/1/R9");
    double dx = b.nominal().xMm() - a.nominal().xMm();
    double dy = b.nominal().yMm() - a.nominal().yMm();
    FirstArticleResult r =
        run(
            article(
                poses,
                m ->
                    m.id().equals("1/1/R7")
                        ? moved(m, dx, dy)
                        : m.id().equals("1/1/R9") ? moved(m, -dx, -dy) : m));
    assertThat(r.excluded()).extracting(Excluded::kind).containsOnly("swappedRefs");
    assertThat(r.excluded()).extracting(Excluded::ref).containsExactly("R7", "R9");
  }

  @Test
  void aRowWrongInTheListShowsOnce() {
    panel.columns = 3;
    panel.rows = 2;
    panel.draw();
    FirstArticleResult r =
        run(article(false, m -> m.placement().ref().equals("R5") ? moved(m, 2, -1.5) : m));
    assertThat(r.excluded()).hasSize(6).extracting(Excluded::kind).containsOnly("wrongInList");
    assertThat(r.excluded()).extracting(Excluded::fault).containsOnly(false);
    List<Excluded> shown = Excluded.shown(r.excluded());
    assertThat(shown).hasSize(1);
    assertThat(shown.get(0).sentence())
        .matches(
            "R5 is off by x \\+[12]\\.[0-9]{3}, y -1\\.[0-9]{3} mm on all 6 boards measured"
                + " alike: its row in the placement list \\(line 6\\) looks wrong");
    assertThat(r.acceptance().outside()).isZero();
  }
}
