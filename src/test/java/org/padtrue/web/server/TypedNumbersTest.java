package org.padtrue.web.server;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.quantity.LengthUnit;

/** What people type and read-outs send. */
class TypedNumbersTest {
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0.025|0.025",
        "0,025|0.025",
        "\u22120.01|-0.01",
        "+.5|0.5",
        "X+0.025mm|0.025",
        "X: -0.0125 mm|-0.0125",
        "y=  +  0.5|0.5",
        "-25 \u00b5m|-0.025",
        "25um|0.025",
        "1e-2|0.01",
        "1E-2 mm|0.01",
        "-2.5e+1um|-0.025",
        "+000.0250 MM|0.025",
        "1 mil|0.0254",
        "0.001\"|0.0254",
        "0.001 in|0.0254"
      })
  void lengths(String typed, double mm) {
    assertThat(TypedNumbers.mm(typed, LengthUnit.MM).orElseThrow()).isEqualTo(mm);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "ten",
        "1e",
        "e5",
        "1e999",
        "1.2.3",
        "0.025 kg",
        "0.1\u00b0",
        "--1",
        "X",
        "1 2"
      })
  void noLengths(String typed) {
    assertThat(TypedNumbers.mm(typed, LengthUnit.MM)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0.5|0.5",
        "-0,5 deg|-0.5",
        "R+0.25\u00b0|0.25",
        "0\u00b030'|0.5",
        "-0\u00b0 30' 36\"|-0.51",
        "6'|0.1",
        "1e-1|0.1"
      })
  void angles(String typed, double degrees) {
    assertThat(TypedNumbers.degrees(typed).orElseThrow()).isEqualTo(degrees);
  }

  @Test
  void theAxisOfAReadOut() {
    assertThat(TypedNumbers.axis("X+0.025mm")).isEqualTo("x");
    assertThat(TypedNumbers.axis("Y: 1")).isEqualTo("y");
    assertThat(TypedNumbers.axis("\u03b8 0.1")).isEqualTo("r");
    assertThat(TypedNumbers.axis("0.025")).isEmpty();
    assertThat(TypedNumbers.axis("")).isEmpty();
  }
}
