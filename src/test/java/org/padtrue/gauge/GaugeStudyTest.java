package org.padtrue.gauge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.padtrue.panel.Tolerance;
import org.padtrue.problem.InputException;

class GaugeStudyTest {
  /** Printed with five decimals. */
  private static final double PRINTED_TOL = 5e-6;

  /** REML and closed form at a flat optimum. */
  private static final double REML_RELATIVE_TOL = 1e-6;

  /** Plus or minus 4: a tolerance 8 wide. */
  private static final Tolerance EIGHT_WIDE = new Tolerance(4, 4, 4);

  /**
   * AIAG, Measurement Systems Analysis, crossed study 10 x 3 x 3; mean squares and results as
   * published for a tolerance 8 wide: MS part 9.81799, operator 1.58363, interaction 0.01994,
   * repeatability 0.04598; interaction F 0.434, p 0.974, pooled 0.03997 on 78.
   */
  @Test
  void publishedCrossedStudy() {
    GaugeStudy s = study("f", GaugeData.crossed(), EIGHT_WIDE);
    assertThat(s.placements()).isEqualTo(10);
    assertThat(s.operators()).isEqualTo(3);
    assertThat(s.balanced()).isTrue();
    GaugeAxis x = s.axes().get(0);
    GaugeAnova a = Objects.requireNonNull(x.anova());
    assertThat(a.part().meanSquare()).isCloseTo(9.81799, within(PRINTED_TOL));
    assertThat(a.operator().meanSquare()).isCloseTo(1.58363, within(PRINTED_TOL));
    assertThat(a.interaction().meanSquare()).isCloseTo(0.01994, within(PRINTED_TOL));
    assertThat(a.interaction().f()).isCloseTo(0.434, within(5e-4));
    assertThat(a.interaction().p()).isCloseTo(0.974, within(5e-4));
    assertThat(a.pooled()).isTrue();
    assertThat(a.error().degreesOfFreedom()).isEqualTo(78);
    GaugeComponents c = x.components();
    assertThat(sq(c.repeatability())).isCloseTo(0.03997, within(PRINTED_TOL));
    assertThat(sq(c.reproducibility())).isCloseTo(0.05146, within(PRINTED_TOL));
    assertThat(c.interaction()).isZero();
    assertThat(sq(c.gauge())).isCloseTo(0.09143, within(PRINTED_TOL));
    assertThat(sq(c.part())).isCloseTo(1.08645, within(PRINTED_TOL));
    // Published 1.17788 is the sum of rounded components.
    assertThat(sq(c.total())).isCloseTo(1.17788, within(2 * PRINTED_TOL));
    assertThat(100 * x.shareOfStudy()).isCloseTo(27.86, within(5e-3));
    assertThat(100 * c.part() / c.total()).isCloseTo(96.04, within(5e-3));
    assertThat(100 * x.shareOfTolerance()).isCloseTo(22.68, within(5e-3));
    assertThat(x.distinctCategories()).isEqualTo(4);
    assertThat(x.verdict()).isEqualTo(GaugeVerdict.CONDITIONAL);
    assertThat(x.sentence())
        .isEqualTo(
            "x: measurement system conditionally acceptable (decide only on what is clearly larger"
                + " than its spread); six of its standard deviations of 0.3024 mm take 23 % of the"
                + " tightest tolerance, 4.00 mm to either side. Below 10 % acceptable, above 30 %"
                + " not acceptable (AIAG, Measurement Systems Analysis).");
    assertThat(s.uncertaintyMm()).isCloseTo(0.30237, within(PRINTED_TOL));
    assertThat(s.rotationUncertaintyDeg()).isNaN();
  }

  /** From the published mean squares alone. */
  @Test
  void componentsFromPublishedMeanSquares() {
    GaugeAnova a =
        new GaugeSquares(10, 3, 3, 9.81799, 1.58363, 0.01994, 0, Double.NaN, 60, 0.04598, 1)
            .anova();
    assertThat(a.error().meanSquare()).isCloseTo(0.03997, within(PRINTED_TOL));
    assertThat(sq(a.components().part())).isCloseTo(1.08645, within(PRINTED_TOL));
    assertThat(sq(a.components().reproducibility())).isCloseTo(0.05146, within(PRINTED_TOL));
  }

