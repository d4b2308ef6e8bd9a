package org.padtrue.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.ReferenceData;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.DeviationTable;

/**
 * The same simulated article fitted by lme4 (REML): values printed by src/test/r/reference.R, which
 * names the versions. Shift and affine are the same model and agree closely; rigid and similarity
 * are exact here and linearised there, so they agree to second order in the angle (0.06 degrees).
 */
class ReferenceFitTest {
  private static final double SD_RELATIVE_TOL = 1e-4;
  private static final double BLUP_TOL = 1e-6;
  private static final double SHIFT_TOL = 1e-6;

  /** phi^2 times 150 mm for phi = 0.06 degrees: twice the sagitta across the panel. */
  private static final double SECOND_ORDER_TOL = 1.65e-4;

  private static DeviationTable article() {
    List<Measured> rows = new ArrayList<>();
    for (String[] r : ReferenceData.rows(ReferenceFitTest.class, "reference-article.csv")) {
      Pose pose =
          new Pose(Double.parseDouble(r[5]), Double.parseDouble(r[6]), Double.parseDouble(r[7]));
      Placement p =
          new Placement(r[0], r[1], pose, Levels.NONE.with(Factor.NOZZLE, r[2]), Double.NaN, 0);
      rows.add(
          new Measured(
              "P1",
              new BoardIndex(Integer.parseInt(r[3]), Integer.parseInt(r[4])),
              p,
              pose,
              Double.parseDouble(r[8]),
              Double.parseDouble(r[9]),
              Double.parseDouble(r[10]),
              Double.NaN,
              Double.NaN,
              Levels.NONE.with(Factor.NOZZLE, r[2]),
              Double.NaN,
              "",
              0));
    }
    return new DeviationTable(rows, Double.NaN, Double.NaN);
  }

  private static Map<String, Double> reference(String family, String random) {
    Map<String, Double> m = new HashMap<>();
    for (String[] r : ReferenceData.rows(ReferenceFitTest.class, "reference-values.csv")) {
      if (r[0].equals(family) && r[1].equals(random)) {
        m.put(r[2], Double.parseDouble(r[3]));
      }
    }
    return m;
  }

  @ParameterizedTest
  @CsvSource({
    "SHIFT, part",
    "SHIFT, part+nozzle",
    "SHIFT, part+board",
    "AFFINE, part",
    "AFFINE, part+nozzle",
    "AFFINE, part+board",
    "RIGID, part",
    "RIGID, part+nozzle",
    "RIGID, part+board",
    "SIMILARITY, part",
    "SIMILARITY, part+nozzle",
    "SIMILARITY, part+board"
  })
  void agreesWithLme4(PanelFamily family, String random) {
    OffsetFit fit =
        OffsetModel.fit(
            article(),
            new OffsetOptions(
                family,
                false,
                false,
                false,
                true,
                Arrays.stream(random.split("\\+")).map(f -> Factor.parse(f).orElseThrow()).toList(),
                Set.of(Factor.HEAD, Factor.BOARD)));
    Map<String, Double> r = reference(family.key(), random);
    assertThat(r).isNotEmpty();
    boolean linear = family == PanelFamily.SHIFT || family == PanelFamily.AFFINE;
    double sdTol = linear ? SD_RELATIVE_TOL : 2e-3;
    double second = linear ? 0 : SECOND_ORDER_TOL;
    relative(r.get("sd residual"), fit.residualSd(), sdTol);
    for (FactorEffect e : fit.effects()) {
      relative(r.get("sd " + e.factor() + " x"), e.sdX(), sdTol);
      relative(r.get("sd " + e.factor() + " y"), e.sdY(), sdTol);
      for (int l = 0; l < e.levels().size(); l++) {
        String name = "blup " + e.factor() + " " + e.levels().get(l);
        assertThat(e.x()[l]).isCloseTo(r.get(name + " x"), within(BLUP_TOL + second));
        assertThat(e.y()[l]).isCloseTo(r.get(name + " y"), within(BLUP_TOL + second));
      }
    }
    PanelEstimate p = fit.panel(0);
    assertThat(p.shiftXMm()).isCloseTo(r.get("fixed ex"), within(SHIFT_TOL + second));
    assertThat(p.shiftYMm()).isCloseTo(r.get("fixed ey"), within(SHIFT_TOL + second));
    if (family == PanelFamily.AFFINE) {
      double a11 = 1 + r.get("fixed exx");
      double a21 = r.get("fixed eyx");
      double a12 = r.get("fixed exy");
      double a22 = 1 + r.get("fixed eyy");
      assertThat(p.rotationDeg()).isCloseTo(Math.toDegrees(Math.atan2(a21, a11)), within(1e-6));
      assertThat(p.scaleXPpm()).isCloseTo(1e6 * (Math.hypot(a11, a21) - 1), within(1e-2));
      assertThat(p.scaleYPpm()).isCloseTo(1e6 * (Math.hypot(a12, a22) - 1), within(1e-2));
    }
  }

  private static void relative(double expected, double actual, double tol) {
    assertThat(actual).isCloseTo(expected, within(tol * Math.abs(expected) + 1e-9));
  }
}
