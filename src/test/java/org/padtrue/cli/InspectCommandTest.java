package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One file shown, two files of one board compared. */
class InspectCommandTest {
  private static final String HEADER = "ref,part,x (mm),y (mm),rotation,side\n";

  @TempDir private Path dir;

  private record Row(String ref, String part, double x, double y, double turn, String side) {}

  private static final List<Row> BOARD =
      List.of(
          new Row("R1", "R0603", 10, 5, 0, "top"),
          new Row("R2", "R0603", 22.5, 7.25, 90, "top"),
          new Row("R3", "R0603", 31, 28, 180, "top"),
          new Row("C1", "C0402", 4, 33.5, 270, "top"),
          new Row("C2", "C0402", 41.2, 12, 0, "top"),
          new Row("U1", "SOIC8", 25, 18, 90, "top"),
          new Row("U2", "SOIC8", 35, 21, 0, "top"),
          new Row("Q1", "SOT23", 15, 24, 45, "top"),
          new Row("C9", "C0402", 12, 9, 0, "bottom"),
          new Row("C10", "C0402", 30, 11, 90, "bottom"),
          new Row("U9", "SOIC8", 21, 26, 180, "bottom"));

  private interface Change {
    Row of(Row r);
  }

  private Path file(String name, Change change) throws IOException {
    StringBuilder text = new StringBuilder(HEADER);
    for (Row r : BOARD) {
      Row c = change.of(r);
      if (c != null) {
        text.append(
            String.format(
                Locale.ROOT, "%s,%s,%.4f,%.4f,%.1f,%s%n", c.ref, c.part, c.x, c.y, c.turn, c.side));
      }
    }
    return Files.writeString(dir.resolve(name), text);
  }

  private String compared(Change change) throws IOException {
    Run r = Run.of("inspect", file("a.csv", x -> x), file("b.csv", change));
    assertThat(r.code()).as(r.err()).isZero();
    return r.out();
  }

  @Test
  void showsWhatWasUnderstood() throws IOException {
    Run r = Run.of("inspect", file("a.csv", x -> x));
    assertThat(r.code()).isZero();
    assertThat(r.out())
        .contains("ref <- ref", "11 (top 8, bottom 3", "x 4.000 to 41.200 mm", "y up");
  }

  /** Names of part types and what they mean; a bill beside the list. */
  @Test
  void showsWhatNamesMean() throws IOException {
    Run r = Run.of("inspect", file("a.csv", x -> x));
    assertThat(r.out())
        .contains(
            "Part types  11 placements of 4 part types: matched 4, to confirm 0, inch or metric 7,"
                + " no match 0")
        .contains("Matched     SOIC8                               3 x  = SOIC-8   the same name")
        .contains("inch: 1 x 0.5 mm (C0402) or metric: 0.4 x 0.2 mm (C01005)");
    Path list = Files.writeString(dir.resolve("l.csv"), "Ref,Mid X,Mid Y,Rot\nR1,1,2,0\n");
    Path bill = Files.writeString(dir.resolve("bom.csv"), "Ref,Package\nR1,R_0603_1608Metric\n");
    assertThat(Run.of("inspect", list, "--bom", bill).out())
        .contains("Part type   from the bill " + bill)
        .contains("= R0603   inch code, 1.6 x 0.8 mm");
  }

  /** A job with its panel, and a picture of it. */
  @Test
  void aJobAndItsPanel() throws IOException {
    file("a.csv", x -> x);
    Path job =
        Files.writeString(
            dir.resolve("job.json"),
            "{\"placements\": \"a.csv\", \"side\": \"bottom\", \"panel\": {\"columns\": 2,"
                + " \"boards\": [{\"column\": 1, \"x\": 0, \"y\": 0}, {\"column\": 2, \"x\": 60,"
                + " \"y\": 1}], \"fiducials\": [{\"name\": \"F1\", \"x\": 50, \"y\": 2, \"axes\":"
                + " \"file\"}]}}");
    Run r = Run.of("inspect", job, "--out", dir.resolve("seen"), "--charts", "svg,png");
    assertThat(r.code()).as(r.err()).isZero();
    assertThat(r.out())
        .contains("Placed      3 on the bottom of each board, 8 rows not placed")
        .contains(
            "Panel       2 x 1 boards; panel frame: x right, y up, seen from the side that is")
        .contains("Board 2/1   origin x    60.0000  y     1.0000 mm")
        .contains("Fiducial    F1     x   -50.0000  y     2.0000 mm in the frame of the panel");
    assertThat(Files.readString(dir.resolve("seen/panel.svg"))).contains("<svg");
    assertThat(Files.size(dir.resolve("seen/panel.png"))).isGreaterThan(5000);
    Run two = Run.of("inspect", job, dir.resolve("a.csv"));
    assertThat(two.code()).isEqualTo(2);
    assertThat(two.err())
        .isEqualToIgnoringNewLines(
            job
                + ": this is a job or a parts file, not a list of placements; name the lists that"
                + " are to be compared");
  }