  /** Interaction at the boundary: REML of a balanced study is then the pooled analysis. */
  @Test
  void remlIsThePooledAnalysisWhenTheInteractionIsNothing() {
    GaugeAxis x = study("f", GaugeData.crossed(), null).axes().get(0);
    assertThat(x.reml().interaction()).isZero();
    close(x.reml().repeatability(), x.components().repeatability());
    close(x.reml().reproducibility(), x.components().reproducibility());
    close(x.reml().part(), x.components().part());
  }

  /**
   * An interaction is added to the published data: 0.5 sin(7 part + 3 operator). Components by lme4
   * 1.1.31 (R 4.2.2), lmer(y ~ 1 + (1|part) + (1|operator) + (1|part:operator)); mean squares by
   * aov. Balanced and all positive, so both analyses agree.
   */
  @Test
  void aRealInteractionIsKept() {
    GaugeAxis x = study("f", withInteraction(GaugeData.crossed()), null).axes().get(0);
    GaugeAnova a = Objects.requireNonNull(x.anova());
    assertThat(a.pooled()).isFalse();
    assertThat(a.part().meanSquare()).isCloseTo(10.093976084, within(1e-8));
    assertThat(a.interaction().meanSquare()).isCloseTo(0.435645715, within(1e-8));
    assertThat(a.interaction().f()).isCloseTo(9.47422, within(PRINTED_TOL));
    for (GaugeComponents c : List.of(x.components(), x.reml())) {
      close(c.interaction(), 0.3603995637);
      close(c.part(), 1.0359285122);
      close(c.reproducibility(), 0.2005463463);
      close(c.repeatability(), 0.2144346536);
    }
  }

  /**
   * Not balanced: readings with (part + 2 operator + 3 trial) divisible by 5 are left out. lme4 as
   * above: without interaction (at the boundary) and with the one added above.
   */
  @Test
  void unbalancedStudiesAreEstimatedByReml() {
    List<GaugeReading> u = GaugeData.crossed().stream().filter(GaugeStudyTest::kept).toList();
    assertThat(u).hasSize(72);
    GaugeAxis x = study("f", u, null).axes().get(0);
    assertThat(x.anova()).isNull();
    assertThat(x.components()).isEqualTo(x.reml());
    assertThat(x.components().interaction()).isZero();
    close(x.components().part(), 1.019970454);
    close(x.components().reproducibility(), 0.2262327010);
    close(x.components().repeatability(), 0.2024787047);
    GaugeComponents c = study("f", withInteraction(u), null).axes().get(0).components();
    close(c.interaction(), 0.3383407646);
    close(c.part(), 1.0151486141);
    close(c.reproducibility(), 0.2043930701);
    close(c.repeatability(), 0.2209106852);
  }

  /**
   * One operator is the one-way analysis. NIST StRD, analysis of variance, certified: SiRstv
   * between SS 5.11462616e-2 (4), F 1.18046237440255, residual SD 0.104076068334656.
   */
  @Test
  void oneOperatorIsTheCertifiedOneWayAnalysis() {
    GaugeAxis x = oneWay("nist-strd-anova-sirstv.csv");
    GaugeAnova a = Objects.requireNonNull(x.anova());
    assertThat(a.part().meanSquare()).isCloseTo(5.11462616e-2 / 4, within(1e-12));
    assertThat(a.part().f()).isCloseTo(1.18046237440255, within(1e-9));
    assertThat(x.components().repeatability()).isCloseTo(0.104076068334656, within(1e-12));
    // (MSB - MSW)/5: balanced and positive, so REML agrees.
    double between = (5.11462616e-2 / 4 - sq(0.104076068334656)) / 5;
    assertThat(sq(x.components().part())).isCloseTo(between, within(1e-12));
    assertThat(sq(x.reml().part())).isCloseTo(between, within(1e-9));
    assertThat(x.components().reproducibility()).isZero();
    assertThat(x.components().interaction()).isZero();
  }

