package org.padtrue.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.padtrue.gauge.GaugeAxis;
import org.padtrue.gauge.GaugeBias;
import org.padtrue.gauge.GaugeReading;
import org.padtrue.gauge.GaugeStudy;
import org.padtrue.load.article.GaugeRepeats;

/** The committed readings are what their maker makes, and the study finds what was planted. */
class RepeatsSampleTest {
  /** A planted value lies within this many standard errors of its estimate. */
  private static final double WITHIN = 3;

  private static GaugeStudy study() {
    List<GaugeReading> readings =
        GaugeRepeats.load(RepeatsMaker.FILE, null).orThrow().readings().stream()
            .map(
                r ->
                    new GaugeReading(
                        r.id(),
                        r.operator(),
                        r.trial(),
                        r.turned(),
                        r.dxMm(),
                        r.dyMm(),
                        r.dRotationDeg(),
                        r.line()))
            .toList();
    return GaugeStudy.of("repeats.csv", readings, null, Map.of());
  }

  /** Zero tolerance: text for text. */
  @Test
  void committedFileIsWhatTheMakerMakes() throws IOException {
    assertThat(Files.readString(RepeatsMaker.FILE).replace("\r\n", "\n"))
        .isEqualTo(RepeatsMaker.text());
  }

  /**
   * A person's own bias turns with the panel like the camera's, so both are in the bias; the mean
   * of three persons' biases has SD 4 um / sqrt 3 beside its standard error.
   */
  @Test
  void plantedBiasIsFound() {
    GaugeBias b = Objects.requireNonNull(study().bias());
    double persons = RepeatsMaker.OPERATOR_SD / Math.sqrt(3);
    assertThat(Math.abs(b.xMm() - RepeatsMaker.BIAS_X))
        .isLessThan(WITHIN * Math.hypot(b.standardErrorXMm(), persons));
    assertThat(Math.abs(b.yMm() - RepeatsMaker.BIAS_Y))
        .isLessThan(WITHIN * Math.hypot(b.standardErrorYMm(), persons));
    assertThat(Math.abs(b.xMm())).isGreaterThan(WITHIN * b.standardErrorXMm());
  }

  /** Repeatability: reading and registering anew. SD of an SD with n degrees: sd / sqrt(2 n). */
  @Test
  void plantedSpreadsAreFound() {
    GaugeStudy s = study();
    double repeat = Math.hypot(RepeatsMaker.READING_SD, RepeatsMaker.REGISTRATION_SD);
    near(s.axes().get(0), repeat, RepeatsMaker.PART_SD);
    near(s.axes().get(1), repeat, RepeatsMaker.PART_SD);
    near(s.axes().get(2), RepeatsMaker.ROTATION_SD, 0.25);
  }

  private static void near(GaugeAxis a, double repeatability, double part) {
    // nine sessions at most stand behind the registering part: far fewer degrees than the error's
    double seRepeat = repeatability / Math.sqrt(2 * 9);
    assertThat(a.components().repeatability())
        .as(a.axis())
        .isBetween(repeatability - WITHIN * seRepeat, repeatability + WITHIN * seRepeat);
    double sePart = part / Math.sqrt(2 * 9);
    assertThat(a.components().part())
        .as(a.axis())
        .isBetween(part - WITHIN * sePart, part + WITHIN * sePart);
  }
}
