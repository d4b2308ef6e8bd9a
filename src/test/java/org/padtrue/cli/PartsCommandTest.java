package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.part.PartsLoader;
import org.padtrue.load.text.TextFile;
import org.padtrue.panel.PartType;

/** A parts file for a list: what is sure is filled in, the rest is marked and judges nothing. */
class PartsCommandTest {
  private static final String LIST =
      "Ref,Package,X (mm),Y (mm),Rot\n"
          + "R1,R_0603_1608Metric,1,1,0\nR2,R_0603_1608Metric,2,1,0\nC1,0402,3,1,0\nC2,0402,4,1,0\n"
          + "U1,LQFP-48_L7.0-W7.0-P0.50-LS9.0-BL,9,9,0\nJ1,Header_2,20,9,0\nG***,LOGO,1,9,0\n";

  @TempDir private Path dir;

  private Path list() throws IOException {
    return Files.writeString(dir.resolve("p.csv"), LIST);
  }

  private static Map<String, PartType> parts(Path file) {
    return PartsLoader.load(TextFile.read(file)).orThrow();
  }

  @Test
  void writesWhatIsSureAndMarksTheRest() throws IOException {
    Path out = dir.resolve("parts.json");
    Run r = Run.of("parts", list(), "--out", out);
    assertThat(r.code()).as(r.err()).isZero();
    assertThat(r.out().replaceAll(" +", " "))
        .contains(
            "Part types 6 placements of 4 part types: matched 2, to confirm 1, inch or metric 2, no"
                + " match 1")
        .contains("Matched R_0603_1608Metric 2 x = R0603 inch code, 1.6 x 0.8 mm")
        .contains("Inch or mm 0402 2 x inch: 1 x 0.5 mm (C0402) or metric: 0.4 x 0.2 mm (C01005)")
        .contains("No match Header_2 1 x the name states no standard land pattern")
        .contains(
            "3 part types are marked \"complete\" and judge nothing until you remove the mark")
        .contains("Say whether chip codes are inch or metric: --chip-codes inch");
    Map<String, PartType> parts = parts(out);
    assertThat(parts)
        .containsOnlyKeys(
            "R_0603_1608Metric", "0402", "LQFP-48_L7.0-W7.0-P0.50-LS9.0-BL", "Header_2");
    assertThat(parts.get("R_0603_1608Metric").lands()).hasSize(2);
    assertThat(parts.get("0402").notJudged()).isTrue();
    assertThat(parts.get("LQFP-48_L7.0-W7.0-P0.50-LS9.0-BL").notJudged()).isTrue();
    assertThat(Files.readString(out))
        .contains(
            "looks like LQFP-48 of the starter library, size in the name, though not by a"
                + " standard's naming; if it is, remove this line");
    // agreed to: the mark is taken off
    String agreed = Files.readString(out).replaceAll(" \"complete\": \"looks like[^\n]*\n", "");
    Files.writeString(out, agreed);
    assertThat(parts(out).get("LQFP-48_L7.0-W7.0-P0.50-LS9.0-BL").terminations()).hasSize(48);
    // nothing that a person filled in is lost
    Run again = Run.of("parts", list(), "--out", out, "--chip-codes", "inch");
    assertThat(again.code()).isEqualTo(2);
    assertThat(again.err())
        .isEqualToIgnoringNewLines(
            out
                + ": the file is there already, and what you filled in would be lost; name another,"
                + " or add --force");
    assertThat(Files.readString(out)).isEqualTo(agreed);
    assertThat(Run.of("parts", list(), "--out", out, "--chip-codes", "inch", "--force").code())
        .isZero();
    assertThat(parts(out).get("0402").bodyHeightMm()).isEqualTo(0.55);
  }

  @Test
  void aWrongUnitOfCodes() throws IOException {
    Run r = Run.of("parts", list(), "--chip-codes", "mm");
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).isEqualToIgnoringNewLines("--chip-codes is 'mm'; use inch or metric");
  }
}
