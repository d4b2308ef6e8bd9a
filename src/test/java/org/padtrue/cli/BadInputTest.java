package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the user reads when a file is bad: every sentence whole, exit code 2, nothing written.
 *
 * <p>The test reads whole lines, so a change of wording is seen here by whoever makes it.
 */
class BadInputTest {
  private static final String JOB = "{\"placements\": \"p.csv\"}";
  private static final String PLACEMENTS = "ref,part,x,y,rotation\nR1,A,1,2,0\nR2,A,30,4,90\n";
  private static final String ARTICLE = "ref,dx,dy,drotation\nR1,0.01,0.02,0.1\nR2,0.03,0.01,0\n";

  @TempDir private Path dir;

  /** Runs 'analyse' on three files; returns the lines on standard error, the folder taken off. */
  private List<String> said(String job, String placements, String article) throws IOException {
    Files.writeString(dir.resolve("job.json"), job);
    Files.writeString(dir.resolve("p.csv"), placements);
    Files.writeString(dir.resolve("a.csv"), article);
    Path out = dir.resolve("out");
    Run r =
        Run.of("analyse", dir.resolve("job.json"), dir.resolve("a.csv"), "--quiet", "--out", out);
    assertThat(r.code()).as(r.err()).isEqualTo(2);
    assertThat(r.out()).isEmpty();
    assertThat(out).doesNotExist();
    try (var left = Files.list(dir)) {
      assertThat(left.map(p -> p.getFileName().toString()))
          .containsExactlyInAnyOrder("job.json", "p.csv", "a.csv");
    }
    return r.err().replace(dir + dir.getFileSystem().getSeparator(), "").lines().toList();
  }

  private void inPlacements(String placements, String... sentences) throws IOException {
    assertThat(said(JOB, placements, ARTICLE)).containsExactly(sentences);
  }

  private void inArticle(String article, String... sentences) throws IOException {
    assertThat(said(JOB, PLACEMENTS, article)).containsExactly(sentences);
  }

  private void inJob(String job, String... sentences) throws IOException {
    assertThat(said(job, PLACEMENTS, ARTICLE)).containsExactly(sentences);
  }

  @Test
  void aFileOfArgumentsMayNameTheCommand() throws IOException {
    Path file = Files.writeString(dir.resolve("arguments"), "schema analysis");
    assertThat(Run.of("@" + file)).isEqualTo(Run.of("schema", "analysis"));
    assertThat(Run.of("schema", "analysis").code()).isZero();
  }

  // ---- refs ----

  @Test
  void duplicateRefs() throws IOException {
    inPlacements(
        PLACEMENTS + "R1,A,9,9,0\n",
        "p.csv, line 4, column ref: the ref 'R1' is there already in line 2; rename or remove one"
            + " of them");
    inArticle(
        ARTICLE + "R1,0.02,0.02,0.1\n",
        "a.csv, line 4, column ref: 'R1' on board 1/1 of panel P1 is measured already in line 2;"
            + " name panels apart in a column panel, or remove one of the rows");
  }

  @Test
  void measuredRefThatThePlacementsLack() throws IOException {
    inArticle(
        ARTICLE + "R22,0,0,0\nRI,0,0,0\n",
        "a.csv, line 4, column ref: 'R22' is not among the placements; did you mean R2",
        "a.csv, line 5, column ref: 'RI' is not among the placements; did you mean R1 or R2");
  }

  // ---- numbers ----

  @Test
  void notANumber() throws IOException {
    inArticle(
        ARTICLE.replace("0.03", "O.03"),
        "a.csv, line 3, column dx: 'O.03' is not a number; write one such as 12.45");
    inPlacements(
        PLACEMENTS.replace("30", "thirty"),
        "p.csv, line 3, column x: 'thirty' is not a number; write one such as 12.45");
  }

  @Test
  void notANumberOrNotFinite() throws IOException {
    inArticle(
        ARTICLE.replace("0.03", "NaN").replace("0.02", "-Infinity"),
        "a.csv, line 2, column dy: '-Infinity' is not a finite number; leave the cell empty when it"
            + " is not measured",
        "a.csv, line 3, column dx: 'NaN' is not a finite number; leave the cell empty when it is"
            + " not measured");
    inPlacements(
        PLACEMENTS.replace("30", "1e999"),
        "p.csv, line 3, column x: '1e999' is not a finite number; write a number");
  }