  /**
   * NIST StRD AtmWtAg, certified: F 15.9467335677930, residual SD 1.51048314446410e-5; values 108.
   */
  @Test
  void oneOperatorWithSevenConstantLeadingDigits() {
    GaugeAxis x = oneWay("nist-strd-anova-atmwtag.csv");
    GaugeAnova a = Objects.requireNonNull(x.anova());
    assertThat(a.part().f() / 15.9467335677930).isCloseTo(1, within(1e-7));
    assertThat(x.components().repeatability() / 1.51048314446410e-5).isCloseTo(1, within(1e-8));
  }

  /**
   * NIST/SEMATECH e-Handbook 2.6.1, resistivity gauge study. The level-2 deviation is the pooled
   * standard deviation of daily means about their run and wafer, which is the repeatability of a
   * study whose readings are daily means; level 3 the same with run means about their wafer. Probe
   * 2362: s2 0.03617, s3 0.01965. All probes: s2 0.043679 in run 1, 0.049542 in run 2.
   */
  @Test
  void resistivityGaugeStudyLevelsTwoAndThree() {
    assertThat(levelTwo(r -> r.get("probe").equals("2362"), "run", "wafer"))
        .isCloseTo(0.03617, within(5e-6));
    assertThat(levelTwo(r -> r.get("run").equals("1"), "wafer", "probe"))
        .isCloseTo(0.043679, within(5e-7));
    assertThat(levelTwo(r -> r.get("run").equals("2"), "wafer", "probe"))
        .isCloseTo(0.049542, within(5e-7));
    Map<String, double[]> runs = new LinkedHashMap<>();
    for (Map<String, String> r : GaugeData.rows("handbook-resistivity-gauge-study-261.csv")) {
      if (r.get("probe").equals("2362")) {
        double[] t = runs.computeIfAbsent(r.get("wafer") + " " + r.get("run"), k -> new double[2]);
        t[0] += Double.parseDouble(r.get("average"));
        t[1]++;
      }
    }
    List<GaugeReading> means = new ArrayList<>();
    runs.forEach(
        (k, t) ->
            means.add(GaugeData.reading(k.split(" ")[0], "one", k.split(" ")[1], t[0] / t[1])));
    assertThat(study("f", means, null).axes().get(0).components().repeatability())
        .isCloseTo(0.01965, within(5e-6));
  }

  /**
   * The same study, run 1, wafers as parts and probes as operators, six days as repeats. Mean
   * squares by aov (R 4.2.2): 253.731596270, 0.0144426507333, 0.00214342556667, 0.00190784036;
   * interaction p 0.3408817802.
   */
  @Test
  void resistivityGaugeStudyCrossed() {
    List<GaugeReading> readings = new ArrayList<>();
    for (Map<String, String> r : GaugeData.rows("handbook-resistivity-gauge-study-261.csv")) {
      if (r.get("run").equals("1")) {
        readings.add(
            GaugeData.reading(
                r.get("wafer"),
                r.get("probe"),
                "" + readings.size(),
                Double.parseDouble(r.get("average"))));
      }
    }
    GaugeAxis x = study("f", readings, null).axes().get(0);
    GaugeAnova a = Objects.requireNonNull(x.anova());
    assertThat(a.part().meanSquare() / 253.731596270).isCloseTo(1, within(1e-10));
    assertThat(a.operator().meanSquare() / 0.0144426507333).isCloseTo(1, within(1e-8));
    assertThat(a.interaction().p()).isCloseTo(0.3408817802, within(1e-8));
    assertThat(a.pooled()).isTrue();
    assertThat(x.verdict()).isEqualTo(GaugeVerdict.FIT);
  }

