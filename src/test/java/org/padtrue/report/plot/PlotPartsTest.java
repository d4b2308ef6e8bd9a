package org.padtrue.report.plot;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.report.SampleResults;
import org.padtrue.report.plot.ink.Normal;
import org.padtrue.report.plot.ink.Range;
import org.padtrue.report.plot.ink.Svg;

class PlotPartsTest {
  /** Bound of the approximation, Abramowitz and Stegun (1964) 26.2.23. */
  private static final double QUANTILE_TOL = 4.5e-4;

  /**
   * Upper percentage points of the normal distribution, Abramowitz and Stegun (1964) table 26.5.
   */
  @Test
  void normalQuantilesMatchTheTable() {
    assertThat(Normal.quantile(0.5)).isEqualTo(0, within(QUANTILE_TOL));
    assertThat(Normal.quantile(0.9)).isEqualTo(1.28155, within(QUANTILE_TOL));
    assertThat(Normal.quantile(0.975)).isEqualTo(1.95996, within(QUANTILE_TOL));
    assertThat(Normal.quantile(0.999)).isEqualTo(3.09023, within(QUANTILE_TOL));
    assertThat(Normal.quantile(0.025)).isEqualTo(-1.95996, within(QUANTILE_TOL));
    assertThatThrownBy(() -> Normal.quantile(1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("p = 1.0; expected 0 < p < 1");
  }

  @Test
  void axisEndsAreRound() {
    assertThat(Range.roundUp(97)).isEqualTo(100);
    assertThat(Range.roundUp(101)).isEqualTo(120);
    assertThat(Range.roundUp(0.31)).isEqualTo(0.4, within(1e-12));
    assertThat(Range.roundUp(2)).isEqualTo(2);
    assertThat(Range.roundUp(Double.NaN)).isEqualTo(1);
    assertThat(Range.roundDown125(97)).isEqualTo(50);
    assertThat(Range.roundDown125(0.21)).isEqualTo(0.2, within(1e-12));
  }

  @Test
  void aPanelVectorIsTurnedIntoThePartFrame() {
    Point p =
        PlotData.of(SampleResults.of(60)).used().stream()
            .filter(q -> q.result().nominal().rotationDeg() == 90)
            .findFirst()
            .orElseThrow();
    // the part's +x points up, its +y to the left
    Xy v = p.inPartFrame(new Xyr(0.01, 0.03, 0));
    assertThat(v.x()).isEqualTo(0.03);
    assertThat(v.y()).isEqualTo(-0.01);
  }

  @Test
  void rotationIsReadModuloSymmetryAndOwnZero() {
    Point any = PlotData.of(SampleResults.of(60)).used().get(0);
    Point turned = new Point(any.result(), any.tolerance(), Xy.ZERO, 180, 1);
    assertThat(turned.rotation(new Xyr(0, 0, -179.5))).isEqualTo(-179.5);
    assertThat(turned.rotationFromOwnZero(new Xyr(0, 0, -179.5))).isEqualTo(0.5);
    assertThat(turned.rotationFromOwnZero(new Xyr(0, 0, 0.5))).isEqualTo(0.5);
    Point symmetric = new Point(any.result(), any.tolerance(), Xy.ZERO, 0, 2);
    assertThat(symmetric.rotation(new Xyr(0, 0, 179))).isEqualTo(-1);
  }

  @Test
  void fewPlacementsHaveTheirOwnArrowManyShareCells() {
    PlotData few = PlotData.of(SampleResults.of(360));
    ArrowField single = ArrowField.of(few.used(), p -> p.result().deviation(), Boxes.of(few));
    assertThat(single.cellMm()).isZero();
    assertThat(single.arrows()).hasSameSizeAs(few.used());

    PlotData many = PlotData.of(SampleResults.of(20000));
    Boxes boxes = Boxes.of(many);
    ArrowField cells = ArrowField.of(many.used(), p -> p.result().deviation(), boxes);
    assertThat(cells.cellMm()).isPositive();
    assertThat(cells.arrows()).hasSizeBetween(300, 1000);
    // the mean of one cell, by hand
    Boxes.Cell cell = boxes.cell(many.used().get(0), cells.cellMm());
    double mean =
        many.used().stream()
            .filter(p -> boxes.cell(p, cells.cellMm()).equals(cell))
            .mapToDouble(p -> 1000 * p.result().deviation().x())
            .average()
            .orElseThrow();
    assertThat(cells.arrows().get(0).dxUm()).isEqualTo(mean, within(1e-9));
  }

  @Test
  void anSvgIsTidiedWithoutHarm() {
    String svg =
        "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"no\"?>\n"
            + "<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"svg11.dtd\">\n"
            + "<svg version=\"1.1\" viewBox=\"0 0 10 10\">\n"
            + "  <path d=\"M1.23456,-0.5 L10.000,7.001 L1.5E-5,12.30 Z\"/>\n"
            + "</svg>\n";
    assertThat(new String(Svg.tidy(svg.getBytes(StandardCharsets.UTF_8)), StandardCharsets.UTF_8))
        .isEqualTo(
            "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"no\"?>\n"
                + "<svg version=\"1.1\" viewBox=\"0 0 10 10\">\n"
                + "<path d=\"M1.23,-0.5 L10,7 L1.5E-5,12.3 Z\"/>\n"
                + "</svg>\n");
  }
}
