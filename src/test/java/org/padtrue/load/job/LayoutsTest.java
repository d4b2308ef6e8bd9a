package org.padtrue.load.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.load.text.TextFile;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.Unplaced;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.WithProblems;

/** Layouts of placement lists as programs write them, each made by our own hand. */
class LayoutsTest {
  @TempDir private Path dir;

  private static PlacementFile read(String text) {
    return PlacementFile.of(TextFile.of("p.txt", text), PlacementOptions.withDefaults());
  }

  private static String rows(PlacementFile f) {
    assertThat(f.problems()).isEmpty();
    return f.rows().stream()
        .map(
            r ->
                r.ref()
                    + " "
                    + r.part()
                    + " "
                    + r.filePose().xMm()
                    + " "
                    + r.filePose().yMm()
                    + " "
                    + r.filePose().rotationDeg())
        .collect(Collectors.joining("; "));
  }

  private WithProblems<Job> job(String list, String more) throws IOException {
    Files.writeString(dir.resolve("p.csv"), list);
    Path json = dir.resolve("job.json");
    return JobLoader.load(Files.writeString(json, "{\"placements\": \"p.csv\"" + more + "}"));
  }

  private String notes(Job j) {
    return String.join("\n", j.notes()).replace(dir + "/", "");
  }

  /** Quoted texts with a tab behind each, before the comma. */
  @Test
  void tabsBesideQuotes() {
    assertThat(
            rows(
                read(
                    "Ref,Device,Package,X,Y,Rotation,Side,\n"
                        + "\"R1\"\t,\"10k, 1 %\"\t,\"R0805\"\t,\"100.0mil\"\t,\"-50mil\"\t,\"90\""
                        + "\t,\"T\"\t,\n"
                        + "\"R2\"\t,\"10k\"\t,\"R0805\"\t,\"200mil\"\t,\"0mil\"\t,\"-90\"\t,\"B\""
                        + "\t,\n")))
        .isEqualTo("R1 R0805 2.54 -1.27 90.0; R2 R0805 5.08 0.0 -90.0");
  }

  /** A report with a title, dashes below the header and a foot. */
  @Test
  void reportWithDashes() {
    String report =
        "Placement report\n================\nBoard: demo   Units: mm\n\n"
            + "Ref   Package   X       Y       Rot   Side\n"
            + "----  --------  ------  ------  ----  ----\n"
            + "R1    R0603     1.000   2.000   90    Top\n"
            + "R2    R0603     3.000  -2.000   0     Top\n"
            + "-------------------------------------------\n%s\n";
    for (String foot : List.of("2 components", "Total: 2", "Page 1", "End of report", "")) {
      assertThat(rows(read(String.format(report, foot))))
          .as(foot)
          .isEqualTo("R1 R0603 1.0 2.0 90.0; R2 R0603 3.0 -2.0 0.0");
    }
    assertThat(
            rows(
                read(
                    "+-----+--------+--------+--------+------+\n"
                        + "| Ref | Part   | X (mm) | Y (mm) | Rot  |\n"
                        + "+-----+--------+--------+--------+------+\n"
                        + "| R1  | R0603  | 1.0    | 2.0    | 90   |\n"
                        + "+-----+--------+--------+--------+------+\n")))
        .isEqualTo("R1 R0603 1.0 2.0 90.0");
    assertThat(rows(read("REF - PART - X - Y - ROTATION\nR1 - R0603 - 1.0 - 2.0 - 90\n")))
        .isEqualTo("R1 R0603 1.0 2.0 90.0");
  }

  /** No header, no column of sides, value and package in either order. */
  @Test
  void headerlessWithValueAndPackage() {
    String want = "C1 C0603 15.24 12.7 180.0; U3 SOIC-8 30.48 22.86 0.0";
    assertThat(rows(read("C1 15.24 12.70 180 100nF C0603\nU3 30.48 22.86 0 LM1 SOIC-8\n")))
        .isEqualTo(want);
    assertThat(rows(read("C1,100nF,C0603,15.24,12.70,180\nU3,LM1,SOIC-8,30.48,22.86,0\n")))
        .isEqualTo(want);
    InputException e =
        catchThrowableOfType(
            InputException.class,
            () -> read("C1,1.0,2.0,90,alpha,beta\nC2,2.0,3.0,0,gamma,delta\n"));
    assertThat(e.problems().get(0).sentence())
        .isEqualTo(
            "p.txt: the file has no header line, and which of the columns 5 and 6 is the part type"
                + " cannot be told; number the columns in the job, \"columns\": {\"ref\": 1,"
                + " \"part\": 2, \"x\": 3, \"y\": 4, \"rotation\": 5}");
  }