  @Test
  void anglesOutOfRange() throws IOException {
    inPlacements(
        PLACEMENTS.replace("90", "9000"),
        "p.csv, line 3, column rotation: '9000' is no angle between -3600 and 3600 degrees; give"
            + " degrees");
    inArticle(
        ARTICLE.replace("0.1", "-720.5"),
        "a.csv, line 2, column drotation: '-720.5' is no angle between -720 and 720 degrees; give"
            + " degrees");
  }

  @Test
  void decimalPointsAndCommasMixed() throws IOException {
    inPlacements(
        "ref;part;x;y;rotation\nR1;A;1,234;2.345;0\nR2;A;3,4;4,5;0\n",
        "p.csv, line 2, column y: '2.345' is not a number; write a decimal comma as in the other"
            + " rows");
  }

  // ---- whole files ----

  @Test
  void emptyFiles() throws IOException {
    inPlacements("", "p.csv: the file is empty; export it again");
    inArticle("", "a.csv: the file is empty; export it again");
  }

  @Test
  void cutOffInAQuotedField() throws IOException {
    inPlacements(
        PLACEMENTS + "R3,\"A,3,3,0\nR4,A,5,5,0\n",
        "p.csv, line 4, column 4: the quoted text that opens here never ends; close the quote");
    inArticle(
        "ref,dx,dy,drotation,note\nR1,0.01,0.02,0.1,\"all fine\nR2,0.03,0.01,0,x\n",
        "a.csv, line 2, column 18: the quoted text that opens here never ends; close the quote");
  }

  @Test
  void tenMegabytesOfOneLine() throws IOException {
    String much = "R".repeat(10_000_000);
    inPlacements(
        "ref,part,x,y,rotation\n" + much,
        "p.csv, line 2: the line is 10000000 characters long, so this is no placement file; export"
            + " it again, one placement on a line");
    inArticle(
        "ref,dx,dy,drotation,note\nR1,0.01,0.02,0.1,\"" + much + "\"\n",
        "a.csv, line 2: the line is 10000019 characters long, so this is no article; export it"
            + " again, one placement on a line");
  }

  @Test
  void binaryFile() throws IOException {
    inPlacements(
        "\u0000\u0001\u0002IMG".repeat(10),
        "p.csv: this is a binary file, not a text file; name a text file");
  }

  @Test
  void columnThatIsMissing() throws IOException {
    inPlacements(
        "ref,part,x,rotation\nR1,A,1,0\n",
        "p.csv, line 1: the header has no column for y among 'ref', 'part', 'x', 'rotation'; say"
            + " which one it is in the job, \"columns\": {\"y\": \"NAME\"}");
    inPlacements(
        "\n\n  \n",
        "p.csv: no header line with columns for ref, x, y and rotation was found; name the columns"
            + " in the first line of this placement file");
  }

  @Test
  void shortRow() throws IOException {
    inPlacements(
        PLACEMENTS + "R3,A,3\n",
        "p.csv, line 4: the row has 3 cells where the header has 5; complete or remove the row");
  }

  /** Every problem is found, not the first only; the first twenty are shown. */
  @Test
  void manyProblems() throws IOException {
    StringBuilder article = new StringBuilder("ref,dx,dy,drotation\n");
    for (int i = 0; i < 30; i++) {
      article.append("R1,x,0,0\n");
    }
    List<String> lines = said(JOB, PLACEMENTS, article.toString());
    assertThat(lines).hasSize(21);
    assertThat(lines.get(19))
        .isEqualTo("a.csv, line 21, column dx: 'x' is not a number; write one such as 12.45");
    assertThat(lines.get(20)).contains("10 more");
  }

  // ---- boards ----

  private static String panel(int columns, int rows, String rest) {
    return "{\"placements\": \"p.csv\",\n\"panel\": {\"columns\": "
        + columns
        + ", \"rows\": "
        + rows
        + ",\n"
        + rest
        + "}}\n";
  }