  /**
   * Turning, derived: a placement off by delta is read delta + c; turned it stands off by -delta
   * along the machine's axes, is read -delta + c, and written in the panel's own frame delta - c.
   * Without noise the bias is exact and the placements' own deviations are untouched.
   */
  @Test
  void turningShowsTheBiasExactlyWithoutNoise() {
    Random random = new Random(3);
    List<GaugeReading> readings = new ArrayList<>();
    for (int p = 0; p < 8; p++) {
      double dx = 0.05 * random.nextGaussian();
      double dy = 0.05 * random.nextGaussian();
      for (int t = 1; t <= 4; t++) {
        boolean turned = t % 2 == 0;
        double sign = turned ? -1 : 1;
        double machineX = sign * dx + 0.017;
        double machineY = sign * dy - 0.008;
        readings.add(
            new GaugeReading(
                "R" + p, "A", "" + t, turned, sign * machineX, sign * machineY, 0.1 * p, 0));
      }
    }
    // a little noise in rotation only, so that there is something to estimate
    readings.set(0, with(readings.get(0), 0.01));
    GaugeStudy s = study("f", readings, null);
    GaugeBias b = Objects.requireNonNull(s.bias());
    assertThat(b.xMm()).isCloseTo(0.017, within(1e-12));
    assertThat(b.yMm()).isCloseTo(-0.008, within(1e-12));
    assertThat(b.biasMm()).isCloseTo(0.017, within(1e-12));
    assertThat(s.axes().get(0).components().repeatability()).isCloseTo(0, within(1e-9));
  }

  /**
   * 2000 simulated studies, three operators with biases of their own, the panel registered anew for
   * each session, half of the sessions turned: the bias is unbiased, its printed standard error is
   * right, and so are repeatability and reproducibility. Bounds are 4 standard errors of a mean of
   * 2000, from the degrees of freedom of what is averaged.
   */
  @Test
  void turningIsUnbiasedAndItsStandardErrorHonest() {
    Random random = new Random(8);
    int runs = 2000;
    double sum = 0;
    double sumSquares = 0;
    double printed = 0;
    double repeat = 0;
    double between = 0;
    for (int run = 0; run < runs; run++) {
      List<GaugeReading> readings =
          simulated(random, new double[] {0.004, 0.016, 0.028}, 4, 0.006, 0.004);
      GaugeTurning t = GaugeTurning.of(GaugeSeries.of(readings, GaugeReading::dxMm));
      assertThat(t.registrationSeen()).isTrue();
      sum += t.overall();
      sumSquares += sq(t.overall() - 0.016);
      printed += sq(t.overallStandardError());
      GaugeComponents c = Objects.requireNonNull(GaugeEvaluation.anova(t)).components();
      repeat += sq(c.repeatability());
      between += sq(c.reproducibility());
    }
    // Session mean: registration 0.006, reading 0.004/sqrt(10); two sessions each way, three
    // persons.
    double session = sq(0.006) + sq(0.004) / 10;
    double variance = session * (1.0 / 2 + 1.0 / 2) / 4 / 3;
    assertThat(sum / runs).isCloseTo(0.016, within(4 * Math.sqrt(variance / runs)));
    assertThat(sumSquares / runs / variance).isCloseTo(1, within(4 * Math.sqrt(2.0 / runs)));
    // Six degrees of freedom: three persons, two ways, one left of two sessions.
    double six = 4 * Math.sqrt(2.0 / 6 / runs);
    assertThat(printed / runs / variance).isCloseTo(1, within(six));
    assertThat(repeat / runs / (sq(0.006) + sq(0.004))).isCloseTo(1, within(six));
    // Persons' biases have variance 0.012^2; their means rest on two unturned sessions each.
    double spread = sq(0.012) + session / 2;
    assertThat(between / runs).isCloseTo(sq(0.012), within(4 * spread * Math.sqrt(2.0 / 2 / runs)));
  }

