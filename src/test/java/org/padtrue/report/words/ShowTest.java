package org.padtrue.report.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ShowTest {
  @Test
  void lengthsAreMicrometresWithTheDigitsThatMatter() {
    assertThat(Show.um(0.0424)).isEqualTo("42");
    assertThat(Show.um(0.00314)).isEqualTo("3.1");
    assertThat(Show.um(-0.000314)).isEqualTo("-0.31");
    assertThat(Show.um(Double.NaN)).isEqualTo("-");
    assertThat(Show.um(0.0099951)).isEqualTo("10");
  }

  @Test
  void valuesToEnterAreExact() {
    assertThat(Show.exactUm(0.0425)).isEqualTo("+42.5");
    assertThat(Show.exactUm(-0.03)).isEqualTo("-30");
    assertThat(Show.exactUm(0.1 + 0.2)).isEqualTo("+300");
    assertThat(Show.signedMm(-0.03)).isEqualTo("-0.030");
    assertThat(Show.signedMm(0.0125)).isEqualTo("+0.0125");
    assertThat(Show.signedDeg(0.020)).isEqualTo("+0.02");
  }

  @Test
  void filesGetPlainDecimals() {
    assertThat(Show.plain(1e-7)).isEqualTo("0");
    assertThat(Show.plain(-1e-9)).isEqualTo("0");
    assertThat(Show.plain(0.1 + 0.2)).isEqualTo("0.3");
    assertThat(Show.plain(1234567)).isEqualTo("1234567");
    assertThat(Show.plain(Double.NaN)).isEmpty();
    assertThat(Show.plain(Double.POSITIVE_INFINITY)).isEmpty();
  }

  /** The decimals of the number rounded half to even, as java.math has it. */
  @Test
  void plainNumbersAreRoundedByTheirDecimals() {
    Random random = new Random(3);
    for (int i = 0; i < 200_000; i++) {
      double halfway = (random.nextInt(2_000_000) - 1_000_000 + 0.5) / 1e6;
      for (double v :
          new double[] {
            halfway,
            Math.nextUp(halfway),
            random.nextGaussian() * Math.pow(10, random.nextInt(20) - 8),
            Math.rint(1e4 * random.nextGaussian()) / 1e4
          }) {
        BigDecimal b =
            BigDecimal.valueOf(v).setScale(6, RoundingMode.HALF_EVEN).stripTrailingZeros();
        assertThat(Show.plain(v)).isEqualTo(b.signum() == 0 ? "0" : b.toPlainString());
      }
    }
  }

  @Test
  void anEstimateHasTheDecimalsOfItsError() {
    assertThat(Show.plusMinus(-35.238, 1.14)).isEqualTo("-35.2 \u00b1 1.1");
    assertThat(Show.plusMinus(310.2, 24.3)).isEqualTo("310 \u00b1 24");
    assertThat(Show.plusMinus(-0.01, 1.1)).isEqualTo("0.0 \u00b1 1.1");
    assertThat(Show.plusMinus(5, Double.NaN)).isEqualTo("5.0");
    assertThat(Show.plusMinus(Double.NaN, 1)).isEqualTo("-");
  }

  @Test
  void smallProbabilitiesAreNotZero() {
    assertThat(Show.p(1e-30)).isEqualTo("<0.0001");
    assertThat(Show.p(0.346)).isEqualTo("0.35");
    assertThat(Show.p(0.0095)).isEqualTo("0.0095");
    assertThat(Show.percent(0)).isEqualTo("0 %");
    assertThat(Show.percent(3e-6)).isEqualTo("<0.01 %");
    assertThat(Show.percent(0.123)).isEqualTo("12 %");
    assertThat(Show.expected(0.001)).isEqualTo("<0.01");
    assertThat(Show.expected(26.13)).isEqualTo("26.1");
  }

  @Test
  void sentencesOfTheConsoleGetTheirSignsOnAPage() {
    assertThat(Show.words("shift 46 um +- 3 um, drum 4 umbrella"))
        .isEqualTo("shift 46 \u00b5m \u00b1 3 \u00b5m, drum 4 umbrella");
  }
}