  private static String board(int column, int row, double x, double y) {
    return "{\"column\": %d, \"row\": %d, \"x\": %s, \"y\": %s}".formatted(column, row, x, y);
  }

  @Test
  void boardsThatDoNotFixTheTiling() throws IOException {
    inJob(
        panel(
            3,
            2,
            "\"boards\": ["
                + String.join(", ", board(1, 1, 0, 0), board(2, 1, 40, 0), board(3, 1, 80, 0))
                + "]"),
        "job.json, line 2, column 10: the listed boards (1/1, 2/1, 3/1) lie in one line and do not"
            + " fix where board 1/2 is; give three that are not in one line");
    inJob(
        panel(
            3,
            3,
            "\"boards\": ["
                + String.join(", ", board(1, 1, 0, 0), board(2, 2, 40, 40), board(3, 3, 80, 80))
                + "]"),
        "job.json, line 2, column 10: the listed boards (1/1, 2/2, 3/3) lie in one line and do not"
            + " fix where board 2/1 is; give three that are not in one line");
  }

  @Test
  void boardsOutsideThePanel() throws IOException {
    inJob(
        panel(2, 1, "\"boards\": [" + board(1, 1, 0, 0) + ",\n" + board(3, 1, 80, 0) + "]"),
        "job.json, line 4, column 1: board 3/1 is outside the panel of 2 x 1 boards; count columns"
            + " from the left and rows from below, from 1");
    assertThat(
            said(
                panel(2, 1, "\"boards\": [" + board(1, 1, 0, 0) + ", " + board(2, 1, 80, 0) + "]"),
                PLACEMENTS,
                "ref,column,row,dx,dy,drotation\n"
                    + "R1,3,1,0,0,0\n"
                    + "R2,1,2,0,0,0\n"
                    + "R1,0,1,0,0,0\n"
                    + "R1,1.5,1,0,0,0\n"))
        .containsExactly(
            "a.csv, line 2, column column: board 3/1 is outside the panel of 2 x 1 boards; count"
                + " columns from the left and rows from below, from 1",
            "a.csv, line 3, column row: board 1/2 is outside the panel of 2 x 1 boards; count"
                + " columns from the left and rows from below, from 1",
            "a.csv, line 4, column column: '0' is no whole number from 1; count from 1",
            "a.csv, line 5, column column: '1.5' is no whole number from 1; count from 1");
  }

  @Test
  void skippedBoard() throws IOException {
    assertThat(
            said(
                panel(
                    3,
                    1,
                    "\"skip\": [[2, 1]], \"boards\": ["
                        + board(1, 1, 0, 0)
                        + ", "
                        + board(3, 1, 80, 0)
                        + "]"),
                PLACEMENTS,
                "ref,column,row,dx,dy,drotation\nR1,2,1,0.01,0.02,0.1\nR2,1,1,0.03,0.01,0\n"))
        .containsExactly(
            "a.csv, line 2, column row: board 2/1 is skipped in the job; correct column and row, or"
                + " take it out of \"skip\"");
  }

  // ---- the job file ----

  @Test
  void jobKeysAndValues() throws IOException {
    inJob(
        "{\"placments\": \"p.csv\"}",
        "job.json, line 1, column 1: \"placements\" is missing; name the placement file with it",
        "job.json, line 1, column 2: the key \"placments\" is not known here; did you mean"
            + " \"placements\"");
    inJob(
        "{\"placements\": \"p.csv\",\n \"machine\": {\"resoluton\": 0.01}}",
        "job.json, line 2, column 14: the key \"resoluton\" is not known here; did you mean"
            + " \"resolution\"");
    inJob(
        "{\"placements\": \"p.csv\", \"stage\": \"glue\"}",
        "job.json, line 1, column 34: \"stage\" is 'glue', which is not known; use tape, paste or"
            + " reflowed");
    inJob(
        "{\"placements\": \"p.csv\",",
        "job.json, line 1, column 24: the file ends within the JSON; close the open quote, bracket"
            + " or brace; the file may be cut off");
    inJob(
        "{\"placements\": \"p.csv\", \"machine\": {\"resolution\": -0.01}}",
        "job.json, line 1, column 51: \"resolution\" is -0.01, expected a number above 0");
  }
}
