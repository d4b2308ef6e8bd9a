package org.padtrue.gauge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Tolerance;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Checks the readings of a gauge study and evaluates them axis by axis. */
final class GaugeEvaluation {
  private static final double CONFIDENCE = 0.95;
  private static final double CATEGORIES = 1.41;
  private static final double TOLERANCE_SDS = 6;

  /** 90 % point of chi-square with 1 degree of freedom. */
  private static final double SESSION_LIKELIHOOD = 2.7055;

  private final String file;
  private final List<GaugeReading> readings;
  private final @Nullable Tolerance tolerance;

  /** Part type behind the tolerance, by axis. */
  private final Map<String, String> parts;

  GaugeEvaluation(
      String file,
      List<GaugeReading> readings,
      @Nullable Tolerance tolerance,
      Map<String, String> parts) {
    this.parts = Map.copyOf(parts);
    this.file = file;
    this.readings = readings;
    this.tolerance = tolerance;
  }

  GaugeStudy study() {
    check();
    GaugeSeries x = GaugeSeries.of(readings, GaugeReading::dxMm);
    GaugeSeries y = GaugeSeries.of(readings, GaugeReading::dyMm);
    GaugeSeries rotation = GaugeSeries.of(readings, GaugeReading::dRotationDeg);
    GaugeTurning turnX = GaugeTurning.of(x);
    GaugeTurning turnY = GaugeTurning.of(y);
    double noTolerance = Double.NaN;
    List<GaugeAxis> axes = new ArrayList<>();
    axes.add(axis("x", "mm", turnX, tolerance == null ? noTolerance : tolerance.xMm()));
    axes.add(axis("y", "mm", turnY, tolerance == null ? noTolerance : tolerance.yMm()));
    List<GaugeSeries> straight =
        new ArrayList<>(List.of(turnX.straightened(), turnY.straightened()));
    double rotationU = Double.NaN;
    if (repeats(rotation)) {
      GaugeTurning none =
          new GaugeTurning(rotation, List.of(), new double[0], new double[0], new int[0], false);
      GaugeAxis a =
          axis("rotation", "deg", none, tolerance == null ? noTolerance : tolerance.rotationDeg());
      axes.add(a);
      straight.add(rotation);
      rotationU = a.components().gauge();
    }
    double gx = axes.get(0).components().gauge();
    double gy = axes.get(1).components().gauge();
    GaugeBias bias = bias(turnX, turnY);
    return new GaugeStudy(
        x.parts().size(),
        x.operators().size(),
        readings.size(),
        x.balanced(),
        axes,
        bias,
        Math.sqrt((gx * gx + gy * gy) / 2),
        rotationU,
        GaugeSuspects.of(axes, straight),
        GaugeNotes.of(axes, x, bias));
  }