  /**
   * Registering anew, shared by all readings of a session, is split off; without turning and with
   * all components positive REML and the analysis of variance agree.
   */
  @Test
  void registrationIsSplitOffWhenItStandsOut() {
    List<GaugeReading> readings = new ArrayList<>();
    for (GaugeReading r : GaugeData.crossed()) {
      int session = 10 * number(r) + Integer.parseInt(r.trial());
      double shared = 0.3 * Math.sin(5 * session) + 0.4 * number(r);
      readings.add(GaugeData.reading(r.ref(), r.operator(), r.trial(), r.dxMm() + shared));
    }
    GaugeStudy s = study("f", withInteraction(readings), null);
    GaugeAxis x = s.axes().get(0);
    GaugeAnova a = Objects.requireNonNull(x.anova());
    assertThat(a.sessionSplit()).isTrue();
    assertThat(a.session().degreesOfFreedom()).isEqualTo(6);
    assertThat(x.components().registration()).isPositive();
    // lme4 1.1.31 with (1|operator:trial) added to the terms above.
    close(x.reml().registration(), 0.2844810304);
    close(x.reml().reproducibility(), 0.1350473183);
    close(x.reml().registration(), x.components().registration());
    close(x.reml().repeatability(), x.components().repeatability());
    close(x.reml().reproducibility(), x.components().reproducibility());
    close(x.reml().interaction(), x.components().interaction());
    close(x.reml().part(), x.components().part());
    assertThat(s.notes()).anyMatch(n -> n.startsWith("Of the repeatability, registering"));
  }

  /** A reading taken as it is, turned or not, would count twice the bias as poor repeatability. */
  @Test
  void biasDoesNotPassForRepeatability() {
    Random random = new Random(5);
    List<GaugeReading> readings = simulated(random, new double[] {0.1, 0.1, 0.1}, 4, 0, 0.004);
    GaugeStudy s = study("f", readings, null);
    assertThat(s.axes().get(0).components().repeatability()).isBetween(0.003, 0.005);
    GaugeAnova a = Objects.requireNonNull(s.axes().get(0).anova());
    // 10 placements x 3 operators x 3, with the 18 of the interaction pooled in or not.
    assertThat(a.error().degreesOfFreedom()).isIn(90.0, 108.0);
    assertThat(s.axes().get(0).reml().repeatability()).isBetween(0.003, 0.005);
  }

  @Test
  void withoutTurningTheNotesSayThatBiasIsNotKnown() {
    GaugeStudy s = study("f", GaugeData.crossed(), null);
    assertThat(s.bias()).isNull();
    assertThat(s.notes())
        .contains(
            "No placement was read with the panel turned by 180 degrees: a bias of camera or person"
                + " is not in these numbers, and it does not average out; read the same placements"
                + " once more with the panel turned.");
  }

  @Test
  void verdictsFollowTheThresholds() {
    double gauge = study("f", GaugeData.crossed(), null).uncertaintyMm();
    assertThat(verdict(6 * gauge / 2 / 0.09)).isEqualTo(GaugeVerdict.FIT);
    assertThat(verdict(6 * gauge / 2 / 0.11)).isEqualTo(GaugeVerdict.CONDITIONAL);
    assertThat(verdict(6 * gauge / 2 / 0.29)).isEqualTo(GaugeVerdict.CONDITIONAL);
    assertThat(verdict(6 * gauge / 2 / 0.31)).isEqualTo(GaugeVerdict.UNFIT);
    assertThat(GaugeVerdict.of(0.30)).isEqualTo(GaugeVerdict.CONDITIONAL);
    assertThat(GaugeVerdict.UNFIT.key()).isEqualTo("unfit");
    assertThat(GaugeVerdict.NOT_JUDGED.key()).isEqualTo("notJudged");
  }

  private static GaugeVerdict verdict(double plusMinus) {
    Tolerance t = new Tolerance(plusMinus, plusMinus, plusMinus);
    return study("f", GaugeData.crossed(), t).verdict();
  }

