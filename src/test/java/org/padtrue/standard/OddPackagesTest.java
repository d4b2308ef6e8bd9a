package org.padtrue.standard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;

/**
 * IPC-2581 as design programs write it: packages drawn about pin 1 with a {@code PickupPoint} in
 * the body's middle, all in thousandths of an inch, odd angles, no transform where none is needed,
 * mirror without rotation. The file is ours; poses are worked out by hand.
 */
class OddPackagesTest {
  private static final double MM = 1e-6;

  private static final String PACKAGE =
      """
      <Package name="%s" type="OTHER" pinOne="1" pinOneOrientation="OTHER" height="0.1">
        <Outline><Polygon><PolyBegin x="-0.045" y="-0.335"/><PolyStepSegment x="0.220" y="-0.335"/>
          <PolyStepSegment x="0.220" y="0.035"/><PolyStepSegment x="-0.045" y="0.035"/>
          <PolyStepSegment x="-0.045" y="-0.335"/>%s</Polygon></Outline>
        %s
        <Pin number="1" type="SURFACE"><Location x="0" y="0"/><StandardPrimitiveRef id="L"/></Pin>
        <Pin number="2" type="SURFACE"><Location x="0.175" y="-0.3"/><StandardPrimitiveRef id="L"/>
        </Pin>
      </Package>
      """;

  private static final String FILE =
      """
      <?xml version="1.0"?>
      <IPC-2581 revision="C" xmlns="http://webstds.ipc.org/2581"><Content roleRef="O">
      <DictionaryStandard units="INCH"><EntryStandard id="L">
        <RectCenter width="0.05" height="0.025"/></EntryStandard>
        <EntryStandard id="D"><Circle diameter="0.04"/></EntryStandard></DictionaryStandard></Content>
      <Ecad name="e"><CadHeader units="INCH"/><CadData>
      <Layer name="TOP" layerFunction="CONDUCTOR" side="TOP"/>
      <Layer name="BOTTOM" layerFunction="CONDUCTOR" side="BOTTOM"/>
      <Layer name="COMP" layerFunction="COMPONENT_TOP"/>
      <Step name="A">
      """
          + PACKAGE.formatted("PICKED", "", "<PickupPoint x=\"0.088\" y=\"-0.150\"/>")
          + PACKAGE.formatted("PLAIN", "", "")
          + PACKAGE.formatted("MOVED", "<Xform rotation=\"5\"/>", "")
          + """
          <Package name="FIDUCIAL_40"><Pin number="1" type="SURFACE"><Location x="0" y="0"/>
            <StandardPrimitiveRef id="D"/></Pin></Package>
          <Component refDes="FID1" packageRef="FIDUCIAL_40" layerRef="COMP" part="" mountType="OTHER">
            <Location x="0.1" y="0.2"/></Component>
          <Component refDes="U1" packageRef="PICKED" layerRef="TOP" part="X" mountType="SMT">
            <Xform rotation="90.000"/><Location x="1.600" y="0.212"/></Component>
          <Component refDes="U2" packageRef="PICKED" layerRef="TOP" part="X" mountType="SMT">
            <Location x="2" y="1"/></Component>
          <Component refDes="U3" packageRef="PICKED" layerRef="BOTTOM" part="X" mountType="SMT">
            <Xform rotation="30" mirror="true"/><Location x="1" y="1"/></Component>
          <Component refDes="U4" packageRef="PICKED" layerRef="BOTTOM" part="X" mountType="SMT">
            <Xform mirror="true"/><Location x="1" y="2"/></Component>
          <Component refDes="U5" packageRef="PLAIN" layerRef="TOP" part="X" mountType="SMT">
            <Xform rotation="35.096"/><Location x="1" y="3"/></Component>
          <Component refDes="U6" packageRef="MOVED" layerRef="TOP" part="X" mountType="SMT">
            <Location x="1" y="4"/></Component>
          </Step>
          <Step name="B"><Component refDes="U1" packageRef="P" layerRef="TOP" part="X" mountType="SMT">
            <Location x="0" y="0"/></Component></Step>
          </CadData></Ecad></IPC-2581>
          """;

  @TempDir private Path dir;

  private PlacementFile board() throws IOException {
    Path f = Files.writeString(dir.resolve("board.xml"), FILE);
    PlacementFile read = PlacementFile.read(f, PlacementOptions.withDefaults(), "A");
    assertThat(read.problems()).isEmpty();
    return read;
  }

  private static void at(Pose found, double xInch, double yInch, double turn) {
    assertThat(found.xMm()).isCloseTo(25.4 * xInch, within(MM));
    assertThat(found.yMm()).isCloseTo(25.4 * yInch, within(MM));
    assertThat(found.rotationDeg()).isCloseTo(turn, within(1e-6));
  }

  @Test
  void partsStandWhereTheyArePickedUp() throws IOException {
    Map<String, Pose> poses = new TreeMap<>();
    for (PlacementRow r : board().rows()) {
      poses.put(r.ref(), r.filePose());
    }
    at(poses.get("U1"), 1.6 + 0.150, 0.212 + 0.088, 90);
    at(poses.get("U2"), 2.088, 0.85, 0);
    // turned by 30 degrees, then mirrored
    double c = Math.sqrt(3) / 2;
    at(poses.get("U3"), 1 - (0.088 * c + 0.150 * 0.5), 1 + 0.088 * 0.5 - 0.150 * c, -30);
    at(poses.get("U4"), 1 - 0.088, 2 - 0.150, 0);
    at(poses.get("U5"), 1, 3, 35.096);
    assertThat(board().understood().notes())
        .anyMatch(n -> n.endsWith("pick-up points, which 1 package has off the origin."));
  }

  @Test
  void geometryIsAboutThePickUpPoint() throws IOException {
    Map<String, PartType> parts = board().standard().orElseThrow().parts();
    PartType picked = parts.get("PICKED");
    rect(picked.body(), 0, 0, 0.265, 0.37);
    rect(picked.lands().get(0), -0.088, 0.150, 0.05, 0.025);
    rect(picked.lands().get(1), 0.087, -0.150, 0.05, 0.025);
    assertThat(parts.get("PLAIN").body()).isNull();
    rect(parts.get("PLAIN").lands().get(0), 0, 0, 0.05, 0.025);
    assertThat(parts.get("MOVED").body()).isNull();
  }

  @Test
  void aFiducialAmongTheComponentsIsOne() throws IOException {
    Fiducial f = board().standard().orElseThrow().marks().get(0).fiducial();
    assertThat(f.name()).isEqualTo("FID1");
    assertThat(f.xMm()).isCloseTo(2.54, within(MM));
    assertThat(f.diameterMm()).isCloseTo(1.016, within(MM));
    Files.writeString(dir.resolve("job.json"), "{\"placements\": \"board.xml\", \"step\": \"A\"}");
    Job job = JobLoader.load(dir.resolve("job.json")).orThrow();
    assertThat(job.placements()).extracting("ref").containsExactly("U1", "U2", "U5", "U6");
    assertThat(job.fiducials()).containsExactly(f);
  }

  private static void rect(Rect found, double x, double y, double length, double width) {
    assertThat(found.xMm()).isCloseTo(25.4 * x, within(MM));
    assertThat(found.yMm()).isCloseTo(25.4 * y, within(MM));
    assertThat(found.lengthMm()).isCloseTo(25.4 * length, within(MM));
    assertThat(found.widthMm()).isCloseTo(25.4 * width, within(MM));
  }
}
