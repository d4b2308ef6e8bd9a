package org.padtrue.standard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.load.standard.StandardData;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.quantity.Angles;

/**
 * Validation: a board of our own, drawn and exported by board-design tools of other people (see
 * SOURCE.md beside the files), against its design file. Tolerances are the last digits that the
 * exports write, and what they make of pads 0.5 mm off the middle.
 */
class ForeignFilesTest {
  private static final Path FILES = Path.of("src/test/resources/org/padtrue/load/foreign");
  private static final double NANOMETRE = 2e-6;
  private static final double TENTH_OF_MIL = 0.0013;
  private static final double HUNDREDTH_OF_MIL = 0.00013;

  /** The place and drill origin of the design, y up. */
  private static final double ORIGIN_X = 100;

  private static final double ORIGIN_Y = -120;

  @TempDir private Path dir;

  private static PlacementFile file(String name) {
    PlacementFile f =
        PlacementFile.read(FILES.resolve(name), PlacementOptions.withDefaults(), null);
    assertThat(f.problems()).isEmpty();
    return f;
  }

  private static Map<String, DesignFile.Part> design() throws IOException {
    return DesignFile.read(FILES.resolve("mixed-board-design.txt"));
  }

  /** Pads of every footprint at rotation 0 on the top. */
  private static Map<String, Map<String, double[]>> footprints() throws IOException {
    Map<String, Map<String, double[]>> all = new HashMap<>();
    design().values().stream()
        .filter(p -> !p.bottom())
        .forEach(p -> all.put(p.footprint(), p.local()));
    return all;
  }

  private Job job(String placements, String more) throws IOException {
    Files.copy(FILES.resolve(placements), dir.resolve(placements));
    String json = "{\"placements\": \"" + placements + "\"" + more + "}";
    return JobLoader.load(Files.writeString(dir.resolve("job.json"), json)).orThrow();
  }

  @Test
  void theDesignHasWhatItIsToTry() throws IOException {
    Map<String, DesignFile.Part> parts = design();
    assertThat(parts).hasSize(29);
    assertThat(parts.values().stream().filter(DesignFile.Part::bottom)).hasSize(12);
    assertThat(parts.get("R5").pose().rotationDeg()).isEqualTo(37.5);
    assertThat(parts.get("J2").value()).isEqualTo("Wire \"red\"");
  }

  /** Pads laid by the pose that was read fall onto those of the design: place, turn and mirror. */
  private static void componentLayer(String name, Side side, int count) throws IOException {
    PlacementFile f = file(name);
    assertThat(f.rows()).hasSize(count);
    for (PlacementRow r : f.rows()) {
      DesignFile.Part want = design().get(r.ref());
      assertThat(r.side()).isEqualTo(side);
      assertThat(want.bottom()).isEqualTo(side == Side.BOTTOM);
      assertThat(r.part()).isEqualTo(want.footprint());
      assertThat(r.filePose().xMm()).as(r.ref()).isCloseTo(want.pose().xMm(), within(NANOMETRE));
      assertThat(r.filePose().yMm()).as(r.ref()).isCloseTo(want.pose().yMm(), within(NANOMETRE));
      footprints()
          .get(want.footprint())
          .forEach(
              (pin, at) -> {
                double[] pad = want.pads().get(pin);
                double[] found =
                    DesignFile.placed(
                        new double[] {side == Side.BOTTOM ? -at[0] : at[0], at[1]}, r.filePose());
                assertThat(found[0]).as(r.ref() + "." + pin).isCloseTo(pad[0], within(1e-5));
                assertThat(found[1]).as(r.ref() + "." + pin).isCloseTo(pad[1], within(1e-5));
              });
    }
    StandardData d = f.standard().orElseThrow();
    d.rows().forEach(r -> assertThat(r.value()).isEqualTo(valueOf(r.ref())));
    assertThat(d.outline().length()).isCloseTo(60, within(NANOMETRE));
    assertThat(d.outline().width()).isCloseTo(30, within(NANOMETRE));
    assertThat(d.skipped()).isEmpty();
  }

