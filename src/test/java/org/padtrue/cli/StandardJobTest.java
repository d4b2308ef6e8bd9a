package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;

/** Every command on a job whose placements are an IPC-2581 file or a Gerber component layer. */
class StandardJobTest {
  private static final Path SAMPLE = Path.of("samples/standards");
  private static final Path ARTICLE = Path.of("samples/main-job/article-1.csv");

  @TempDir private Path dir;

  private static Run good(Object... args) {
    Run r = Run.of(args);
    assertThat(r.code()).as(r.err()).isZero();
    return r;
  }

  @Test
  void inspectShowsWhatWasUnderstood() {
    assertThat(good("inspect", SAMPLE.resolve("board.xml")).out())
        .contains(
            "IPC-2581 revision C",
            "step 'BOARD' in 'PANEL'",
            "Outline     49.000 x 36.000 mm",
            "Panel       6 boards",
            "Unit        mm, as the file states",
            "Rows        63 (top 60, bottom 3",
            "Fiducial    F1");
    assertThat(good("inspect", SAMPLE.resolve("board-bottom.gbr")).out())
        .contains("Gerber X3 component layer, bottom", "Rows        3 (top 0, bottom 3");
  }

  @Test
  void inspectComparesAcrossFormats() throws IOException {
    String both =
        good("inspect", SAMPLE.resolve("board-top.gbr"), SAMPLE.resolve("board.xml")).out();
    assertThat(both)
        .contains("Shared      60 refs", "only in the second 3 (R901, R902, R903)")
        .contains("top: positions and rotations of all 60 shared placements agree");
    String table =
        good("inspect", "samples/main-job/placements.csv", SAMPLE.resolve("board.xml")).out();
    assertThat(table).contains("positions and rotations of all 60 shared placements agree");
  }

  @Test
  void aJobOfAStandardFileGoesTheWholeWay() throws IOException {
    Path job = SAMPLE.resolve("job.json");
    Run.analyse(job, ARTICLE, dir);
    Path out = dir.resolve("corrected.csv");
    String said = good("apply", job, dir.resolve("analysis.json"), "--out", out).out();
    assertThat(said).contains("Written as a table (CSV: ref, part, x, y, rotation, side, value");
    List<String> lines = Files.readAllLines(out);
    assertThat(lines.get(1)).isEqualTo("ref,part,x,y,rotation,side,value");
    assertThat(lines).hasSize(65);
    PlacementFile before =
        PlacementFile.read(SAMPLE.resolve("board.xml"), PlacementOptions.withDefaults(), null);
    PlacementFile after = PlacementFile.read(out, PlacementOptions.withDefaults(), null);
    assertThat(after.problems()).isEmpty();
    int moved = 0;
    for (int i = 0; i < after.rows().size(); i++) {
      double dx = after.rows().get(i).filePose().xMm() - before.rows().get(i).filePose().xMm();
      double dy = after.rows().get(i).filePose().yMm() - before.rows().get(i).filePose().yMm();
      moved += Math.hypot(dx, dy) > 0.005 ? 1 : 0;
      assertThat(Math.hypot(dx, dy)).isLessThan(0.3);
    }
    assertThat(moved).isPositive();
    assertThat(
            good("check", job, dir.resolve("analysis.json"), "samples/main-job/article-2.csv")
                .out())
        .isNotEmpty();
    Run over =
        Run.of("apply", job, dir.resolve("analysis.json"), "--out", SAMPLE.resolve("board.xml"));
    assertThat(over.code()).isEqualTo(2);
  }

  private String refused(String name, String text) throws IOException {
    Path f = Files.writeString(dir.resolve(name), text);
    Run r = Run.of("inspect", f);
    assertThat(r.code()).as(r.out()).isEqualTo(2);
    return r.err().replace(f.toString(), name).strip();
  }

  private static String sample() throws IOException {
    return Files.readString(Path.of("src/test/resources/standards/example-ipc2581-revC.xml"));
  }

  @Test
  void whatIsWrongInIpcIsSaidWithItsLine() throws IOException {
    assertThat(refused("a.xml", "<?xml version=\"1.0\"?>\n<svg/>"))
        .isEqualTo(
            "a.xml, line 2: this is XML with the root 'svg', not IPC-2581; export it as IPC-2581 or"
                + " as a table");
    assertThat(
            refused(
                "b.xml",
                sample()
                    .replace("layerRef=\"BOTTOM\" mount", "layerRef=\"B\" mount")
                    .replace("mirror=\"true\"", "")
                    .replace("layerRef=\"BOTTOM\"/>", "/>")))
        .isEqualTo(
            "b.xml, line 59: the layerRef 'B' of 'R2' names no layer, and no part is mirrored, so"
                + " its side is not known; correct the layerRef, or export the layers too");
    assertThat(refused("c.xml", sample().replace("x=\"12.5\"", "x=\"12,5\"")))
        .isEqualTo(
            "c.xml, line 57: Location has x='12,5', which is no number; write a decimal number");
    assertThat(
            refused(
                "d.xml",
                sample().replace("<CadHeader units=\"MILLIMETER\"", "<CadHeader units=\"CM\"")))
        .contains(
            "the units are 'CM', which IPC-2581 does not have; use MILLIMETER, MICRON or INCH");
    assertThat(refused("e.xml", sample().replace("stepRef=\"BOARD\"", "stepRef=\"PANEL\"")))
        .contains("holds itself");
    assertThat(refused("f.xml", sample().replace("<Location x=\"12.5\" y=\"20.0\"/>", "")))
        .isEqualTo(
            "f.xml, line 56: the component 'R1' has no Location; give it one, or remove the"
                + " component");
    assertThat(refused("g.xml", sample().replace("mirror=\"false\"", "mirror=\"true\"")))
        .contains("are turned over within the panel");
  }

  @Test
  void sideByMirrorAloneAndPartsWithoutXform() throws IOException {
    String text =
        sample()
            .replace("layerRef=\"BOTTOM\" mount", "layerRef=\"GONE\" mount")
            .replace("layerRef=\"BOTTOM\"/>", "/>")
            .replace("<Xform rotation=\"90\"/>", "");
    Path f = Files.writeString(dir.resolve("wild.xml"), text);
    assertThat(good("inspect", f).out())
        .contains("top 1, bottom 1", "side told by mirror alone for 'R2'")
        .contains("1 part without Xform taken as not turned");
  }

  @Test
  void whatIsWrongInGerberIsSaidWithItsLine() throws IOException {
    String g = Files.readString(Path.of("src/test/resources/standards/example-gerber-x3-top.gbr"));
    assertThat(refused("a.gbr", g.replace("Component,L1,Top", "Copper,L1,Top")))
        .isEqualTo(
            "a.gbr, line 4: this Gerber file is a layer of the function 'Copper', not a component"
                + " layer; export the component layer (Gerber X3)");
    assertThat(refused("b.gbr", g.replace("M02*", "")))
        .contains("ends without M02, so a part of it may be missing");
    assertThat(refused("c.gbr", g.replace("CRot,90", "CRot,ninety")))
        .isEqualTo("c.gbr, line 28: .CRot is 'ninety', which is no number; export it again");
    assertThat(refused("d.gbr", g.replace("FSLAX46Y46", "FSLIX46Y46"))).contains("are incremental");
    assertThat(refused("e.gbr", g.replace("%TO.CRot,90*%\n", "")))
        .isEqualTo(
            "e.gbr, line 27: the part 'R1' has no rotation (.CRot), and no part of its footprint"
                + " shows it; export it with .CRot");
  }
}
