package org.padtrue.firstarticle.next;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Tolerance;

class ScaledDeviationsTest {
  private static final Tolerance ALLOWED = new Tolerance(0.2, 0.1, 5);

  /**
   * Mean 0.03 and SD 0.01 of ten placements along the part's x, each at another rotation on the
   * panel. Factor for n = 10, 99 % of the population, 95 % confidence: 4.433, as handbook tables of
   * two-sided tolerance factors have it (Eisenhart, Hastay and Wallis 1947, from memory; exact
   * 4.437).
   */
  @Test
  void toleranceIntervalInThePartFrame() {
    ScaledDeviations d = new ScaledDeviations();
    double step = 0.01 * Math.sqrt(0.9);
    for (int i = 0; i < 10; i++) {
      double along = 0.03 + (i % 2 == 0 ? step : -step);
      double theta = 90 * (i % 4);
      double c = Math.cos(Math.toRadians(theta));
      double s = Math.sin(Math.toRadians(theta));
      d.add(new Xyr(c * along, s * along, 0), theta, ALLOWED);
    }
    assertThat(d.count()).isEqualTo(10);
    assertThat(d.toleranceEnd(-1).x()).isCloseTo(0.03 - 0.04433, within(1e-4));
    assertThat(d.toleranceEnd(1).x()).isCloseTo(0.03 + 0.04433, within(1e-4));
    assertThat(d.toleranceEnd(1).y()).isCloseTo(0, within(1e-12));
    // Cpk = (1 - mean) / (3 s) in units of the allowed 0.2 mm
    assertThat(d.cpk().x()).isCloseTo((0.2 - 0.03) / 0.03, within(1e-9));
    assertThat(d.cpkLower95().x()).isLessThan(d.cpk().x());
  }

  @Test
  void onePlacementSaysNothingOfSpread() {
    ScaledDeviations d = new ScaledDeviations();
    d.add(new Xyr(0.01, 0.02, 0), 0, ALLOWED);
    assertThat(d.cpk().x()).isNaN();
    assertThat(d.toleranceEnd(1).x()).isNaN();
    assertThat(d.allowed()).isEqualTo(new Xy(0.2, 0.1));
  }
}
