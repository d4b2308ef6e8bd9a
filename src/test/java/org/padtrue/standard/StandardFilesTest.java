package org.padtrue.standard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.placement.Axes;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Side;
import org.padtrue.quantity.Angles;

/**
 * Known boards written in both formats by code of our own and read back. Tolerances are the last
 * digits: half a millionth of an inch in Gerber, a nanometre elsewhere; rotations from pins 1.3 mm
 * apart that are written to a nanometre.
 */
class StandardFilesTest {
  private static final double MM = 1.3e-5;
  private static final double DEG = 5e-5;

  @TempDir private Path dir;

  private Job job(String text, String side, String more) throws IOException {
    Files.writeString(dir.resolve("board.cad"), text);
    String json = "{\"placements\": \"board.cad\", \"side\": \"" + side + "\"" + more + "}";
    return JobLoader.load(Files.writeString(dir.resolve("job.json"), json)).orThrow();
  }

  private static void same(StandardWriter w, Side side, Job job) {
    Map<String, StandardWriter.Part> wanted = new HashMap<>();
    w.parts.stream().filter(p -> p.side() == side).forEach(p -> wanted.put(p.ref(), p));
    assertThat(job.placements()).hasSize(wanted.size());
    job.placements()
        .forEach(
            p -> {
              StandardWriter.Part o = wanted.get(p.ref());
              Pose want = Axes.withDefaults().turn(new Pose(o.x(), o.y(), o.turn()), side);
              assertThat(p.part()).isEqualTo(o.type());
              assertThat(p.pose().xMm()).as(p.ref()).isCloseTo(want.xMm(), within(MM));
              assertThat(p.pose().yMm()).as(p.ref()).isCloseTo(want.yMm(), within(MM));
              assertThat(Angles.wrap(p.pose().rotationDeg() - want.rotationDeg()))
                  .as(p.ref())
                  .isCloseTo(0, within(DEG));
            });
  }

  @Test
  void ipcInEveryUnitRevisionAndOrderOfMirror() throws IOException {
    StandardWriter w = StandardSample.board();
    String[] units = {"MILLIMETER", "INCH", "MICRON", "MILLIMETER"};
    for (int way = 0; way < 4; way++) {
      w.way = way;
      w.units = units[way];
      w.revision = way % 2 == 0 ? "C" : "B";
      Job top = job(w.ipc(), "top", "");
      same(w, Side.TOP, top);
      Job bottom = job(w.ipc(), "bottom", "");
      same(w, Side.BOTTOM, bottom);
      assertThat(String.join(" ", bottom.notes())).contains("6 of their 6 pads show");
    }
  }

  @Test
  void ipcGivesBoardsFiducialsAndGeometry() throws IOException {
    Job csv = StandardSample.mainJob();
    Job ipc = job(StandardSample.board().ipc(), "top", "");
    assertThat(ipc.array().columns()).isEqualTo(3);
    assertThat(ipc.array().rows()).isEqualTo(2);
    ipc.array()
        .boards()
        .forEach(
            b -> {
              Pose want = csv.array().find(b.index()).orElseThrow().origin();
              assertThat(b.origin().xMm()).isCloseTo(want.xMm(), within(MM));
              assertThat(b.origin().yMm()).isCloseTo(want.yMm(), within(MM));
            });
    assertThat(ipc.fiducials()).isEqualTo(csv.fiducials());
    csv.parts()
        .forEach(
            (name, t) -> {
              if (ipc.parts().containsKey(name) && t.lands().size() == t.terminations().size()) {
                rects(name, t.lands(), ipc.partType(name).lands());
                rects(name, t.terminations(), ipc.partType(name).terminations());
              }
            });
    assertThat(ipc.partType("R0603").lands()).hasSize(2);
    assertThat(ipc.partType("R0603").symmetry()).isEqualTo(1);
  }

  private static void rects(String name, List<Rect> want, List<Rect> found) {
    assertThat(found).as(name).hasSameSizeAs(want);
    for (int i = 0; i < want.size(); i++) {
      assertThat(found.get(i).xMm()).as(name).isCloseTo(want.get(i).xMm(), within(MM));
      assertThat(found.get(i).lengthMm()).as(name).isCloseTo(want.get(i).lengthMm(), within(MM));
    }
  }