  @Test
  void nameIsThePartWhereNothingElseIs() {
    assertThat(rows(read("RefDes,Name,X (mm),Y (mm),Side,Rotate\nC1,X5R 0402,1,2,Top,90\n")))
        .isEqualTo("C1 X5R 0402 1.0 2.0 90.0");
    assertThat(rows(read("RefDes,Name,X,Y,Side,Rotate,Package\nC1,X5R,1,2,Top,90,C0402\n")))
        .isEqualTo("C1 C0402 1.0 2.0 90.0");
  }

  @Test
  void problemsOfOneKindAreAskedAtOnce() {
    PlacementFile f =
        read("ref,part,x,y,rotation\nR1,,1,2,0\nR2,,2,2,0\nR3,,3,2,0\nR4,,4,2,0\nR5,P,5,2,q\n");
    assertThat(f.problems())
        .extracting(Problem::sentence)
        .containsExactly(
            "p.txt, line 2, column part: the part type is empty, and so in lines 3, 4 and 5; name"
                + " it",
            "p.txt, line 6, column rotation: 'q' is not a number; write one such as 12.45");
  }

  /** What nobody places or measures stops nothing, on a panel of boards too. */
  @Test
  void drawingsMarksAndParkedPartsAreNotPlaced() throws IOException {
    StringBuilder list = new StringBuilder("ref,part,x,y,rotation\n");
    for (int b = 0; b < 2; b++) {
      double x = 50 * b;
      for (int i = 0; i < 12; i++) {
        list.append(String.format("R%d,R0603,%.1f,%.1f,0%n", i, x + 2 * i, 3.0 * (i % 5)));
      }
      list.append(String.format("FID1,Fiducial_1mm_Mask2mm,%.1f,20,0%n", x));
      for (String mark :
          List.of("G***,LOGO", "G***,LOGO", "(unknown),Graphic", "REF**,MountingHole_3.2mm_M3")) {
        list.append(String.format("%s,%.1f,7,0%n", mark, x + 1));
      }
    }
    for (int i = 0; i < 7; i++) {
      list.append("MB,mouse-bite-2mm-slot,").append(25).append(',').append(2 * i).append(",0\n");
    }
    Job j = job(list.toString(), "").orThrow();
    assertThat(j.placements()).hasSize(12);
    assertThat(j.array().boards()).hasSize(2);
    assertThat(j.unplaced())
        .allSatisfy(u -> assertThat(u.reason()).isEqualTo(Unplaced.Reason.DRAWING));
    assertThat(j.fiducials()).containsExactly(new Fiducial("FID1", 0, 20, 1, Fiducial.Scope.BOARD));
    assertThat(notes(j))
        .contains("p.csv lists the fiducials FID1; they are not placed.")
        .contains("p.csv: 15 placements without a part to place left out (G***, G***, (unknown),");
    // one board, where the user wants them all
    String one = "ref,part,x,y,rotation\nR1,R0603,1,2,0\nLOGO1,LOGO,3,4,0\nFID1,FIDUCIAL,5,6,0\n";
    one += "Z1,QR_code,7,8,0\nZ2,Barcode,8,8,90\n";
    assertThat(job(one, ", \"drawings\": \"keep\"").orThrow().placements()).hasSize(5);
    assertThat(job(one, "").orThrow().placements()).hasSize(1);
  }

  @Test
  void boardsWithDifferentPartsAreAskedAboutInOneSentence() throws IOException {
    String list = "ref,part,x,y,rotation\n";
    for (int b = 0; b < 3; b++) {
      for (int i = 1; i <= 12; i++) {
        list += "R" + i + ",P," + (50 * b + i) + "," + (i % 4) + ",0\n";
      }
    }
    list += "X1,P,1,1,0\nX2,P,2,2,0\nX3,P,3,3,0\nX3,P,53,3,0\n";
    assertThat(
            job(list, "").problems().stream()
                .map(p -> p.sentence().replace(dir + "/", ""))
                .toList())
        .containsExactly(
            "p.csv, line 38, column ref: the refs 'X1', 'X2' are there 1 time and the ref 'X3' is"
                + " there 2 times and others 3 times; give every board the same placements");
  }

