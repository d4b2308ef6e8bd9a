package org.padtrue.mixed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.panel.Factor;
import org.padtrue.panel.article.DeviationTable;

/**
 * Validation of the whole fit of an article against R 4.2.2 with lme4 1.1-31, REML: part type; part
 * type and nozzle, crossed; the same with boards in the panel frame; four families each. Script,
 * data and printed values are committed (src/test/r); R is not needed here.
 *
 * <p>Shift, similarity and affine are the same linear model in both. The rigid reference is
 * linearised in the angle phi: it takes a for atan2(a, 1 + s) where the panel is stretched by s, so
 * angles differ by phi s, and shifts by that and phi^2 times the size of the panel.
 */
class CrossedReferenceTest {
  private static final double SD_REL_TOL = 1e-4;

  /** Boards take up what the two angles differ by: 1e-5 mm of an SD of 1e-2 mm. */
  private static final double RIGID_SD_REL_TOL = 1e-3;

  private static final double OFFSET_TOL_MM = 1e-6;

  /** phi = 0.045 degrees over 150 mm: phi^2 r = 0.09 um. */
  private static final double SECOND_ORDER_TOL_MM = 1e-4;

  private static final double ROTATION_TOL_DEG = 1e-6;

  /** phi = 0.045 degrees times a stretch of 3e-4, which the rigid family cannot follow. */
  private static final double RIGID_ROTATION_TOL_DEG = 1.5e-5;

  /** The two searches for variances end 1e-5 apart, of offsets of up to one degree. */
  private static final double ROTATION_ZERO_TOL_DEG = 2e-5;

  /** 1e-6 mm over 100 mm. */
  private static final double PPM_TOL = 0.01;

  private static final double MRAD_TOL = 1e-5;

  /** A standard deviation that both put on the boundary. */
  private static final double ZERO_SD_TOL = 1e-6;

  private static final Map<String, Double> VALUES = CrossedArticle.values();
  private static final DeviationTable TABLE = CrossedArticle.table();

  private final Map<String, double[]> compared = new LinkedHashMap<>();

  private void compare(String name, double actual, double tol) {
    Double expected = VALUES.get(name);
    assertNotNull(expected, name);
    compared.put(name, new double[] {expected, actual});
    assertEquals(expected, actual, tol, name);
  }

  private void compareSd(String name, double actual) {
    Double expected = VALUES.get(name);
    assertNotNull(expected, name);
    double tol = name.contains(",rigid,") ? RIGID_SD_REL_TOL : SD_REL_TOL;
    compare(name, actual, Math.max(ZERO_SD_TOL, tol * expected));
  }

  @ParameterizedTest
  @CsvSource({
    "part,SHIFT",
    "part,RIGID",
    "part,SIMILARITY",
    "part,AFFINE",
    "part+nozzle,SHIFT",
    "part+nozzle,RIGID",
    "part+nozzle,SIMILARITY",
    "part+nozzle,AFFINE",
    "part+nozzle+board,SHIFT",
    "part+nozzle+board,RIGID",
    "part+nozzle+board,SIMILARITY",
    "part+nozzle+board,AFFINE"
  })
  void agreesWithLme4(String model, PanelFamily family) {
    List<Factor> factors =
        Arrays.stream(model.split("\\+")).map(f -> Factor.parse(f).orElseThrow()).toList();
    OffsetFit fit =
        OffsetModel.fit(
            TABLE,
            new OffsetOptions(
                family, false, false, false, true, factors, Set.of(Factor.HEAD, Factor.BOARD)));
    String at = model + "," + family.key() + ",";
    double mm = family == PanelFamily.RIGID ? SECOND_ORDER_TOL_MM : OFFSET_TOL_MM;
    PanelEstimate p = fit.panel(0);
    compare(at + "shiftX", p.shiftXMm(), mm);
    compare(at + "shiftY", p.shiftYMm(), mm);
    compare(
        at + "rotation",
        p.rotationDeg(),
        family == PanelFamily.RIGID ? RIGID_ROTATION_TOL_DEG : ROTATION_TOL_DEG);
    compare(at + "scaleXPpm", p.scaleXPpm(), PPM_TOL);
    compare(at + "scaleYPpm", p.scaleYPpm(), PPM_TOL);
    compare(at + "squarenessMrad", p.squarenessMrad(), MRAD_TOL);
    compareSd(at + "sigma", fit.residualSd());
    for (FactorEffect e : fit.effects()) {
      compareSd(at + "sd " + e.factor() + " x", e.sdX());
      compareSd(at + "sd " + e.factor() + " y", e.sdY());
      for (int l = 0; l < e.levels().size(); l++) {
        String level = at + e.factor() + " " + e.levels().get(l);
        compare(level + " x", e.x()[l], mm);
        compare(level + " y", e.y()[l], mm);
      }
    }
    rotation(at, factors, p.rotationDeg());
    long all = VALUES.keySet().stream().filter(k -> k.startsWith(at)).count();
    assertEquals(all, compared.size(), "every printed value is compared");
  }

  private void rotation(String at, List<Factor> factors, double panelDeg) {
    double[] response = new double[TABLE.size()];
    for (int i = 0; i < response.length; i++) {
      response[i] = TABLE.dr()[i] - panelDeg;
    }
    RotationFit fit = RotationModel.fit(TABLE, response, factors, true, Set.of());
    assertNotNull(fit);
    compare(at + "rotationZero", fit.zero(), ROTATION_ZERO_TOL_DEG);
    compareSd(at + "sigma rotation", fit.residualSd());
    for (int f = 0; f < fit.factors().size(); f++) {
      Factor factor = fit.factors().get(f);
      compareSd(at + "sd " + factor + " rotation", fit.sd(f));
      for (String level : TABLE.factors().get(factor).levels()) {
        compare(
            at + factor + " " + level + " rotation",
            fit.offset(f, fit.level(f, level)),
            ROTATION_ZERO_TOL_DEG);
      }
    }
  }
}