  /** One placement read again and again, no tolerance: nothing to compare the gauge with. */
  @Test
  void onePlacementWithoutToleranceIsNotJudged() {
    List<GaugeReading> readings = new ArrayList<>();
    double[] v = {0.011, 0.014, 0.009, 0.012, 0.010};
    for (int i = 0; i < v.length; i++) {
      readings.add(GaugeData.reading("U1", "A", "" + i, v[i]));
    }
    GaugeStudy s = study("f", readings, null);
    assertThat(s.verdict()).isEqualTo(GaugeVerdict.NOT_JUDGED);
    GaugeAxis x = s.axes().get(0);
    // standard deviation of the five, by hand: sum of squares 14.8e-6 over 4
    assertThat(x.components().repeatability()).isCloseTo(Math.sqrt(3.7e-6), within(1e-12));
    close(x.reml().repeatability(), Math.sqrt(3.7e-6));
    // chi-square with 4: 0.4844 and 11.143 (any table)
    assertThat(sq(x.repeatabilityLow())).isCloseTo(14.8e-6 / 11.143, within(1e-9));
    assertThat(sq(x.repeatabilityHigh())).isCloseTo(14.8e-6 / 0.4844, within(1e-8));
  }

  /** Rotation read for some placements only: its own, smaller study. */
  @Test
  void rotationIsStudiedWhereItWasRead() {
    Random random = new Random(4);
    List<GaugeReading> readings = new ArrayList<>();
    for (int p = 0; p < 6; p++) {
      double own = 0.2 * random.nextGaussian();
      for (int t = 1; t <= 3; t++) {
        double rotation = p < 4 ? own + 0.02 * random.nextGaussian() : Double.NaN;
        readings.add(
            new GaugeReading(
                "R" + p,
                "A",
                "" + t,
                false,
                0.05 * p + 0.01 * random.nextGaussian(),
                0.01 * random.nextGaussian(),
                rotation,
                0));
      }
    }
    GaugeStudy s = study("f", readings, null);
    assertThat(s.axes()).extracting(GaugeAxis::axis).containsExactly("x", "y", "rotation");
    assertThat(s.axes().get(2).unit()).isEqualTo("deg");
    assertThat(s.axes().get(2).repeatabilityDegreesOfFreedom()).isEqualTo(8);
    assertThat(s.rotationUncertaintyDeg())
        .isEqualTo(s.axes().get(2).components().gauge())
        .isBetween(0.008, 0.04);
  }

  /** Each operator reads once: the interaction is counted in repeatability, and that is said. */
  @Test
  void withoutRepeatsTheInteractionIsInRepeatability() {
    List<GaugeReading> once =
        GaugeData.crossed().stream().filter(r -> r.trial().equals("1")).toList();
    GaugeStudy s = study("f", once, null);
    GaugeAnova a = Objects.requireNonNull(s.axes().get(0).anova());
    assertThat(a.pooled()).isTrue();
    assertThat(a.error().degreesOfFreedom()).isEqualTo(18);
    close(s.axes().get(0).reml().repeatability(), s.axes().get(0).components().repeatability());
    assertThat(s.notes())
        .anyMatch(n -> n.contains("without repeats the interaction of person and placement"));
  }

  @Test
  void aSlipOfThePenIsNamed() {
    List<GaugeReading> readings = new ArrayList<>(GaugeData.crossed());
    GaugeReading r = readings.get(40);
    readings.set(
        40,
        new GaugeReading(r.ref(), r.operator(), r.trial(), false, 10, r.dyMm(), Double.NaN, 42));
    GaugeStudy s = study("f", readings, null);
    assertThat(s.suspects())
        .contains(
            "x of '"
                + r.ref()
                + "', operator '"
                + r.operator()
                + "', trial '"
                + r.trial()
                + "' (line 42) is 10.000 mm, far off the other readings of that placement and"
                + " person; check for a transcription error.");
  }

