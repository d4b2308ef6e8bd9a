package org.padtrue.standard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.panel.Pose;

/**
 * Validation: order of mirror and rotation. Poses, pins and pads are those of the components U14,
 * U16 and U18 of the IPC-2581 consortium's test case 3, revision C (assembly file), as printed
 * there to a thousandth of an inch; the file around them is ours.
 */
class PublishedCaseTest {
  private static final double INCH = 25.4;
  private static final double THOUSANDTH_OF_INCH = 0.0254;

  /** Pins of the package PLCC28: number, x, y. */
  private static final double[][] PINS = {
    {1, 0, 0.210},
    {2, -0.050, 0.210},
    {28, 0.050, 0.210},
    {26, 0.150, 0.210},
    {7, -0.210, 0.050},
    {19, 0.210, -0.150},
    {13, -0.100, -0.210}
  };

  /** Pads of the bottom: part, pin, x, y. */
  private static final double[][] PADS = {
    {14, 28, 1.213, 1.534}, {14, 26, 1.142, 1.605}, {14, 7, 1.284, 1.237}, {14, 19, 0.845, 1.392},
    {14, 13, 1.022, 1.131}, {16, 1, 0.400, 1.560}, {16, 2, 0.450, 1.560}, {16, 7, 0.610, 1.400},
    {16, 19, 0.190, 1.200}, {16, 13, 0.500, 1.140}
  };

  @TempDir private Path dir;

  private PlacementFile read(boolean withPads) throws IOException {
    StringBuilder s = new StringBuilder();
    s.append("<?xml version=\"1.0\"?><IPC-2581 revision=\"C\"><Content roleRef=\"Owner\"/>");
    s.append("<Ecad name=\"e\"><CadHeader units=\"INCH\"/><CadData>");
    for (String side : new String[] {"TOP", "BOTTOM"}) {
      s.append("<Layer name=\"" + side + "\" layerFunction=\"CONDUCTOR\" side=\"" + side + "\"/>");
    }
    s.append(
        "<Step name=\"test-3_r2.-17_4\"><Package name=\"PLCC28\" type=\"OTHER\" pinOne=\"1\">");
    for (double[] p : PINS) {
      s.append("<Pin number=\"" + (int) p[0] + "\" type=\"SURFACE\">");
      s.append("<Location x=\"" + p[1] + "\" y=\"" + p[2] + "\"/></Pin>");
    }
    s.append("</Package>");
    s.append(part("U18", "TOP", "<Xform rotation=\"45.000\"/>", "1.050", "2.700"));
    s.append(part("U16", "BOTTOM", "<Xform mirror=\"true\"/>", "0.400", "1.350"));
    s.append(
        part("U14", "BOTTOM", "<Xform rotation=\"45.000\" mirror=\"true\"/>", "1.100", "1.350"));
    s.append("<LayerFeature layerRef=\"BOTTOM\">");
    for (double[] p : withPads ? PADS : new double[0][]) {
      s.append("<Set><Pad><Location x=\"" + p[2] + "\" y=\"" + p[3] + "\"/>");
      s.append("<PinRef pin=\"" + (int) p[1] + "\" componentRef=\"U" + (int) p[0] + "\"/>");
      s.append("</Pad></Set>");
    }
    s.append("</LayerFeature></Step></CadData></Ecad></IPC-2581>");
    Path f = Files.writeString(dir.resolve("case.xml"), s.toString());
    PlacementFile read = PlacementFile.read(f, PlacementOptions.withDefaults(), null);
    assertThat(read.problems()).isEmpty();
    return read;
  }

  private static String part(String ref, String layer, String xform, String x, String y) {
    return "<Component refDes=\""
        + ref
        + "\" packageRef=\"PLCC28\" layerRef=\""
        + layer
        + "\" part=\"X\" mountType=\"SMT\">"
        + xform
        + "<Location x=\""
        + x
        + "\" y=\""
        + y
        + "\"/></Component>";
  }

  private static Pose pose(PlacementFile f, String ref) {
    return f.rows().stream().filter(r -> r.ref().equals(ref)).findFirst().orElseThrow().filePose();
  }

  /** A bottom part's pins, mirrored and laid by its pose, fall onto its pads. */
  private static void padsAreHit(PlacementFile f) {
    for (double[] pad : PADS) {
      Pose pose = pose(f, "U" + (int) pad[0]);
      for (double[] pin : PINS) {
        if (pin[0] == pad[1]) {
          double[] at = {-INCH * pin[1], INCH * pin[2]};
          double[] found = DesignFile.placed(at, pose);
          assertThat(found[0]).isCloseTo(INCH * pad[2], within(THOUSANDTH_OF_INCH));
          assertThat(found[1]).isCloseTo(INCH * pad[3], within(THOUSANDTH_OF_INCH));
        }
      }
    }
  }

  @Test
  void padsSettleTheOrder() throws IOException {
    PlacementFile f = read(true);
    padsAreHit(f);
    assertThat(pose(f, "U18").rotationDeg()).isEqualTo(45);
    assertThat(f.understood().notes())
        .anyMatch(
            n -> n.contains("turned, then mirrored about the y axis, as 10 of their 10 pads show"));
  }

  @Test
  void withoutPadsTheOrderIsTheSame() throws IOException {
    padsAreHit(read(false));
  }
}
