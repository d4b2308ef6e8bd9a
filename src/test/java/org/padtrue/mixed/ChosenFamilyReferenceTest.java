package org.padtrue.mixed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.padtrue.SyntheticPanel;
import org.padtrue.panel.Factor;
import org.padtrue.panel.article.DeviationTable;

/** A family that was chosen freely gives the numbers of the same family asked for by name. */
class ChosenFamilyReferenceTest {
  private static final double SHIFT_TOL_MM = 1e-9;
  private static final double ROTATION_TOL_DEG = 1e-8;
  private static final double PPM_TOL = 1e-3;

  private static DeviationTable table(SyntheticPanel p) {
    return new DeviationTable(p.draw().article("a").measured(), Double.NaN, Double.NaN);
  }

  private static void assertSameAsNamed(DeviationTable t, PanelFamily expected) {
    OffsetFit free = OffsetModel.fit(t, options(null));
    assertEquals(expected, free.terms().family());
    assertEquals(false, free.terms().array());
    assertEquals(false, free.terms().common());
    OffsetFit named = OffsetModel.fit(t, options(expected));
    PanelEstimate a = free.panel(0);
    PanelEstimate b = named.panel(0);
    assertEquals(b.shiftXMm(), a.shiftXMm(), SHIFT_TOL_MM);
    assertEquals(b.shiftYMm(), a.shiftYMm(), SHIFT_TOL_MM);
    assertEquals(b.rotationDeg(), a.rotationDeg(), ROTATION_TOL_DEG);
    assertEquals(b.scaleXPpm(), a.scaleXPpm(), PPM_TOL);
    assertEquals(b.scaleYPpm(), a.scaleYPpm(), PPM_TOL);
    assertEquals(named.residualSd(), free.residualSd(), SHIFT_TOL_MM);
  }

  @Test
  void shift() {
    SyntheticPanel p = new SyntheticPanel(4);
    p.shiftX = 0.08;
    assertSameAsNamed(table(p), PanelFamily.SHIFT);
  }

  @Test
  void rigid() {
    SyntheticPanel p = new SyntheticPanel(7);
    p.rotationDeg = 0.08;
    assertSameAsNamed(table(p), PanelFamily.RIGID);
  }

  @Test
  void similarity() {
    SyntheticPanel p = new SyntheticPanel(2);
    p.rotationDeg = 0.08;
    p.scaleX = 900e-6;
    p.scaleY = 900e-6;
    DeviationTable t = table(p);
    assertSameAsNamed(t, PanelFamily.SIMILARITY);
    PanelEstimate e = OffsetModel.fit(t, options(null)).panel(0);
    // One scale by definition of the family.
    assertEquals(e.scaleXPpm(), e.scaleYPpm(), 0);
  }

  /**
   * A richer family than the true one is an error of the first kind of a 5 % test: of 200 panels
   * with a planted similarity 10 are expected to be called affine, 19 is three standard errors
   * more.
   */
  @Test
  void richerThanTrueOnlyByTheTestsOwnLevel() {
    int affine = 0;
    for (int seed = 1; seed <= 200; seed++) {
      SyntheticPanel p = new SyntheticPanel(seed);
      p.rotationDeg = 0.08;
      p.scaleX = 900e-6;
      p.scaleY = 900e-6;
      affine += chosen(p) == PanelFamily.AFFINE ? 1 : 0;
    }
    assertTrue(affine <= 19, "affine " + affine + " times in 200");
  }

  /**
   * Where the axes differ by far more than the scatter hides, the affine family is always found.
   */
  @Test
  void clearDifferenceOfAxesIsFound() {
    for (int seed = 1; seed <= 20; seed++) {
      SyntheticPanel p = new SyntheticPanel(seed);
      p.rotationDeg = 0.08;
      p.scaleX = 3000e-6;
      p.scaleY = -1000e-6;
      assertEquals(PanelFamily.AFFINE, chosen(p), "seed " + seed);
    }
  }

  private static PanelFamily chosen(SyntheticPanel p) {
    return OffsetModel.fit(table(p), options(null)).terms().family();
  }

  /** Named or free family, the factors that files carry, scatter by part type. */
  private static OffsetOptions options(@Nullable PanelFamily family) {
    return new OffsetOptions(
        family,
        false,
        false,
        true,
        true,
        Factor.carried(),
        OffsetOptions.usualPanelFrame(),
        Set.of(),
        false,
        Set.of());
  }
}
