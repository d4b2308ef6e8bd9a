package org.padtrue.load.bill;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.job.JobLoader;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Unplaced;
import org.padtrue.problem.Problem;
import org.padtrue.problem.WithProblems;

/** A bill beside a list without part types, and the table of names. */
class BillTest {
  private static final String LIST =
      "Designator,Mid X,Mid Y,Rotation,Layer\n"
          + "R1,1,1,0,top\nR2,2,1,0,top\nR3,3,1,90,top\nC1,4,1,0,top\nC2,5,1,0,top\nU1,9,9,0,top\n";
  private static final String BILL =
      "\uFEFFDesignator,Footprint,Quantity,Value,Order code\n"
          + "\"R1, R2-R3\",R_0603_1608Metric,3,10k,A1\nC1 C2,0402,2,100n,A2\nU1,SOIC-8,1,,A3\n";

  @TempDir private Path dir;

  private WithProblems<Job> job(String list, String bill, String more) throws IOException {
    Files.writeString(dir.resolve("p.csv"), list);
    Files.writeString(dir.resolve("bom.csv"), bill);
    String bom = more.contains("\"bom\"") ? "" : ", \"bom\": \"bom.csv\"";
    String json = "{\"placements\": \"p.csv\"" + bom + more + "}";
    return JobLoader.load(Files.writeString(dir.resolve("job.json"), json));
  }

  private String sentences(WithProblems<Job> job) {
    return String.join("\n", job.problems().stream().map(Problem::sentence).toList())
        .replace(dir + "/", "");
  }

  private static String parts(Job j) {
    return String.join(
        " ", j.placements().stream().map((Placement p) -> p.ref() + "=" + p.part()).toList());
  }

  @Test
  void theBillGivesPartTypes() throws IOException {
    Job j = job(LIST, BILL, "").orThrow();
    assertThat(parts(j))
        .isEqualTo(
            "R1=R_0603_1608Metric R2=R_0603_1608Metric R3=R_0603_1608Metric C1=0402 C2=0402"
                + " U1=SOIC-8");
  }

  /** Spellings of headers, delimiters and ranges; a column that says what is not fitted. */
  @Test
  void billsOfManyShapes() throws IOException {
    Job j =
        job(
                LIST,
                "Item;Reference(s);Qty;Package;DNP\n1;R1..R3;3;R0603;\n2;\"c1; C2\";2;C0402;\n"
                    + "3;U1;1;SO8;x\n",
                "")
            .orThrow();
    assertThat(parts(j)).isEqualTo("R1=R0603 R2=R0603 R3=R0603 C1=C0402 C2=C0402");
    assertThat(j.unplaced())
        .extracting(Unplaced::ref, Unplaced::part, Unplaced::reason)
        .containsExactly(
            org.assertj.core.groups.Tuple.tuple("U1", "SO8", Unplaced.Reason.NOT_FITTED));
    j = job(LIST, "Qty,Value,Parts\n3,10k,\"R1, R2, R3\"\n3,x,C1 C2 U1\n", "").orThrow();
    assertThat(parts(j)).isEqualTo("R1=10k R2=10k R3=10k C1=x C2=x U1=x");
  }

  /** A dash in a ref: the list says what is meant; where both could be, the user is asked. */
  @Test
  void dashesInRefs() {
    Set<String> listed = Set.of("J1-2", "R2", "R3", "R4", "K1-3", "K2");
    assertThat(RefCell.of("J1-2", listed).refs()).containsExactly("J1-2");
    assertThat(RefCell.of("R2 - R4", listed).refs()).containsExactly("R2", "R3", "R4");
    assertThat(RefCell.of("R2-4", listed).refs()).containsExactly("R2", "R3", "R4");
    assertThat(RefCell.of("K1-3", listed).doubtful()).containsExactly("K1-3");
    assertThat(RefCell.of("R09\u2013R11", Set.of()).refs()).containsExactly("R09", "R10", "R11");
    assertThat(RefCell.of("_4, _3, , _2, ", Set.of()).refs()).containsExactly("_4", "_3", "_2");
  }

  @Test
  void whatTheBillDoesNotSayIsAskedOnce() throws IOException {
    String list = LIST + "X1,1,9,0,top\nX2,2,9,0,top\nG***,3,9,0,top\nH1,4,9,0,top\n";
    assertThat(sentences(job(list, BILL, "")))
        .isEqualTo(
            "p.csv: 'X1', 'X2', 'H1' are not in bom.csv, so what is placed there is not known; say"
                + " \"bom\": {\"file\": \"bom.csv\", \"unlisted\": \"leaveOut\"} in the job if"
                + " nothing is, or \"keep\"");
    String bom = ", \"bom\": {\"file\": \"bom.csv\", \"unlisted\": \"%s\"}";
    Job left = job(list, BILL, String.format(bom, "leaveOut")).orThrow();
    assertThat(left.placements()).hasSize(6);
    Job kept = job(list, BILL, String.format(bom, "keep")).orThrow();
    assertThat(parts(kept)).endsWith("X1=X1 X2=X2 H1=H1");
    assertThat(kept.unplaced())
        .singleElement()
        .satisfies(u -> assertThat(u.reason()).isEqualTo(Unplaced.Reason.DRAWING));
  }

