package org.padtrue.land;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.padtrue.land.Excess.What;
import org.padtrue.panel.PartType;

/** The termination named behind a negative margin. */
class ExcessTest {
  private static final double SAME_MM = 1e-9;
  private static final AcceptanceLimits LIMITS = AcceptanceLimits.published();

  /**
   * Worked by hand: a chip of class 2 may overhang half of its termination's 0.8 mm width; land
   * half width 0.45, termination half width 0.40, shifted by 0.5: 0.5 + 0.40 - 0.45.
   */
  @Test
  void namesSideAndNumber() {
    Excess e = Excess.of(Parts.chip(), LIMITS, 2, 0, 0.5, 0).orElseThrow();
    assertThat(e.what()).isEqualTo(What.SIDE);
    assertThat(e.value()).isCloseTo(0.45, within(SAME_MM));
    assertThat(e.allowed()).isCloseTo(0.4, within(SAME_MM));
    assertThat(e.sentence())
        .isEqualTo(
            "termination 1 of 2 overhangs the side of its land by 0.450 mm, 0.400 mm allowed");
    assertThat(Excess.of(Parts.chip(), LIMITS, 2, 0, 0.4, 0)).isEmpty();
    assertThat(Excess.of(Parts.chip(), LIMITS, 2, 0, 0, 90).orElseThrow().sentence())
        .isEqualTo("the part is turned by +90.0 degrees on its lands");
  }

  /** Second route: it is there when and only when the margin is negative, and as far beyond. */
  @Test
  void agreesWithTheMargin() {
    Random random = new Random(3);
    int outside = 0;
    for (PartType part : List.of(Parts.chip(), Parts.soic(8), Parts.balls(4))) {
      LandFit fit = LandFit.of(part, LIMITS, 2);
      for (int i = 0; i < 2000; i++) {
        double dx = 0.4 * random.nextGaussian();
        double dy = 0.4 * random.nextGaussian();
        double turn = 8 * random.nextGaussian();
        double margin = fit.margin(dx, dy, turn);
        Optional<Excess> e = Excess.of(part, LIMITS, 2, dx, dy, turn);
        assertThat(e.isPresent()).as(part.name() + " " + margin).isEqualTo(margin < 0);
        if (e.isPresent() && e.get().what() != What.TURN) {
          outside++;
          assertThat(e.get().value() - e.get().allowed()).isCloseTo(-margin, within(SAME_MM));
        }
      }
    }
    assertThat(outside).isGreaterThan(1000);
  }
}
