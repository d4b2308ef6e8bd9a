package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a person reads of files that board-design tools wrote (SOURCE.md beside them). */
class ForeignInspectTest {
  private static final Path FILES = Path.of("src/test/resources/org/padtrue/load/foreign");

  @TempDir private Path dir;

  private static String good(Object... args) {
    Run r = Run.of(args);
    assertThat(r.code()).as(r.err()).isZero();
    return r.out();
  }

  private static String pair(String first, String second) {
    return good("inspect", FILES.resolve(first), FILES.resolve(second));
  }

  @Test
  void oneFile() {
    assertThat(good("inspect", FILES.resolve("mixed-board-pnp_top.gbr")))
        .contains("Outline     60.000 x 30.000 mm", "Rows        17 (top 17")
        .contains("Fiducial    FID1", "Fiducial    FID3")
        .doesNotContain("\"", "Not used");
    assertThat(good("inspect", FILES.resolve("mixed-board-all-pos.csv")))
        .contains("no part 5)")
        .contains("x of the bottom lies mirrored beside the top");
  }

  @Test
  void aLayerAndATableOfTheSameBoard() {
    assertThat(pair("mixed-board-pnp_top.gbr", "mixed-board-all-pos.csv"))
        .contains("Shared      17 refs; only in the first none")
        .contains("top: second = first, shifted by x -100.000, y 120.000 mm")
        .contains("top: the same convention")
        .doesNotContain("Elsewhere", "Turned");
    assertThat(pair("mixed-board-pnp_bottom.gbr", "mixed-board-all-pos.csv"))
        .contains("bottom: second = first, x mirrored, shifted by x 100.000, y 120.000 mm")
        .contains("bottom: second = first, 180 degrees added")
        .doesNotContain("Elsewhere", "Turned");
  }

  @Test
  void tablesOfTwoTools() {
    assertThat(pair("second-tool-mil.xy", "mixed-board-all-pos.csv"))
        .contains("Shared      22 refs", "top: the same origin, unit and axes")
        .contains("3 of 13 lie elsewhere: J1 by 3.810 mm")
        .contains("bottom: second = first, x mirrored")
        .contains("{\"bottomX\": \"asSeenFromBottom\", \"rotation\": \"clockwise\"}");
  }

  @Test
  void ordinaryLayersAreRefusedForWhatTheyAre() throws IOException {
    String plain =
        "%FSLAX24Y24*%\n%MOIN*%\n%ADD10C,0.01*%\nD010*\nG75G03I150J0X3550Y1701D01*\nM02*\n";
    assertThat(refused(plain))
        .isEqualTo(
            "layer.gbr: this Gerber file does not say that it is a component layer (no"
                + " TF.FileFunction); export the component layer (Gerber X3)");
    assertThat(refused("%FSTAX24Y24*%\n%MOIN*%\n%ADD10C,0.01*%\nM02*\n"))
        .contains("does not say that it is a component layer");
    assertThat(refused("%FSTAX24Y24*%\n%TF.FileFunction,Copper,L1,Top*%\nM02*\n"))
        .isEqualTo(
            "layer.gbr, line 2: this Gerber file is a layer of the function 'Copper', not a"
                + " component layer; export the component layer (Gerber X3)");
    assertThat(refused("%FSTAX24Y24*%\n%TF.FileFunction,Component,L1,Top*%\nM02*\n"))
        .contains("line 1: the coordinates are without trailing zeros");
  }

  private String refused(String text) throws IOException {
    Path f = Files.writeString(dir.resolve("layer.gbr"), text);
    Run r = Run.of("inspect", f);
    assertThat(r.code()).isEqualTo(2);
    return r.err().replace(f.toString(), "layer.gbr").strip();
  }

  @Test
  void aStepIsChosen() throws IOException {
    String board =
        "<Component refDes=\"R%d\" packageRef=\"P\" layerRef=\"T\"><Location x=\"1\" y=\"2\"/>";
    StringBuilder s = new StringBuilder("<?xml version=\"1.0\"?><IPC-2581 revision=\"C\"><Ecad>");
    s.append("<CadHeader units=\"MILLIMETER\"/><CadData><Layer name=\"T\" side=\"TOP\"/>");
    for (int i = 1; i <= 2; i++) {
      s.append("<Step name=\"B" + i + "\">" + board.formatted(i) + "</Component></Step>");
    }
    Path f = Files.writeString(dir.resolve("two.xml"), s + "</CadData></Ecad></IPC-2581>");
    assertThat(Run.of("inspect", f).code()).isEqualTo(2);
    assertThat(good("inspect", "--step", "B2", f)).contains("step 'B2'", "R2 ");
  }
}