  /** Parts parked far off the board are placed by nobody: a bill need not name them. */
  @Test
  void parkedPartsAreNotAskedAbout() throws IOException {
    Job j = job(LIST + "X1,500,400,0,top\n", BILL, ", \"units\": \"mm\"").orThrow();
    assertThat(parts(j)).doesNotContain("X1");
    assertThat(j.unplaced())
        .extracting(Unplaced::ref, Unplaced::reason)
        .containsExactly(org.assertj.core.groups.Tuple.tuple("X1", Unplaced.Reason.PARKED));
  }

  @Test
  void anotherBoardsBillAndContradictionsAreRefused() throws IOException {
    assertThat(sentences(job(LIST, "Ref,Package\nA1,B\nA2,B\n", "")))
        .isEqualTo(
            "bom.csv: none of its 2 refs is in p.csv; name the bill of this board as \"bom\" in the"
                + " job");
    assertThat(sentences(job(LIST, BILL + "R1 U1,R0402,2,1k,A9\n", "")))
        .isEqualTo(
            "bom.csv, column Designator: refs have two different entries: R1 (lines 2 and 5), U1"
                + " (lines 4 and 5); keep the one that is placed");
    Job j = job(LIST, BILL.replace("Value,", "Value,") + "C9,0402,3,1n,A9\n", "").orThrow();
    assertThat(String.join("\n", j.notes()).replace(dir + "/", ""))
        .contains("bom.csv names 1 ref that p.csv does not have (C9).")
        .contains("bom.csv: the quantity is not the number of refs in line 5 (3, 1).");
  }

  @Test
  void withoutABillTheListIsAskedFor() throws IOException {
    Files.writeString(dir.resolve("p.csv"), LIST);
    Path json = Files.writeString(dir.resolve("job.json"), "{\"placements\": \"p.csv\"}");
    assertThat(org.assertj.core.api.Assertions.catchThrowable(() -> JobLoader.load(json)))
        .hasMessageContaining(
            "p.csv, line 1: there is no column for part, package or value, so part types are not"
                + " known; name the bill of materials that has them as \"bom\" in the job (inspect"
                + " and parts: --bom FILE), or say which column it is, \"columns\": {\"part\":"
                + " \"NAME\"}");
  }

  @Test
  void theMostSpecificNameHolds() throws IOException {
    String types = ", \"types\": {\"*\": \"ANY\", \"R_0603*\": \"R0603\", \"soic-8\": \"SO8\"}";
    Job j = job(LIST, BILL, types).orThrow();
    assertThat(parts(j)).isEqualTo("R1=R0603 R2=R0603 R3=R0603 C1=ANY C2=ANY U1=SO8");
    assertThat(j.notes())
        .contains(
            "Part type R0603 stands for R_0603_1608Metric of the placement file, as \"types\""
                + " says.");
    assertThat(
            sentences(job(LIST, BILL, ", \"types\": {\"R_0603_1*\": \"A\", \"*08Metric\": \"B\"}")))
        .isEqualTo(
            "job.json, line 1, column 84: \"types\" says of 'R_0603_1608Metric' both 'A'"
                + " ('R_0603_1*') and 'B' ('*08Metric'); name 'R_0603_1608Metric' in full");
  }

  /** Refs written one below the other in one cell, as spreadsheets export them. */
  @Test
  void refsOneBelowTheOther() throws IOException {
    String below = String.join(",\n", java.util.Collections.nCopies(24, "R1")) + ",\nR2,\nR3";
    Job j =
        job(LIST, "Ref,Package\n\"" + below + "\",R0603\n\"C1\nC2\",C0402\nU1,SO8\n", "").orThrow();
    assertThat(parts(j)).isEqualTo("R1=R0603 R2=R0603 R3=R0603 C1=C0402 C2=C0402 U1=SO8");
  }

  @Test
  void aLineWithoutATypeSaysNothingOfWhatIsPlaced() throws IOException {
    String bom = "Ref,Package,DNP\n\"R1-R3\",,\n\"C1,C2\",C0402,\nU1,,x\n";
    assertThat(sentences(job(LIST, bom, "")))
        .isEqualTo(
            "p.csv: 'R1', 'R2', 'R3' are without a type in bom.csv, so what is placed there is not"
                + " known; say \"bom\": {\"file\": \"bom.csv\", \"unlisted\": \"leaveOut\"} in the"
                + " job if nothing is, or \"keep\"");
  }
}