  @Test
  void boardsOfTheBottomRunTheOtherWay() throws IOException {
    Job j = job(StandardSample.board().ipc(), "bottom", "");
    Pose first = j.array().boards().get(0).origin();
    // seen from below the right-most of three boards (6 + 2 * 50) is the left-most
    assertThat(first.xMm()).isCloseTo(-106, within(MM));
    assertThat(first.yMm()).isCloseTo(6, within(MM));
  }

  @Test
  void partsOfTheJobWinAndBoardsOfTheJobToo() throws IOException {
    Files.writeString(
        dir.resolve("p.json"),
        "{\"parts\":[{\"name\":\"R0603\",\"symmetry\":2,\"tolerance\":{\"x\":0.2}}]}");
    Job j =
        job(
            StandardSample.board().ipc(),
            "top",
            ", \"parts\": \"p.json\", \"panel\": {\"columns\": 1, \"rows\": 1}");
    assertThat(j.partType("R0603").symmetry()).isEqualTo(2);
    assertThat(j.partType("C0603").lands()).hasSize(2);
    assertThat(j.array().boards()).hasSize(1);
    assertThat(String.join(" ", j.notes())).contains("3 x 2 boards, the job one of 1 x 1");
  }

  @Test
  void gerberBothSidesBothUnits() throws IOException {
    StandardWriter w = StandardSample.board();
    for (String unit : new String[] {"MILLIMETER", "INCH"}) {
      w.units = unit;
      Job top = job(w.gerber(Side.TOP), "top", "");
      // pins rule the rotation only beyond half a degree; below that the attribute stands
      same(w, Side.TOP, top);
      assertThat(top.array().boards()).hasSize(6);
      assertThat(top.partType("R0603").body()).isNotNull();
      same(w, Side.BOTTOM, job(w.gerber(Side.BOTTOM), "bottom", ""));
    }
  }

  @Test
  void gerberPinsRuleOverTheRotationAttribute() throws IOException {
    StandardWriter w = StandardSample.board();
    String text = w.gerber(Side.BOTTOM).replace("%TO.CRot,210*%", "%TO.CRot,30*%");
    assertThat(text).contains("%TO.CRot,30*%");
    Job wrong = job(text, "bottom", "");
    same(w, Side.BOTTOM, wrong);
    assertThat(String.join(" ", wrong.notes())).contains("pins and .CRot disagree", "'R903'");
    Job none = job(w.gerber(Side.BOTTOM).replace("%TO.CRot,210*%\n", ""), "bottom", "");
    same(w, Side.BOTTOM, none);
    assertThat(String.join(" ", none.notes())).contains("without .CRot", "'R903'");
  }

  @Test
  void commentsMayCarryTheAttributes() throws IOException {
    String text =
        StandardSample.board().gerber(Side.TOP).replaceAll("%(T[FAOD][^*]*)\\*%", "G04 #@! $1*");
    same(StandardSample.board(), Side.TOP, job(text, "top", ""));
  }

  /** Own examples that follow the published schema and specification; see their first lines. */
  @Test
  void referenceExamples() {
    PlacementFile ipc =
        PlacementFile.read(
            Path.of("src/test/resources/standards/example-ipc2581-revC.xml"),
            PlacementOptions.withDefaults(),
            null);
    assertThat(ipc.rows().get(0).filePose()).isEqualTo(new Pose(12.5, 20, 90));
    assertThat(ipc.rows().get(1).filePose()).isEqualTo(new Pose(30, 41.25, 180));
    assertThat(ipc.rows().get(0).line()).isEqualTo(56);
    assertThat(ipc.standard().orElseThrow().boards()).hasSize(2);
    PlacementFile gerber =
        PlacementFile.read(
            Path.of("src/test/resources/standards/example-gerber-x3-top.gbr"),
            PlacementOptions.withDefaults(),
            null);
    assertThat(gerber.rows().get(0).filePose()).isEqualTo(new Pose(12.5, 20, 90));
    assertThat(gerber.standard().orElseThrow().parts().get("R0603").body())
        .isEqualTo(new Rect(0, 0, 1.6, 0.8));
  }

  @Test
  void theSampleIsWhatItsMakerWrites() throws IOException {
    for (Map.Entry<String, String> f : StandardSample.files().entrySet()) {
      assertThat(
              Files.readString(StandardSample.FOLDER.resolve(f.getKey()), StandardCharsets.UTF_8))
          .isEqualTo(f.getValue());
    }
  }
}