  private void check() {
    if (readings.isEmpty()) {
      throw new InputException(
          Problem.of(file, "there are no readings", "fill in the form and try again"));
    }
    List<Problem> problems = new ArrayList<>();
    Map<List<Object>, Integer> seen = new HashMap<>();
    for (GaugeReading r : readings) {
      if (!Double.isFinite(r.dxMm()) || !Double.isFinite(r.dyMm())) {
        problems.add(
            Problem.at(
                file,
                r.line(),
                "the reading of '" + r.ref() + "' lacks x or y",
                "give both, or take the row out"));
      }
      Integer before =
          seen.putIfAbsent(List.of(r.ref(), r.operator(), r.trial(), r.turned()), r.line());
      if (before != null) {
        problems.add(
            Problem.at(
                file,
                r.line(),
                "'"
                    + r.ref()
                    + "', operator '"
                    + r.operator()
                    + "', trial '"
                    + r.trial()
                    + "' is in line "
                    + before
                    + " already",
                "give each repeat its own trial"));
      }
    }
    if (problems.isEmpty() && !repeats(GaugeSeries.of(readings, GaugeReading::dxMm))) {
      problems.add(
          Problem.of(
              file,
              "no placement was read more than once",
              "read the same placements again, each time as a new trial"));
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  /** Enough to tell repeating from the placements (and persons) themselves. */
  private static boolean repeats(GaugeSeries s) {
    return s.y().length > 0 && freedom(s, GaugeTurning.of(s).operators().size()) > 0;
  }

  /** Degrees of freedom within cells; without any, those left after placements and operators. */
  private static int freedom(GaugeSeries s, int fixed) {
    int within = s.y().length - s.byCell().size() - fixed;
    int crossed = s.y().length - s.parts().size() - (s.operators().size() - 1) - fixed;
    return within > 0 || s.operators().size() == 1 ? within : crossed;
  }

  private GaugeAxis axis(String name, String unit, GaugeTurning turning, double plusMinus) {
    GaugeSeries s = turning.series();
    int fixed = turning.operators().size();
    GaugeAnova anova = anova(turning);
    GaugeComponents reml = reml(turning);
    GaugeComponents c = anova == null ? reml : anova.components();
    double df = anova == null ? freedom(s, fixed) : anova.error().degreesOfFreedom();
    ChiSquaredDistribution chi = new ChiSquaredDistribution(null, df);
    double tail = (1 - CONFIDENCE) / 2;
    double low = c.repeatability() * Math.sqrt(df / chi.inverseCumulativeProbability(1 - tail));
    double high = c.repeatability() * Math.sqrt(df / chi.inverseCumulativeProbability(tail));
    double ofStudy = c.part() > 0 ? c.gauge() / c.total() : Double.NaN;
    double ofTolerance = plusMinus > 0 ? TOLERANCE_SDS * c.gauge() / (2 * plusMinus) : Double.NaN;
    double share = Double.isNaN(ofTolerance) ? ofStudy : ofTolerance;
    double categories = c.gauge() > 0 ? Math.floor(CATEGORIES * c.part() / c.gauge()) : Double.NaN;
    GaugeVerdict verdict = GaugeVerdict.of(share);
    String sentence =
        GaugeNotes.verdict(
            name,
            unit,
            verdict,
            share,
            Double.isNaN(ofTolerance) ? Double.NaN : plusMinus,
            parts.getOrDefault(name, ""),
            c.gauge());
    return new GaugeAxis(
        name,
        unit,
        c,
        anova,
        reml,
        df,
        low,
        high,
        ofStudy,
        ofTolerance,
        categories,
        verdict,
        sentence);
  }

  static @Nullable GaugeAnova anova(GaugeTurning turning) {
    GaugeSeries s = turning.straightened();
    if (!s.balanced() || s.y().length == s.parts().size()) {
      return null;
    }
    GaugeAnova a =
        GaugeSquares.of(
                s.cube(),
                s.completeSessions(),
                turning.operators().size(),
                turning.operatorWeight())
            .anova();
    return a.error().degreesOfFreedom() > 0 ? a : null;
  }

  /**
   * Sessions are a term of their own when they improve the fit at 5 % (half chi-square 0 and 1).
   */
  static GaugeComponents reml(GaugeTurning turning) {
    GaugeSeries s = turning.series();
    int n = s.y().length;
    double[][] x = new double[n][];
    int[] cell = new int[n];
    Map<Integer, Integer> numbers = new HashMap<>();
    for (int i = 0; i < n; i++) {
      x[i] = turning.fixedEffects(i);
      cell[i] = numbers.computeIfAbsent(s.cell(i), k -> numbers.size());
    }
    boolean part = s.parts().size() > 1;
    boolean operator = s.operators().size() > 1;
    boolean both = part && operator && numbers.size() < n;
    List<int[]> levels = new ArrayList<>();
    if (part) {
      levels.add(s.part());
    }
    if (operator) {
      levels.add(s.operator());
    }
    if (both) {
      levels.add(cell);
    }
    GaugeReml.Fit f = GaugeReml.fit(s.y(), x, levels);
    int[] session = s.sessions();
    int sessions = Arrays.stream(session).max().orElse(0) + 1;
    double registration = 0;
    if (part && sessions > s.operators().size() + turning.operators().size() && sessions < n) {
      List<int[]> more = new ArrayList<>(levels);
      more.add(session);
      GaugeReml.Fit g = GaugeReml.fit(s.y(), x, more);
      if (f.criterion() - g.criterion() > SESSION_LIKELIHOOD) {
        f = g;
        registration = g.sd()[levels.size()];
      }
    }
    return new GaugeComponents(
        Math.hypot(f.residualSd(), registration),
        registration,
        operator ? f.sd()[part ? 1 : 0] : 0,
        both ? f.sd()[2] : 0,
        part ? f.sd()[0] : 0);
  }

  private static @Nullable GaugeBias bias(GaugeTurning x, GaugeTurning y) {
    if (!x.seen()) {
      return null;
    }
    List<GaugeBias.ByOperator> by = new ArrayList<>();
    for (int k = 0; k < x.operators().size(); k++) {
      by.add(
          new GaugeBias.ByOperator(
              x.series().operators().get(x.operators().get(k)),
              x.placements()[k],
              x.bias()[k],
              y.bias()[k],
              x.standardError()[k],
              y.standardError()[k]));
    }
    return new GaugeBias(
        x.overall(),
        y.overall(),
        x.overallStandardError(),
        y.overallStandardError(),
        by,
        x.registrationSeen());
  }
}