  /** Fiducials along the file's axes, or where their row is: the same mark, told in three ways. */
  @Test
  void fiducialsInTheFilesAxes() throws IOException {
    String list =
        "ref,part,x,y,rotation,side\nR1,R0603,10,-20,0,bottom\nFID1,FID_1mm,12,-30,0,bottom\n";
    String way =
        ", \"side\": \"bottom\", \"axes\": {\"y\": \"down\"}, \"panel\": {\"fiducials\": [%s]}";
    String panel = "{\"name\": \"FID1\", \"x\": -12, \"y\": 30, \"diameter\": 1}";
    String file =
        "{\"name\": \"FID1\", \"x\": 12, \"y\": -30, \"diameter\": 1, \"axes\": \"file\"}";
    for (String f : List.of(panel, file, "{\"name\": \"FID1\", \"scope\": \"panel\"}")) {
      Job j = job(list, String.format(way, f)).orThrow();
      assertThat(j.fiducials())
          .as(f)
          .containsExactly(new Fiducial("FID1", -12, 30, 1, Fiducial.Scope.PANEL));
      assertThat(j.placements()).hasSize(1);
    }
    assertThat(
            job(list, String.format(way, "{\"name\": \"FID9\"}")).problems().stream()
                .map(p -> p.sentence().replace(dir + "/", ""))
                .toList())
        .containsExactly(
            "job.json, line 1, column 90: the fiducial 'FID9' has no x and y, and p.csv has no such"
                + " row on the side that is placed; give its x and y");
  }

  /**
   * Names that state their land pattern take the parts file's type; a code in two units does not.
   */
  @Test
  void namesMeetTheJobsPartsFile() throws IOException {
    Files.copy(Path.of("shared/parts.json"), dir.resolve("parts.json"));
    String list =
        "ref,part,x,y,rotation\nR1,Resistor_SMD:R_0603_1608Metric,1,2,0\nC1,0402,3,4,0\n"
            + "U1,SOIC-8_L4.9-W3.9-P1.27-LS6.0-BL,9,9,0\nJ1,Header,20,9,0\n";
    Job j = job(list, ", \"parts\": \"parts.json\"").orThrow();
    assertThat(j.partType("Resistor_SMD:R_0603_1608Metric").notJudged()).isFalse();
    assertThat(j.partType("0402").notJudged()).isTrue();
    assertThat(j.partType("SOIC-8_L4.9-W3.9-P1.27-LS6.0-BL").notJudged()).isTrue();
    assertThat(notes(j))
        .contains(
            "parts.json: taken by standard naming are Resistor_SMD:R_0603_1608Metric as R0603.",
            "Part types that look like some of parts.json are not judged unless you agree:"
                + " \"types\": {\"SOIC-8_L4.9-W3.9-P1.27-LS6.0-BL\": \"SOIC-8\"} in the job.",
            "The chip codes 0402 can be inch or metric (0603 is 1.6 x 0.8 mm or 0.6 x 0.3 mm) and"
                + " are not judged; say \"chipCodes\": \"inch\" or \"metric\" in the job.");
    String said =
        ", \"parts\": \"parts.json\", \"chipCodes\": \"inch\","
            + " \"types\": {\"SOIC-8_*\": \"SOIC-8\"}";
    Job agreed = job(list, said).orThrow();
    assertThat(agreed.partType("0402").body().lengthMm()).isEqualTo(1.0);
    assertThat(agreed.placements().get(2).part()).isEqualTo("SOIC-8");
  }

  @Test
  void whatIsToBeCompletedJudgesNothing() throws IOException {
    Files.writeString(
        dir.resolve("parts.json"),
        "{\"parts\": [{\"name\": \"A\", \"complete\": \"check the lands\","
            + " \"tolerance\": {\"x\": 0.1, \"y\": 0.1}},"
            + " {\"name\": \"B\", \"note\": \"as drawn\", \"tolerance\": {\"x\": 0.1}}]}");
    Job j =
        job("ref,part,x,y,rotation\nR1,A,1,2,0\nR2,B,3,4,0\n", ", \"parts\": \"parts.json\"")
            .orThrow();
    assertThat(j.partType("A").notJudged()).isTrue();
    assertThat(j.partType("B").notJudged()).isFalse();
    assertThat(notes(j))
        .contains("parts.json leaves 1 part type to complete (A); they are not judged.");
  }

  /** A unit behind some numbers only says nothing of the others; nought needs none. */
  @Test
  void unitBehindSomeValuesOnly() throws IOException {
    String list = "ref,part,x,y,rotation\nR1,A,100mil,0,0\nR2,A,%s,200mil,0\nR3,A,7mm,300mil,0\n";
    assertThat(job(list.formatted("0"), "").orThrow().placements()).hasSize(3);
    WithProblems<Job> mixed = job(list.formatted("5"), "");
    assertThat(String.join("\n", mixed.problems().stream().map(Problem::sentence).toList()))
        .endsWith(
            "p.csv, line 1: some positions have a unit behind them and others have none; say"
                + " \"units\": \"mm\", \"mil\", \"inch\" or \"um\" in the job for those without");
    Job said = job(list.formatted("5"), ", \"units\": \"mm\"").orThrow();
    assertThat(said.placements().get(1).pose().xMm()).isEqualTo(5);
    assertThat(said.placements().get(0).pose().xMm()).isEqualTo(2.54);
  }
}
