package org.padtrue.history;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

/** Central European clocks in 2026 (Directive 2000/84/EC: last Sundays of March and October). */
class WrittenTimeTest {
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");

  private static WrittenTime read(String text) {
    return WrittenTime.read(text, BERLIN);
  }

  @Test
  void timesWithTheirOwnZoneNeedNoOther() {
    for (String same :
        new String[] {
          "2026-03-02T06:10Z",
          "2026-03-02T06:10:00Z",
          "2026-03-02 07:10+01:00",
          " 2026-03-02t06:10z "
        }) {
      assertThat(read(same).at()).as(same).isEqualTo(Instant.parse("2026-03-02T06:10:00Z"));
    }
  }

  @Test
  void timesWithoutZoneAreThoseOfThePlace() {
    assertThat(read("2026-03-02T06:10").at()).isEqualTo(Instant.parse("2026-03-02T05:10:00Z"));
    assertThat(read("2026-07-02 06:10:30").at()).isEqualTo(Instant.parse("2026-07-02T04:10:30Z"));
    assertThat(read("2026-07-02").at()).isEqualTo(Instant.parse("2026-07-01T22:00:00Z"));
    assertThat(WrittenTime.read("2026-10-25T02:30", ZoneOffset.UTC).at())
        .isEqualTo(Instant.parse("2026-10-25T02:30:00Z"));
  }

  @Test
  void whatDoesNotExistIsRefused() {
    WrittenTime t = read("2026-03-29T02:30");
    assertThat(t.at()).isNull();
    assertThat(t.trouble())
        .isEqualTo(
            "'2026-03-29T02:30' does not exist in Europe/Berlin: clocks went from 02:00 to 03:00");
    assertThat(t.mend()).contains("2026-03-29T02:30+01:00");
    assertThat(read("2026-03-29T01:59").at()).isEqualTo(Instant.parse("2026-03-29T00:59:00Z"));
    assertThat(read("2026-03-29T03:00").at()).isEqualTo(Instant.parse("2026-03-29T01:00:00Z"));
  }

  @Test
  void whatExistsTwiceIsAskedFor() {
    WrittenTime t = read("2026-10-25T02:30");
    assertThat(t.at()).isNull();
    assertThat(t.trouble()).contains("exists twice in Europe/Berlin");
    assertThat(t.mend())
        .isEqualTo(
            "give the offset from UTC, 2026-10-25T02:30+02:00 for the first or"
                + " 2026-10-25T02:30+01:00 for the second");
    assertThat(read("2026-10-25T02:30+02:00").at())
        .isEqualTo(Instant.parse("2026-10-25T00:30:00Z"));
    assertThat(read("2026-10-25T03:00").at()).isEqualTo(Instant.parse("2026-10-25T02:00:00Z"));
  }

  @Test
  void whatIsNoTimeIsSaid() {
    assertThat(read("yesterday").trouble()).isEqualTo("'yesterday' is not a time");
    assertThat(read("2026-13-02T06:10").at()).isNull();
  }
}