  private static String valueOf(String ref) {
    try {
      return design().get(ref).value();
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void componentLayerOfTheTop() throws IOException {
    componentLayer("mixed-board-pnp_top.gbr", Side.TOP, 17);
  }

  @Test
  void componentLayerOfTheBottom() throws IOException {
    componentLayer("mixed-board-pnp_bottom.gbr", Side.BOTTOM, 12);
    assertThat(file("mixed-board-pnp_bottom.gbr").understood().notes())
        .singleElement()
        .asString()
        .contains("counted from the mirror about the y axis; pin 1 of 5 of 5 footprints");
  }

  @Test
  void fiducialsAmongThePartsAreNotPlaced() throws IOException {
    Job j = job("mixed-board-pnp_bottom.gbr", ", \"side\": \"bottom\"");
    assertThat(j.placements()).hasSize(10);
    assertThat(j.fiducials()).extracting("name").containsExactlyInAnyOrder("FID11", "FID12");
  }

  /** A table whose bottom has x from below and rotations from above, with the settings for it. */
  @Test
  void tableWithTheBottomSeenFromBelow() throws IOException {
    assertThat(String.join(" ", file("mixed-board-all-pos.csv").understood().notes()))
        .contains("x of the bottom lies mirrored beside the top");
    assertThat(String.join(" ", file("mixed-board-bottom-mm.pos").understood().notes()))
        .contains("x of the bottom is negative throughout");
    String axes =
        ", \"side\": \"bottom\","
            + " \"axes\": {\"bottomX\": \"asSeenFromBottom\", \"rotation\": \"clockwise\"}";
    Job table = job("mixed-board-all-pos.csv", axes);
    // FID11 and FID12 are listed among the parts
    assertThat(table.placements()).hasSize(10);
    assertThat(table.fiducials()).extracting("name").containsExactly("FID11", "FID12");
    Map<String, Placement> layer = new TreeMap<>();
    job("mixed-board-pnp_bottom.gbr", ", \"side\": \"bottom\"")
        .placements()
        .forEach(p -> layer.put(p.ref(), p));
    for (Placement p : table.placements()) {
      Pose want = design().get(p.ref()).pose();
      assertThat(p.pose().xMm()).isCloseTo(-(want.xMm() - ORIGIN_X), within(NANOMETRE));
      assertThat(p.pose().yMm()).isCloseTo(want.yMm() - ORIGIN_Y, within(NANOMETRE));
      Placement other = layer.get(p.ref());
      if (other != null) {
        // the tool's footprints count from the other mirror: half a turn for every part
        assertThat(Angles.wrap(p.pose().rotationDeg() - other.pose().rotationDeg() - 180))
            .as(p.ref())
            .isCloseTo(0, within(1e-4));
      }
    }
  }

  @Test
  void tablesOfBothToolsInEveryUnit() throws IOException {
    assertThat(table("mixed-board-top-inch.pos", 17, TENTH_OF_MIL, 1)).isEmpty();
    assertThat(table("mixed-board-bottom-mm.pos", 12, 6e-5, -1)).isEmpty();
    // the other tool gives the middle of the pads where the first gives the footprint's origin
    for (String name : List.of("second-tool-mil.xy", "second-tool-pos.txt")) {
      double tolerance = name.endsWith("xy") ? HUNDREDTH_OF_MIL : 6e-5;
      assertThat(table(name, 22, tolerance, 1))
          .containsOnlyKeys("J1", "Q1", "Q2", "Q11", "Q12", "Q13")
          .hasEntrySatisfying("J1", d -> assertThat(d).isCloseTo(3.81, within(2 * tolerance)))
          .hasEntrySatisfying("Q13", d -> assertThat(d).isCloseTo(1 / 3.0, within(2 * tolerance)));
    }
  }

  /** The second tool writes the footprint as description: said, and settled by the job. */
  @Test
  void footprintsAsDescriptions() throws IOException {
    String name = "second-tool-mil.xy";
    assertThat(file(name).understood().notes())
        .containsExactly(
            FILES.resolve(name)
                + ": part types are told by 'Value'; where 'Description' names the package, say"
                + " \"columns\": {\"package\": \"Description\"} in the job.");
    Job j = job(name, ", \"columns\": {\"package\": \"Description\"}");
    assertThat(j.placements()).hasSize(13);
    for (Placement p : j.placements()) {
      assertThat(p.part()).isEqualTo(design().get(p.ref()).footprint() + ".fp");
    }
  }

  /** Header words that stand in the program of a further tool (open source, in Debian 12). */
  @Test
  void headerOfAFurtherTool() throws IOException {
    Path f =
        Files.writeString(
            dir.resolve("pnp.csv"),
            "MPN,Value,Manufacturer,Ref. Desig.,Package,X position,Y position,Angle,Side\n"
                + "A1,10k,M,R1,R0603,1.500,2.500,90.000,Top\n"
                + "A1,10k,M,R2,R0603,3.500,2.500,270.000,Bottom\n");
    PlacementFile read = PlacementFile.read(f, PlacementOptions.withDefaults(), null);
    assertThat(read.rows()).extracting("ref").containsExactly("R1", "R2");
    assertThat(read.rows()).extracting("side").containsExactly(Side.TOP, Side.BOTTOM);
    assertThat(read.rows().get(1).filePose()).isEqualTo(new Pose(3.5, 2.5, 270));
  }

  /** Parts that lie elsewhere than in the design, by how much, mm; rotations must be the same. */
  private static Map<String, Double> table(String name, int count, double tolerance, int signX)
      throws IOException {
    PlacementFile f = file(name);
    assertThat(f.rows()).as(name).hasSize(count);
    Map<String, Double> elsewhere = new TreeMap<>();
    for (PlacementRow r : f.rows()) {
      DesignFile.Part want = design().get(r.ref());
      assertThat(r.side()).isEqualTo(want.bottom() ? Side.BOTTOM : Side.TOP);
      assertThat(Angles.wrap(r.filePose().rotationDeg() - want.pose().rotationDeg()))
          .as(name + " " + r.ref())
          .isCloseTo(0, within(1e-4));
      double dx = r.filePose().xMm() - signX * (want.pose().xMm() - ORIGIN_X);
      double dy = r.filePose().yMm() - (want.pose().yMm() - ORIGIN_Y);
      if (Math.hypot(dx, dy) > 1.5 * tolerance) {
        elsewhere.put(r.ref(), Math.hypot(dx, dy));
      }
    }
    return elsewhere;
  }
}
