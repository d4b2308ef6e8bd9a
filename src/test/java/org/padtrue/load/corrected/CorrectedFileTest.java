package org.padtrue.load.corrected;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.job.Folder;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;

/**
 * Byte comparison of corrected placement files over codings and number styles. Every expected file
 * is written out by hand: what is not a corrected number must come out as it went in.
 */
class CorrectedFileTest {
  /** +12 um in x, -34 um in y, +0.25 degrees, canonical frame. */
  private static final Pose ADD = new Pose(0.012, -0.034, 0.25);

  @TempDir private Path dir;

  private LoadedJob job(String keys, byte[] placements) {
    Folder f = new Folder(dir);
    f.write("p.csv", placements);
    Path job = f.write("job.json", "{\"name\": \"n\", \"placements\": \"p.csv\"" + keys + "}");
    return JobLoader.loadWithFile(job).orThrow();
  }

  private static byte[] bytes(String text, Charset charset, int... mark) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (int b : mark) {
      out.write(b);
    }
    out.writeBytes(text.getBytes(charset));
    return out.toByteArray();
  }

  private static CorrectedFile corrected(LoadedJob job, int... placements) {
    return CorrectedFile.of(
        job,
        java.util.Arrays.stream(placements)
            .mapToObj(i -> new CorrectedFileRow(job.placed().get(i).row(), ADD))
            .toList());
  }

  @Test
  void utf8PlainCommaCrLfGetsTheMachinesDecimals() {
    LoadedJob job =
        job(
            "",
            bytes(
                "Ref,Part,X,Y,Rotation,Note\r\nR1,R0603,12.7,5.08,90,\"a, b\"\r\n"
                    + "R2,R0603,14.10,5.08,0,\u00e9\r\n",
                StandardCharsets.UTF_8));
    // Decimals of the default machine: 0.001 mm and 0.01 degrees; R2 is not asked for.
    assertThat(corrected(job, 0).bytes())
        .isEqualTo(
            bytes(
                "Ref,Part,X,Y,Rotation,Note\r\nR1,R0603,12.712,5.046,90.25,\"a, b\"\r\n"
                    + "R2,R0603,14.10,5.08,0,\u00e9\r\n",
                StandardCharsets.UTF_8));
  }

  @Test
  void utf8MarkSemicolonDecimalCommaBannerAndQuotesStay() {
    String before =
        "# units: mm\n# made 2026-01-05;x\nRef;Package;X;Y;Rotation;Side\n"
            + "\"R1\";\"R0603\";\"+12,700\";\"0005,08\";\"-90\";top\n"
            + "\"R2\";R0402; 7 ;1;180;bottom\nC3;R0402; 7 ;1;-180;top";
    String after =
        "# units: mm\n# made 2026-01-05;x\nRef;Package;X;Y;Rotation;Side\n"
            + "\"R1\";\"R0603\";\"+12,712\";\"0005,046\";\"-89,75\";top\n"
            + "\"R2\";R0402; 7 ;1;180;bottom\nC3;R0402; 7,012 ;0,966;-179,75;top";
    LoadedJob job = job("", bytes(before, StandardCharsets.UTF_8, 0xEF, 0xBB, 0xBF));
    assertThat(corrected(job, 0, 1).bytes())
        .isEqualTo(bytes(after, StandardCharsets.UTF_8, 0xEF, 0xBB, 0xBF));
  }

  @Test
  void utf16TabMilKeepsUnitAndCoding() {
    String before =
        "Designator\tFootprint\tMid X (mil)\tMid Y (mil)\tRotation\nR1\tA\t500\t200\t0\n";
    // 0.012 mm = 0.4724 mil, 0.034 mm = 1.3386 mil; 0.001 mm needs two decimals of a mil.
    String after =
        "Designator\tFootprint\tMid X (mil)\tMid Y (mil)\tRotation\nR1\tA\t500.47\t198.66\t0.25\n";
    LoadedJob job = job("", bytes(before, StandardCharsets.UTF_16LE, 0xFF, 0xFE));
    assertThat(corrected(job, 0).bytes())
        .isEqualTo(bytes(after, StandardCharsets.UTF_16LE, 0xFF, 0xFE));
    LoadedJob big = job("", bytes(before, StandardCharsets.UTF_16BE, 0xFE, 0xFF));
    assertThat(corrected(big, 0).bytes())
        .isEqualTo(bytes(after, StandardCharsets.UTF_16BE, 0xFE, 0xFF));
  }

  @Test
  void latin1UnitSuffixesStayBehindTheirNumbers() {
    String before =
        "Ref,Part,X,Y,Rotation\nR1,Wid\u00e9,12.70mm,200 mil,90\u00b0\nR2,Wid\u00e9,1mm,1mm,0\n";
    String after =
        "Ref,Part,X,Y,Rotation\nR1,Wid\u00e9,12.712mm,198.66 mil,90.25\u00b0\n"
            + "R2,Wid\u00e9,1mm,1mm,0\n";
    LoadedJob job = job("", bytes(before, StandardCharsets.ISO_8859_1));
    assertThat(corrected(job, 0).bytes()).isEqualTo(bytes(after, StandardCharsets.ISO_8859_1));
  }

  @Test
  void alignedBlanksStayAligned() {
    String before =
        "Ref   Val     PosX     PosY      Rot  Side\n"
            + "R1    10k   12.700    5.08     90.0  top\n"
            + "R2    10k  112.700   15.08      0.0  top\n"
            + "R3    10k    2.700    5.08      0.0  top\n";
    String after =
        "Ref   Val     PosX     PosY      Rot  Side\n"
            + "R1    10k   12.712   5.046    90.25  top\n"
            + "R2    10k  112.712  15.046     0.25  top\n"
            + "R3    10k    2.700    5.08      0.0  top\n";
    assertThat(
            text(
                corrected(
                    job(", \"units\": \"mm\"", before.getBytes(StandardCharsets.UTF_8)), 0, 1)))
        .isEqualTo(after);
  }

  @Test
  void wholeNumbersInQuotedDecimalCommaFileOfCommasGetQuotes() {
    String before = "Ref,Part,X,Y,Rotation\nR1,A,\"12,5\",7,0\nR2,A,\"13,25\",\"8,5\",0\n";
    String after =
        "Ref,Part,X,Y,Rotation\nR1,A,\"12,512\",\"6,966\",\"0,25\"\nR2,A,\"13,25\",\"8,5\",0\n";
    assertThat(text(corrected(job("", before.getBytes(StandardCharsets.UTF_8)), 0)))
        .isEqualTo(after);
  }

  @Test
  void fileDecimalsBeyondTheMachinesStay() {
    String before = "Ref,Part,X,Y,Rotation\nR1,A,12.700000,5.08,0.000\n";
    String keys = ", \"machine\": {\"resolution\": 0.01, \"rotationResolution\": 0.1}";
    assertThat(text(corrected(job(keys, before.getBytes(StandardCharsets.UTF_8)), 0)))
        .isEqualTo("Ref,Part,X,Y,Rotation\nR1,A,12.712000,5.05,0.250\n");
  }

  @Test
  void anUnchangedValueKeepsItsCharacters() {
    String text = "Ref,Part,X,Y,Rotation\nR1,A,1.27e1,5.,-0\n";
    LoadedJob job = job("", text.getBytes(StandardCharsets.UTF_8));
    CorrectedFile same =
        CorrectedFile.of(job, List.of(new CorrectedFileRow(0, new Pose(0.0001, 0, -0.001))));
    assertThat(text(same)).isEqualTo(text);
    assertThat(same.changes()).isEmpty();
    CorrectedFile moved =
        CorrectedFile.of(job, List.of(new CorrectedFileRow(0, new Pose(0.012, 0.001, 1))));
    assertThat(text(moved)).isEqualTo("Ref,Part,X,Y,Rotation\nR1,A,12.712,5.001,1.00\n");
  }

  @Test
  void rotationsStayInTheFilesRange() {
    String zeroTo360 = "Ref,Part,X,Y,Rotation\nR1,A,1,1,0\nR2,A,2,1,270\n";
    String around0 = "Ref,Part,X,Y,Rotation\nR1,A,1,1,0\nR2,A,2,1,-90\nR3,A,3,1,180\n";
    List<CorrectedFileRow> turn =
        List.of(
            new CorrectedFileRow(0, new Pose(0, 0, -0.3)),
            new CorrectedFileRow(1, new Pose(0, 0, 90)));
    assertThat(text(CorrectedFile.of(job("", zeroTo360.getBytes(StandardCharsets.UTF_8)), turn)))
        .isEqualTo("Ref,Part,X,Y,Rotation\nR1,A,1,1,359.70\nR2,A,2,1,0.00\n");
    List<CorrectedFileRow> more =
        List.of(
            new CorrectedFileRow(0, new Pose(0, 0, -0.3)),
            new CorrectedFileRow(2, new Pose(0, 0, 0.3)));
    assertThat(text(CorrectedFile.of(job("", around0.getBytes(StandardCharsets.UTF_8)), more)))
        .isEqualTo("Ref,Part,X,Y,Rotation\nR1,A,1,1,-0.30\nR2,A,2,1,-90\nR3,A,3,1,-179.70\n");
  }

  /** The same canonical correction in files of other axes; signs worked by hand. */
  @Test
  void correctionsAreTurnedIntoTheFilesAxes() {
    String text = "Ref,Part,X,Y,Rotation\nR1,A,10.000,20.000,30.00\n";
    byte[] b = text.getBytes(StandardCharsets.UTF_8);
    assertThat(line(job(", \"axes\": {\"y\": \"down\"}", b))).isEqualTo("10.012,20.034,30.25");
    assertThat(line(job(", \"axes\": {\"rotation\": \"clockwise\"}", b)))
        .isEqualTo("10.012,19.966,29.75");
    assertThat(line(job(", \"side\": \"bottom\"", b))).isEqualTo("9.988,19.966,29.75");
    String fromBottom = ", \"side\": \"bottom\", \"axes\": {\"bottomX\": \"asSeenFromBottom\"}";
    assertThat(line(job(fromBottom, b))).isEqualTo("10.012,19.966,30.25");
    String all = ", \"side\": \"bottom\", \"axes\": {\"y\": \"down\", \"rotation\": \"clockwise\"}";
    assertThat(line(job(all, b))).isEqualTo("9.988,20.034,30.25");
  }

  private static String line(LoadedJob job) {
    return text(corrected(job, 0)).split("\n")[1].substring("R1,A,".length());
  }

  @Test
  void inputsAreNeverWrittenOver() throws IOException {
    LoadedJob job = job("", "Ref,Part,X,Y,Rotation\nR1,A,1,1,0\n".getBytes(StandardCharsets.UTF_8));
    CorrectedFile f = corrected(job, 0);
    Path in = dir.resolve("p.csv");
    Path link = Files.createSymbolicLink(dir.resolve("link.csv"), in);
    Path hard = Files.createLink(dir.resolve("hard.csv"), in);
    Files.createDirectory(dir.resolve("sub"));
    Path round = dir.resolve("sub").resolve("..").resolve("p.csv");
    byte[] before = Files.readAllBytes(in);
    for (Path out : List.of(in, link, hard, round)) {
      assertThatThrownBy(() -> f.write(out, List.of(in)))
          .isInstanceOf(InputException.class)
          .hasMessage(
              out
                  + ": this is the input "
                  + in
                  + ", which stays as it is; choose another file with --out");
    }
    assertThat(Files.readAllBytes(in)).isEqualTo(before);
    f.write(dir.resolve("new").resolve("out.csv"), List.of(in));
    assertThat(dir.resolve("new").resolve("out.csv")).hasBinaryContent(f.bytes());
    try (var files = Files.list(dir.resolve("new"))) {
      assertThat(files).hasSize(1);
    }
  }

  private static String text(CorrectedFile f) {
    return new String(f.bytes(), StandardCharsets.UTF_8);
  }
}