  @Test
  void readingsThatMakeNoStudyAreInputProblems() {
    assertThatThrownBy(() -> study("r.csv", List.of(), null))
        .isInstanceOf(InputException.class)
        .hasMessage("r.csv: there are no readings; fill in the form and try again");
    List<GaugeReading> once =
        List.of(GaugeData.reading("R1", "A", "1", 0.01), GaugeData.reading("R2", "A", "1", 0.02));
    assertThatThrownBy(() -> study("r.csv", once, null))
        .hasMessage(
            "r.csv: no placement was read more than once; read the same placements again, each time"
                + " as a new trial");
    List<GaugeReading> twice =
        List.of(
            new GaugeReading("R1", "A", "1", false, 0.01, 0, Double.NaN, 2),
            new GaugeReading("R1", "A", "1", false, 0.02, 0, Double.NaN, 3),
            new GaugeReading("R1", "A", "2", false, Double.NaN, 0, Double.NaN, 4));
    assertThatThrownBy(() -> study("r.csv", twice, null))
        .hasMessageContaining(
            "r.csv, line 3: 'R1', operator 'A', trial '1' is in line 2 already; give each repeat"
                + " its own trial")
        .hasMessageContaining(
            "r.csv, line 4: the reading of 'R1' lacks x or y; give both, or take the row out");
  }

  /** Ten placements; operators with biases of their own; odd trials unturned, even ones turned. */
  private static List<GaugeReading> simulated(
      Random random, double[] bias, int trials, double registrationSd, double readingSd) {
    double[] own = random.doubles(10, -0.1, 0.1).toArray();
    List<GaugeReading> readings = new ArrayList<>();
    for (int o = 0; o < bias.length; o++) {
      for (int t = 1; t <= trials; t++) {
        boolean turned = t % 2 == 0;
        double sign = turned ? -1 : 1;
        double registration = registrationSd * random.nextGaussian();
        for (int p = 0; p < own.length; p++) {
          double machine =
              sign * own[p] + bias[o] + registration + readingSd * random.nextGaussian();
          double y = sign * (sign * own[p] + readingSd * random.nextGaussian());
          readings.add(
              new GaugeReading("R" + p, "P" + o, "" + t, turned, sign * machine, y, Double.NaN, 0));
        }
      }
    }
    return readings;
  }

  private static GaugeAxis oneWay(String resource) {
    List<GaugeReading> readings = new ArrayList<>();
    int trial = 0;
    for (Map<String, String> r : GaugeData.rows(resource)) {
      readings.add(
          GaugeData.reading(
              r.get("treatment"), "one", "" + trial++, Double.parseDouble(r.get("y"))));
    }
    return study("f", readings, null).axes().get(0);
  }

  private static double levelTwo(
      java.util.function.Predicate<Map<String, String>> which, String... part) {
    List<GaugeReading> readings = new ArrayList<>();
    for (Map<String, String> r : GaugeData.rows("handbook-resistivity-gauge-study-261.csv")) {
      if (which.test(r)) {
        readings.add(
            GaugeData.reading(
                r.get(part[0]) + "/" + r.get(part[1]),
                "one",
                "" + readings.size(),
                Double.parseDouble(r.get("average"))));
      }
    }
    return study("f", readings, null).axes().get(0).components().repeatability();
  }

  private static boolean kept(GaugeReading r) {
    return (Integer.parseInt(r.ref()) + 2 * number(r) + 3 * Integer.parseInt(r.trial())) % 5 != 0;
  }

  private static int number(GaugeReading r) {
    return r.operator().charAt(0) - 'A' + 1;
  }

  private static List<GaugeReading> withInteraction(List<GaugeReading> readings) {
    return readings.stream()
        .map(
            r ->
                GaugeData.reading(
                    r.ref(),
                    r.operator(),
                    r.trial(),
                    r.dxMm() + 0.5 * Math.sin(7 * Integer.parseInt(r.ref()) + 3 * number(r))))
        .toList();
  }

  private static GaugeReading with(GaugeReading r, double rotation) {
    return new GaugeReading(
        r.ref(), r.operator(), r.trial(), r.turned(), r.dxMm(), r.dyMm(), rotation, r.line());
  }

  private static void close(double actual, double expected) {
    assertThat(actual / expected).isCloseTo(1, within(REML_RELATIVE_TOL));
  }

  private static double sq(double v) {
    return v * v;
  }

  private static GaugeStudy study(
      String file, List<GaugeReading> readings, @Nullable Tolerance tolerance) {
    return GaugeStudy.of(file, readings, tolerance, Map.of());
  }
}
