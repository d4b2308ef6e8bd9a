package org.padtrue.standard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.problem.InputException;

/** IPC-2581 files that hold no placements, and boards with parts on both sides. */
class OtherKindsTest {
  private static final String HEAD =
      "<?xml version=\"1.0\"?>\n<IPC-2581 revision=\"C\" xmlns=\"http://webstds.ipc.org/2581\">"
          + "<Content roleRef=\"O\"><FunctionMode mode=\"%s\"/></Content>\n";

  @TempDir private Path dir;

  private PlacementFile read(String text) throws IOException {
    return PlacementFile.read(
        Files.writeString(dir.resolve("b.xml"), text), PlacementOptions.withDefaults(), null);
  }

  @ParameterizedTest
  @CsvSource({
    "FABRICATION, 'the file is a file for fabrication and has no placements (no Component)'",
    "STACKUP, 'the file is a stackup and has no placements (no Component)'",
    "BOM, 'the file is a bill of materials and has no placements (no Component)'",
    "USERDEF, the file has no placements (no Component)"
  })
  void filesOfOtherKinds(String mode, String found) {
    String text =
        String.format(HEAD, mode)
            + "<Ecad name=\"e\"><CadHeader units=\"MILLIMETER\"/><CadData>"
            + "<Layer name=\"T\" layerFunction=\"CONDUCTOR\" side=\"TOP\"/><Step name=\"A\">"
            + "</Step></CadData></Ecad></IPC-2581>";
    InputException e = catchThrowableOfType(InputException.class, () -> read(text));
    assertThat(e.problems().get(0).sentence().replace(dir + "/", ""))
        .isEqualTo("b.xml: " + found + "; export it with its parts, as a file for assembly");
    InputException bill =
        catchThrowableOfType(
            InputException.class,
            () -> read(String.format(HEAD, "BOM") + "<Bom name=\"b\"></Bom></IPC-2581>"));
    assertThat(bill.problems().get(0).sentence().replace(dir + "/", ""))
        .isEqualTo(
            "b.xml: the file is a bill of materials and has no placements (no Component); export it"
                + " with its parts, as a file for assembly");
  }

  private static String pad(String ref, String pin, double x, double y) {
    return String.format(
        Locale.ROOT,
        "<Set><Pad><Location x=\"%.4f\" y=\"%.4f\"/><PinRef componentRef=\"%s\""
            + " pin=\"%s\"/></Pad></Set>%n",
        x,
        y,
        ref,
        pin);
  }

  /**
   * One mirrored part, mirrored first, its pads 0.05 mm off in x; four of the top with pads on the
   * bottom too, which would outvote it.
   */
  @Test
  void onlyMirroredPartsTellHowTheyAreTurned() throws IOException {
    StringBuilder b = new StringBuilder(String.format(HEAD, "ASSEMBLY"));
    b.append("<Ecad name=\"e\"><CadHeader units=\"MILLIMETER\"/><CadData>")
        .append("<Layer name=\"T\" layerFunction=\"CONDUCTOR\" side=\"TOP\"/>")
        .append("<Layer name=\"B\" layerFunction=\"CONDUCTOR\" side=\"BOTTOM\"/><Step name=\"A\">")
        .append("<Package name=\"P\" type=\"OTHER\">");
    double[][] pins = {{-1, 0.4}, {1, 0.4}, {1, -0.7}};
    for (int i = 0; i < 3; i++) {
      b.append(
          String.format(
              Locale.ROOT,
              "<Pin number=\"%d\" type=\"SURFACE\"><Location x=\"%.1f\" y=\"%.1f\"/></Pin>",
              i + 1,
              pins[i][0],
              pins[i][1]));
    }
    b.append("</Package>");
    for (int i = 1; i <= 4; i++) {
      b.append("<Component refDes=\"U" + i + "\" packageRef=\"P\" layerRef=\"T\" part=\"X\"")
          .append(
              " mountType=\"SMT\"><Xform rotation=\"30\"/><Location x=\"" + 10 * i + "\" y=\"0\"/>")
          .append("</Component>\n");
    }
    b.append(
            "<Component refDes=\"V1\" packageRef=\"P\" layerRef=\"B\" part=\"X\""
                + " mountType=\"SMT\">")
        .append(
            "<Xform rotation=\"30\" mirror=\"true\"/><Location x=\"5\" y=\"20\"/></Component>\n");
    b.append("<LayerFeature layerRef=\"B\">");
    double c = Math.cos(Math.toRadians(30));
    double s = Math.sin(Math.toRadians(30));
    for (int k = 0; k < 3; k++) {
      double px = pins[k][0];
      double py = pins[k][1];
      for (int i = 1; i <= 4; i++) {
        b.append(pad("U" + i, "" + (k + 1), 10 * i + c * px - s * py, s * px + c * py));
      }
      b.append(pad("V1", "" + (k + 1), 5 + c * -px - s * py + 0.05, 20 + s * -px + c * py));
    }
    b.append("</LayerFeature></Step></CadData></Ecad></IPC-2581>");
    PlacementFile f = read(b.toString());
    assertThat(f.problems()).isEmpty();
    assertThat(f.understood().notes())
        .anySatisfy(
            n ->
                assertThat(n)
                    .endsWith(
                        "parts of the bottom are mirrored about the y axis, then turned, as 3 of"
                            + " their 3 pads show."));
    PlacementRow v = f.rows().stream().filter(r -> r.ref().equals("V1")).findFirst().orElseThrow();
    assertThat(v.filePose().rotationDeg()).isEqualTo(30);
  }
}
