package org.padtrue.land;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Tolerance;

/** Rotation beyond its tolerance counts as how far the end of a lever moves: by hand. */
class ToleranceFitTest {
  private static final Tolerance TOLERANCE = new Tolerance(0.2, 0.1, 5);
  private static final double BEYOND_RAD = 0.01;
  private static final double MARGIN_TOL_MM = 1e-12;

  private static double leverMm(
      @Nullable Rect body, List<Rect> terminations, @Nullable Envelope envelope) {
    PartType part =
        new PartType(
            "T",
            JointKind.OTHER,
            1,
            false,
            body,
            Double.NaN,
            terminations,
            List.of(),
            envelope,
            TOLERANCE);
    double turn = Math.toRadians(5) + BEYOND_RAD;
    double margin = new ToleranceFit(part, TOLERANCE).marginAt(0, 0, turn);
    assertThat(new ToleranceFit(part, TOLERANCE).marginAt(0, 0, -turn)).isEqualTo(margin);
    return -margin / BEYOND_RAD;
  }

  @Test
  void halfTheLongestSideOfWhatIsKnown() {
    Rect wide = new Rect(0, 0, 1.6, 0.8);
    Rect high = new Rect(0, 0, 0.8, 3.0);
    Envelope envelope = new Envelope(5, 4, 0, 1);
    assertThat(leverMm(wide, List.of(), envelope)).isCloseTo(0.8, within(MARGIN_TOL_MM));
    assertThat(leverMm(high, List.of(), envelope)).isCloseTo(1.5, within(MARGIN_TOL_MM));
    assertThat(leverMm(null, List.of(wide), envelope)).isCloseTo(2.5, within(MARGIN_TOL_MM));
    assertThat(leverMm(null, List.of(), new Envelope(4, 7, 0, 1)))
        .isCloseTo(3.5, within(MARGIN_TOL_MM));
  }

  /** The farthest edge of a termination, left or right, above or below. */
  @Test
  void theFarthestEdgeOfTheTerminations() {
    Rect left = new Rect(-0.9, 0.1, 0.4, 0.6);
    Rect below = new Rect(0.2, -1.2, 0.4, 0.6);
    assertThat(leverMm(null, List.of(left), null)).isCloseTo(1.1, within(MARGIN_TOL_MM));
    assertThat(leverMm(null, List.of(left, below), null)).isCloseTo(1.5, within(MARGIN_TOL_MM));
    assertThat(leverMm(null, List.of(below, left), null)).isCloseTo(1.5, within(MARGIN_TOL_MM));
  }

  /** Of nothing known: the tighter tolerance per tolerance of rotation. */
  @Test
  void aToleranceForATolerance() {
    assertThat(leverMm(null, List.of(), null))
        .isCloseTo(0.1 / Math.toRadians(5), within(MARGIN_TOL_MM));
  }

  /** Within the tolerance of rotation only the shifts count, the nearer limit. */
  @Test
  void shiftsWithinTheRotationTolerance() {
    ToleranceFit fit = new ToleranceFit(Parts.withTolerance(0.2, 0.1, 5), TOLERANCE);
    assertThat(fit.marginAt(-0.15, 0.02, Math.toRadians(5))).isCloseTo(0.05, within(MARGIN_TOL_MM));
    assertThat(fit.marginAt(0.05, -0.08, 0)).isCloseTo(0.02, within(MARGIN_TOL_MM));
    assertThat(fit.marginAt(-0.25, 0, 0)).isCloseTo(-0.05, within(MARGIN_TOL_MM));
  }
}