  /** Files of two boards that share names of parts: no setting is proposed. */
  @Test
  void settingsOnlyWhereMostAgree() throws IOException {
    java.util.Random random = new java.util.Random(3);
    String out =
        compared(
            r ->
                new Row(
                    r.ref,
                    r.part,
                    50 * random.nextDouble(),
                    40 * random.nextDouble(),
                    360 * random.nextDouble(),
                    "top".equals(r.side) ? "top" : "bottom"));
    assertThat(out)
        .doesNotContain("Setting     \"axes\"")
        .contains(
            "top: no shift, turn, mirror and scale brings most of them together (the best one")
        .contains("so no setting is proposed; are both files of the same board and revision?")
        .contains("top: no turn brings most of them together (the best one");
  }

  @Test
  void sameFile() throws IOException {
    assertThat(compared(x -> x))
        .contains("11 refs; only in the first none; only in the second none")
        .contains("top: positions and rotations of all 8 shared placements agree")
        .contains("bottom: positions and rotations of all 3 shared placements agree");
  }

  @Test
  void originAndMissing() throws IOException {
    String out =
        compared(
            r ->
                r.ref.equals("Q1")
                    ? null
                    : new Row(r.ref, r.part, r.x + 100, r.y - 3.5, r.turn, r.side));
    assertThat(out)
        .contains("10 refs; only in the first 1 (Q1); only in the second none")
        .contains("top: second = first, shifted by x 100.000, y -3.500 mm")
        .contains("origins differ")
        .contains("top: the same convention");
  }

  @Test
  void yDownAndClockwise() throws IOException {
    String out = compared(r -> new Row(r.ref, r.part, r.x, 50 - r.y, -r.turn, r.side));
    assertThat(out)
        .contains("top: second = first, y mirrored, shifted by x 0.000, y 50.000 mm")
        .contains("{\"y\": \"down\"}")
        .contains("top: counted the other way round")
        .contains("{\"rotation\": \"clockwise\"}");
  }

  /** The bottom as seen from below: x and rotation change their sign, the top stays. */
  @Test
  void bottomSeenFromBelow() throws IOException {
    String out =
        compared(
            r -> r.side.equals("top") ? r : new Row(r.ref, r.part, -r.x, r.y, -r.turn, r.side));
    assertThat(out)
        .contains("top: positions and rotations of all 8 shared placements agree")
        .contains("bottom: second = first, x mirrored")
        .contains("{\"bottomX\": \"asSeenFromBottom\"}")
        .contains("bottom: counted the other way round")
        .doesNotContain("clockwise\"}");
  }

  @Test
  void unitTurnLibraryAndAMovedPart() throws IOException {
    String out =
        compared(
            r -> {
              double turn = r.turn + 90 + (r.part.equals("SOIC8") ? -90 : 0);
              double moved = r.ref.equals("C2") ? 1.5 : 0;
              return new Row(r.ref, r.part, (-r.y + moved) * 25.4, r.x * 25.4, turn, r.side);
            });
    assertThat(out)
        .contains("top: second = first, turned by 90 degrees, times 25.4")
        .contains("a unit is wrong (inch in the second and mm in the first)")
        .contains("top: 1 of 8 lie elsewhere: C2 by 38.100 mm")
        .contains("top: second = first, 90 degrees added")
        .contains("from another library: SOIC8 by -90 degrees");
  }

  @Test
  void nothingToCompare() throws IOException {
    Path a = file("a.csv", x -> x);
    Path b = Files.writeString(dir.resolve("b.csv"), HEADER + "X1,A,1,2,0,top\nX2,A,3,4,0,top\n");
    Run none = Run.of("inspect", a, b);
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err())
        .isEqualToIgnoringNewLines(
            b + ": it shares no ref with " + a + "; compare two files of the same board");
    Files.writeString(b, HEADER + "R1,A,1,2,0,top\nR1,A,3,4,0,top\n");
    Run twice = Run.of("inspect", a, b);
    assertThat(twice.code()).isEqualTo(2);
    assertThat(twice.err()).contains("line 3").contains("R1");
  }

  /** A list without types can be looked at, and compared, all the same. */
  @Test
  void typesAreNotNeeded() throws IOException {
    Path list =
        Files.writeString(
            dir.resolve("bare.csv"),
            "Designator,Mid X,Mid Y,Rotation,Layer\n"
                + "R1,1,1,0,top\nR2,12,1,0,top\nR3,3,11,810,top\nC1,4,18,0,top\n");
    Run r = Run.of("inspect", list, list);
    assertThat(r.err()).isEmpty();
    assertThat(r.code()).isZero();
    assertThat(r.out())
        .contains(
            "Part type   in no column: name the bill of materials that has them (--bom here,"
                + " \"bom\" in a job)")
        .contains("4 (top 4, bottom 0");
  }

  /** Drawings and marks of one name stop no comparison either. */
  @Test
  void drawingsOfOneNameAreNotCompared() throws IOException {
    String marks = "G***,LOGO,1,1,0,top\nG***,LOGO,2,2,0,top\nREF**,MouseBites,3,1,0,top\n";
    Path a =
        Files.writeString(dir.resolve("a.csv"), Files.readString(file("a.csv", x -> x)) + marks);
    Path b =
        Files.writeString(
            dir.resolve("b.csv"),
            Files.readString(
                    file("b.csv", r -> new Row(r.ref, r.part, r.x + 10, r.y - 4, r.turn, r.side)))
                + marks);
    Run r = Run.of("inspect", a, b);
    assertThat(r.err()).isEmpty();
    assertThat(r.out())
        .contains("11 refs; only in the first none; only in the second none")
        .contains("top: second = first, shifted by x 10.000, y -4.000 mm");
  }
}
