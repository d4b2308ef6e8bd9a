package org.padtrue.land;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.StringReader;
import org.junit.jupiter.api.Test;
import org.padtrue.panel.JointKind;
import org.padtrue.problem.InputException;

class AcceptanceLimitsTest {
  private static final String HEADER =
      "kind,class,side_fraction,basis,side_cap_mm,end_overhang_mm,offset_fraction,source\n";

  @Test
  void everyKindHasARuleWithASourceInEveryClass() {
    AcceptanceLimits l = AcceptanceLimits.published();
    for (JointKind kind : JointKind.values()) {
      for (int cls = 1; cls <= 3; cls++) {
        assertThat(l.rule(kind, cls).source()).containsAnyOf("IPC-A-610", "common practice");
      }
      assertThat(l.rule(kind, 3).endOverhangMm())
          .isLessThanOrEqualTo(l.rule(kind, 1).endOverhangMm());
    }
  }

  /** IPC-A-610: the table in the project's reference list, row by row. */
  @Test
  void publishedNumbers() {
    AcceptanceLimits l = AcceptanceLimits.published();
    assertThat(l.rule(JointKind.CHIP, 2).sideLimitMm(0.8, 0.9)).isEqualTo(0.4);
    assertThat(l.rule(JointKind.CHIP, 2).sideLimitMm(0.9, 0.8)).isEqualTo(0.4);
    assertThat(l.rule(JointKind.CHIP, 3).sideLimitMm(0.8, 0.9)).isEqualTo(0.2);
    assertThat(l.rule(JointKind.GULL_WING, 1).sideLimitMm(0.4, 0.6)).isEqualTo(0.2);
    assertThat(l.rule(JointKind.GULL_WING, 3).sideLimitMm(0.4, 0.6)).isEqualTo(0.1);
    assertThat(l.rule(JointKind.GULL_WING, 3).sideLimitMm(3, 3)).isEqualTo(0.5);
    assertThat(l.rule(JointKind.GULL_WING, 1).endOverhangMm()).isInfinite();
    assertThat(l.rule(JointKind.GULL_WING, 2).endOverhangMm()).isZero();
    assertThat(l.rule(JointKind.NO_LEAD, 1).sideLimitMm(0.24, 0.3)).isCloseTo(0.12, within(1e-12));
    assertThat(l.rule(JointKind.NO_LEAD, 2).sideLimitMm(0.24, 0.3)).isCloseTo(0.06, within(1e-12));
    assertThat(l.rule(JointKind.MELF, 1).sideLimitMm(1.4, 1.6)).isCloseTo(0.35, within(1e-12));
  }

  @Test
  void userRowsReplaceOurs() throws IOException {
    AcceptanceLimits l =
        AcceptanceLimits.published()
            .overriddenBy(
                new StringReader(
                    HEADER + "# ours\nchip,2,0.4,lesser,0.2,0.05,,drawing 12, page 3\n"),
                "limits.csv");
    assertThat(l.rule(JointKind.CHIP, 2).sideLimitMm(0.4, 0.4)).isCloseTo(0.16, within(1e-12));
    assertThat(l.rule(JointKind.CHIP, 2).sideLimitMm(1, 1)).isEqualTo(0.2);
    assertThat(l.rule(JointKind.CHIP, 2).source()).isEqualTo("drawing 12, page 3");
    assertThat(l.rule(JointKind.CHIP, 3).sideFraction()).isEqualTo(0.25);
    // toe may reach 0.05 beyond the land's end: 0.4 + 0.05
    assertThat(LandFit.of(Parts.chip(), l, 2).allowed().xMm()).isCloseTo(0.45, within(1e-12));
  }

  @Test
  void everyBadCellIsNamed() {
    String text = HEADER + "chop,4,half,both,,0,,x\nball,1,,,,,,y\nchip,1,0.5\n";
    assertThatThrownBy(
            () -> AcceptanceLimits.published().overriddenBy(new StringReader(text), "limits.csv"))
        .isInstanceOf(InputException.class)
        .hasMessage(
            String.join(
                System.lineSeparator(),
                "limits.csv, line 2, column kind: 'chop' cannot be used; write one of chip, melf,"
                    + " gullWing, jLead, noLead, ball, throughHole, other",
                "limits.csv, line 2, column class: '4' cannot be used; write 1, 2 or 3",
                "limits.csv, line 2, column side_fraction: 'half' cannot be used; write a number"
                    + " that is 0 or more, with a decimal point",
                "limits.csv, line 2, column basis: 'both' cannot be used; write lesser or"
                    + " termination",
                "limits.csv, line 3, column offset_fraction: '' cannot be used; write a number that"
                    + " is 0 or more, with a decimal point",
                "limits.csv, line 4: found 3 columns; write all 8: " + HEADER.strip()));
  }

  @Test
  void wrongHeaderIsNamed() {
    assertThatThrownBy(
            () -> AcceptanceLimits.published().overriddenBy(new StringReader("a,b\n"), "l.csv"))
        .hasMessage(
            "l.csv, line 1: the header of the limits is not as expected; write " + HEADER.strip());
  }
}
