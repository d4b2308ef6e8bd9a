package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.door.Door;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.QuestionException;

/**
 * What the user reads when an article looks like a usual mistake: every sentence whole, exit code
 * 2, nothing written; and that --as-is, or the answer kept in the job, lets it in.
 */
class DoorTest {
  private static final int PER_BOARD = 24;
  private static final String PLAIN = "{\"name\": \"B\", \"placements\": \"p.csv\"}";
  private static final String PANEL =
      "{\"name\": \"B\", \"placements\": \"p.csv\", \"panel\": {\"columns\": 2, \"rows\": 2,"
          + " \"boards\": [{\"column\": 1, \"row\": 1, \"x\": 5, \"y\": 5}, {\"column\": 2,"
          + " \"row\": 1, \"x\": 75, \"y\": 5}, {\"column\": 1, \"row\": 2, \"x\": 5, \"y\":"
          + " 60}]}}";

  @TempDir private Path dir;
  private final List<double[]> placed = new ArrayList<>();
  private final Random random = new Random(8);

  /** One row: ref, column, row, nominal x and y in the panel frame, deviation. */
  private record Row(
      String ref, int column, int row, double x, double y, double dx, double dy, int turn) {}

  @BeforeEach
  void placements() throws IOException {
    StringBuilder csv = new StringBuilder("ref,part,x,y,rotation\n");
    for (int i = 0; i < PER_BOARD; i++) {
      double x = 3 + 58 * random.nextDouble();
      double y = 3 + 40 * random.nextDouble();
      int turn = 90 * (i / 4 % 4);
      placed.add(new double[] {Math.rint(x * 100) / 100, Math.rint(y * 100) / 100, turn});
      csv.append(
          String.format(
              Locale.ROOT,
              "%s,T%d,%.2f,%.2f,%d%n",
              ref(i),
              i % 4,
              placed.get(i)[0],
              placed.get(i)[1],
              turn));
    }
    Files.writeString(dir.resolve("p.csv"), csv);
    job(PLAIN);
  }

  private static String ref(int i) {
    return i == 0 ? "SEP1" : i == 1 ? "1E3" : "R" + i;
  }

  private void job(String text) throws IOException {
    Files.writeString(dir.resolve("job.json"), text);
  }

  /** An honest measurement of one board, or of four. */
  private List<Row> measured(boolean panel) {
    List<Row> rows = new ArrayList<>();
    for (int b = 0; b < (panel ? 4 : 1); b++) {
      double ox = panel ? 5 + 70 * (b % 2) : 0;
      double oy = panel ? 5 + 55 * (b / 2) : 0;
      for (int i = 0; i < PER_BOARD; i++) {
        double x = placed.get(i)[0] + ox;
        double y = placed.get(i)[1] + oy;
        double own = i % 4 == 2 ? 0.15 : 0;
        double t = Math.toRadians(placed.get(i)[2]);
        double dx = 0.06 + own * Math.cos(t) + 0.008 * x / 10 * 0.1 - 0.004 * y / 10 + noise();
        double dy = -0.03 + own * Math.sin(t) + 0.004 * x / 10 + noise();
        rows.add(new Row(ref(i), 1 + b % 2, 1 + b / 2, x, y, round(dx), round(dy), 0));
      }
    }
    return rows;
  }

  private double noise() {
    return 0.015 * random.nextGaussian();
  }

  private static double round(double v) {
    return Math.rint(v * 1000) / 1000;
  }

  private String deviations(String head, List<Row> rows, double factor) {
    StringBuilder b = new StringBuilder(head + "\n");
    boolean named = head.contains("column");
    for (Row r : rows) {
      b.append(r.ref).append(',');
      b.append(named ? r.column + "," + r.row + "," : "");
      b.append(String.format(Locale.ROOT, "%.6f,%.6f%n", r.dx * factor, r.dy * factor));
    }
    return b.toString();
  }

  private static String poses(String head, List<Row> rows, UnaryOperator<double[]> read) {
    StringBuilder b = new StringBuilder(head + "\n");
    boolean named = head.contains("column");
    for (Row r : rows) {
      double[] p = read.apply(new double[] {r.x + r.dx, r.y + r.dy});
      b.append(r.ref).append(',');
      b.append(named ? r.column + "," + r.row + "," : "");
      b.append(String.format(Locale.ROOT, "%.4f,%.4f%n", p[0], p[1]));
    }
    return b.toString();
  }

  private Run analyse(String article, String... more) throws IOException {
    Files.writeString(dir.resolve("a.csv"), article);
    List<Object> args = new ArrayList<>(List.of("analyse", dir.resolve("job.json")));
    args.addAll(List.of(dir.resolve("a.csv"), "--quiet", "--out", dir.resolve("out")));
    args.addAll(List.of(more));
    return Run.of(args.toArray());
  }

  /** Refused with one sentence; and let in by --as-is and by the answer in the job. */
  private void asked(String article, String key, String sentence) throws IOException {
    asked(article, key, sentence, "");
  }

  /** The same, where nothing is known once that was answered and another question follows. */
  private void asked(String article, String key, String sentence, String then) throws IOException {
    Run r = analyse(article);
    assertThat(r.err().replace(dir + "/", "").lines())
        .containsExactly(
            sentence
                + ", or say --as-is if it is really so (\"asIs\": [\""
                + key
                + "\"] in the job keeps that answer)");
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.out()).isEmpty();
    assertThat(dir.resolve("out")).doesNotExist();
    String before = Files.readString(dir.resolve("job.json"));
    job(before.replaceFirst("\\{", "{\"asIs\": [\"" + key + "\"], "));
    assertThat(question(article)).isEqualTo(then);
    job(before);
    assertThat(question(article)).isEqualTo(key);
  }

  /** Key of what is asked; empty when nothing is. */
  private String question(String article) throws IOException {
    Files.writeString(dir.resolve("a.csv"), article);
    LoadedJob job = JobLoader.loadWithFile(dir.resolve("job.json")).orThrow();
    try {
      Article a = ArticleLoader.load(dir.resolve("a.csv"), job).value();
      Door.require(job.job(), List.of(a), job.asIs());
      return "";
    } catch (QuestionException e) {
      return e.question().key();
    }
  }

  private void letIn(String article) throws IOException {
    assertThat(question(article)).isEmpty();
  }

  private void analysed(String article, String... more) throws IOException {
    Run r = analyse(article, more);
    assertThat(r.err()).isEmpty();
    assertThat(r.code()).isZero();
  }

  @Test
  void whatIsHonestPasses() throws IOException {
    letIn(deviations("ref,dx,dy", measured(false), 1));
    letIn(deviations("ref,dx (um),dy (um)", measured(false), 1000));
    letIn(poses("ref,x,y", measured(false), p -> p));
    job(PANEL);
    letIn(deviations("ref,column,row,dx,dy", measured(true), 1));
    letIn(poses("ref,column,row,x,y", measured(true), p -> p));
    letIn(poses("ref,x,y", measured(true), p -> p));
  }

  @Test
  void anotherUnit() throws IOException {
    String um = deviations("ref,dx,dy", measured(false), 1000);
    asked(
        um,
        "unit",
        "a.csv: dx and dy look written in um but were read as mm; state the unit in the header, as"
            + " in \"dx (um)\"");
    asked(
        deviations("ref,dx,dy", measured(false), 1 / 0.0254),
        "unit",
        "a.csv: dx and dy look written in mil but were read as mm; state the unit in the header, as"
            + " in \"dx (mil)\"");
    asked(
        deviations("ref,dx (um),dy (um)", measured(false), 1),
        "unit",
        "a.csv: dx and dy look written in mm but were read as um; correct the unit that the article"
            + " states");
    asked(
        poses("ref,x,y", measured(false), p -> new double[] {p[0] / 25.4, p[1] / 25.4}),
        "unit",
        "a.csv: x and y look written in inch but were read as mm; state the unit in the header, as"
            + " in \"x (inch)\"");
    asked(
        "# units: mm\n" + deviations("ref,dx (um),dy (um)", measured(false), 1000),
        "statedUnits",
        "a.csv: line 1 states the unit mm and the header states um for dx (um); leave only the one"
            + " that holds");
  }

  /** Deviations in inches look like those of a trimmed panel, but rotations have no inches. */
  @Test
  void inchesThatRotationsContradict() throws IOException {
    StringBuilder b = new StringBuilder("ref,dx,dy,drotation\n");
    for (Row r : measured(false)) {
      b.append(
          String.format(
              Locale.ROOT,
              "%s,%.5f,%.5f,%.2f%n",
              r.ref,
              r.dx / 25.4,
              r.dy / 25.4,
              0.1 * random.nextGaussian()));
    }
    asked(
        b.toString(),
        "unit",
        "a.csv: dx and dy look written in inch but were read as mm; state the unit in the header,"
            + " as in \"dx (inch)\"");
    String bare = deviations("ref,dx,dy", measured(false), 1 / 25.4);
    letIn(bare);
    job(PLAIN.replace("{", "{\"measurement\": {\"uncertainty\": 0.005}, "));
    asked(
        bare,
        "unit",
        "a.csv: dx and dy look written in inch but were read as mm; state the unit in the header,"
            + " as in \"dx (inch)\"");
  }

  /** The job's units are the placement file's; an article of mm stays one of mm. */
  @Test
  void theJobsUnitIsNotTheArticles() throws IOException {
    String p = Files.readString(dir.resolve("p.csv"));
    StringBuilder inch = new StringBuilder();
    for (String line : p.split("\n", -1)) {
      String[] c = line.split(",", -1);
      if (c.length == 5 && !c[0].equals("ref")) {
        c[2] = String.format(Locale.ROOT, "%.6f", Double.parseDouble(c[2]) / 25.4);
        c[3] = String.format(Locale.ROOT, "%.6f", Double.parseDouble(c[3]) / 25.4);
      }
      inch.append(String.join(",", c)).append('\n');
    }
    Files.writeString(dir.resolve("p.csv"), inch);
    job(PLAIN.replace("{", "{\"units\": \"inch\", "));
    analysed(deviations("ref,dx,dy", measured(false), 1));
    assertThat(Files.readString(dir.resolve("out/analysis.json")))
        .contains(
            "a.csv states no unit; mm were taken, since the job's \\\"units\\\" is the placement"
                + " file's.");
    // Deviations in inches look like those of a panel that was trimmed.
    assertThat(question(deviations("ref,dx,dy", measured(false), 1 / 25.4))).isEmpty();
    job(
        PANEL
            .replace("\"x\": 75", "\"x\": 2.95")
            .replace("\"x\": 5", "\"x\": 0.2")
            .replace("\"y\": 60", "\"y\": 2.36")
            .replace("\"y\": 5", "\"y\": 0.2")
            .replaceFirst("\\{", "{\"units\": \"inch\",\n"));
    assertThat(analyse(deviations("ref,dx,dy", measured(false), 1)).err().replace(dir + "/", ""))
        .isEqualToIgnoringNewLines(
            "job.json, line 2, column 46: the boards lie on each other in mm and would not in inch;"
                + " \"panel\" is always in mm, and \"units\" is the placement file's; give boards"
                + " and fiducials in mm");
  }

  @Test
  void axesAndPanel() throws IOException {
    asked(
        poses("ref,x,y", measured(false), p -> new double[] {p[1], p[0]}),
        "swappedAxes",
        "a.csv: x and y look swapped; correct the names of the two columns");
    asked(
        deviations("ref,dy,dx", measured(false), 1),
        "swappedAxes",
        "a.csv: dx and dy look swapped, or dx or dy runs the other way, which look alike here; look"
            + " at the two columns and the axes of what was measured");
    asked(
        poses("ref,x,y", measured(false), p -> new double[] {50 - p[1], p[0]}),
        "turned",
        "a.csv: the panel looks measured turned by 90 degrees counter-clockwise against the job's"
            + " panel frame; turn the positions back, or the panel in the job");
    asked(
        poses("ref,x,y", measured(false), p -> new double[] {60 - p[0], 50 - p[1]}),
        "turned",
        "a.csv: the panel looks measured turned by 180 degrees against the job's panel frame; turn"
            + " the positions back, or the panel in the job");
    asked(
        poses("ref,x,y", measured(false), p -> new double[] {60 - p[0], p[1]}),
        "mirrored",
        "a.csv: the panel looks mirrored: x runs the other way; give x as seen from the placed"
            + " side, plus to the right");
    asked(
        poses("ref,x,y", measured(false), p -> new double[] {p[0], 50 - p[1]}),
        "mirrored",
        "a.csv: the panel looks mirrored: y runs the other way; give y plus upwards, seen from the"
            + " placed side");
    asked(
        poses("ref,x,y", measured(false), p -> new double[] {p[0] + 53.49, p[1] - 6}),
        "shift",
        "a.csv: as given everything sits +53.543 mm in x and -6.019 mm in y from nominal, farther"
            + " than the longest part measured (5 mm); give positions from the job's panel origin");
    double c = Math.cos(Math.toRadians(7));
    double s = Math.sin(Math.toRadians(7));
    asked(
        poses(
            "ref,x,y",
            measured(false),
            p -> new double[] {c * p[0] - s * p[1], s * p[0] + c * p[1]}),
        "turned",
        "a.csv: as given the panel is turned by +7.02 degrees, more than any is; look at the axes"
            + " of what was measured");
    asked(
        poses("ref,x,y", measured(false), p -> new double[] {1.02 * p[0], 1.02 * p[1]}),
        "scale",
        "a.csv: as given the panel is stretched by +20096 ppm in x and +20292 ppm in y, more than"
            + " any machine or board; look at scale and unit of what was measured");
  }

  @Test
  void bottomInTheFrameOfTheTop() throws IOException {
    job(
        PLAIN.replaceFirst(
            "\\{", "{\"side\": \"bottom\", \"axes\": {\"bottomX\": \"asSeenFromBottom\"}, "));
    String p = Files.readString(dir.resolve("p.csv"));
    Files.writeString(
        dir.resolve("p.csv"),
        p.replace("ref,part", "side,ref,part").replaceAll("(?m)^(?!side)(?=.)", "bottom,"));
    asked(
        poses("ref,x,y", measured(false), q -> new double[] {-q[0], q[1]}),
        "mirrored",
        "a.csv: the bottom looks measured in the panel frame of the top: x runs the other way; give"
            + " x as seen from the bottom, plus to the right");
  }

  @Test
  void boards() throws IOException {
    job(PANEL);
    UnaryOperator<double[]> same = p -> p;
    List<Row> rows = measured(true);
    asked(
        poses("ref,column,row,x,y", renumbered(rows, 3, 0), same),
        "boardNumbers",
        "a.csv: columns of boards look counted from the right; count columns from the left and rows"
            + " from below, from 1");
    asked(
        poses("ref,column,row,x,y", renumbered(rows, 0, 3), same),
        "boardNumbers",
        "a.csv: rows of boards look counted from above; count columns from the left and rows from"
            + " below, from 1");
    asked(
        poses("ref,column,row,x,y", renumbered(rows, 3, 3), same),
        "boardNumbers",
        "a.csv: boards look numbered from the upper right: columns and rows run the other way;"
            + " count columns from the left and rows from below, from 1");
    asked(
        poses("ref,row,column,x,y", rows, same),
        "boardNumbers",
        "a.csv: column and row of the boards look swapped; count columns from the left and rows"
            + " from below, from 1");
    asked(
        deviations("ref,dx,dy", measured(false), 1),
        "boardsNotNamed",
        "a.csv: deviations do not say on which of the 4 boards they were measured; add the"
            + " columns 'column' and 'row' (with --as-is every row is taken for the first)");
    asked(
        poses("ref,x,y", rows, p -> new double[] {145 - p[0], 115 - p[1]}),
        "turned",
        "a.csv: the panel looks measured turned by 180 degrees against the job's panel frame; turn"
            + " the positions back, or the panel in the job",
        "otherBoard");
    asked(
        poses("ref,x,y", rows, p -> new double[] {p[0] + 400, p[1]}),
        "shift",
        "a.csv: the measured positions lie on the boards only after one shift of all of them, so"
            + " they look measured from another origin; give positions from the job's panel origin,"
            + " or name the boards in columns column and row");
  }

  private static List<Row> renumbered(List<Row> rows, int c, int r) {
    return rows.stream()
        .map(
            m ->
                new Row(
                    m.ref,
                    c == 0 ? m.column : c - m.column,
                    r == 0 ? m.row : r - m.row,
                    m.x,
                    m.y,
                    m.dx,
                    m.dy,
                    0))
        .toList();
  }

  @Test
  void listsAndNotations() throws IOException {
    List<Row> rows = measured(false);
    StringBuilder nominal = new StringBuilder("ref,x,y,rotation\n");
    StringBuilder named = new StringBuilder("ref,dx,dy\n");
    StringBuilder zero = new StringBuilder("ref,dx,dy\n");
    StringBuilder both = new StringBuilder("ref,x,y,dx,dy\n");
    StringBuilder swapped = new StringBuilder("ref,x,y,dx,dy\n");
    for (int i = 0; i < rows.size(); i++) {
      Row r = rows.get(i);
      nominal.append(
          String.format(Locale.ROOT, "%s,%.2f,%.2f,%d%n", r.ref, r.x, r.y, 90 * (i / 4 % 4)));
      named.append(String.format(Locale.ROOT, "%s,%.2f,%.2f%n", r.ref, r.x, r.y));
      zero.append(r.ref).append(",0,0\n");
      both.append(
          String.format(
              Locale.ROOT, "%s,%.3f,%.3f,%.3f,%.3f%n", r.ref, r.x + r.dx, r.y + r.dy, r.dx, r.dy));
      swapped.append(
          String.format(
              Locale.ROOT,
              "%s,%.3f,%.3f,%.3f,%.3f%n",
              r.ref,
              r.x + r.dx,
              r.y + r.dy,
              -r.dx,
              -r.dy));
    }
    asked(
        nominal.toString(),
        "nominalList",
        "a.csv: all 24 poses are the nominal ones, so this looks like the placement list and not"
            + " like something measured; give what was measured");
    asked(
        named.toString(),
        "nominalList",
        "a.csv: dx and dy hold the nominal position in all 24 rows, so this looks like the"
            + " placement list and not like something measured; give measured minus nominal, or"
            + " measured positions under x and y",
        "posesAsDeviations");
    asked(
        zero.toString(),
        "nominalList",
        "a.csv: dx and dy are 0 in all 24 rows, so this looks like a form that was not filled in;"
            + " give what was measured and leave cells empty where nothing was");
    asked(
        poses("ref,dx,dy", rows, p -> p),
        "posesAsDeviations",
        "a.csv: dx and dy look like measured positions, not like deviations; name the columns x and"
            + " y");
    asked(
        deviations("ref,x,y", rows, 1),
        "deviationsAsPoses",
        "a.csv: x and y look like deviations, not like measured positions; name the columns dx and"
            + " dy");
    letIn(both.toString());
    asked(
        swapped.toString(),
        "sign",
        "a.csv: dx and dy look like nominal minus measured: they have the opposite sign of x and y"
            + " minus the nominal position; give measured minus nominal, or leave only the measured"
            + " positions");
  }

  @Test
  void otherBoardsAndSpreadsheets() throws IOException {
    List<Row> rows = measured(false);
    asked(
        deviations("ref,dx,dy", rows, 1).replaceAll("(?m)^R", "Q"),
        "otherBoard",
        "a.csv: 22 of 24 refs ('Q2', 'Q3', 'Q4' and 19 more, first in line 4) are not in the"
            + " placement list, which has 24 placements, so this looks like the article of another"
            + " board, or the list is cut short; give the article of this board, or its job with"
            + " the whole list");
    Random other = new Random(3);
    asked(
        poses(
            "ref,x,y", rows, p -> new double[] {60 * other.nextDouble(), 40 * other.nextDouble()}),
        "otherBoard",
        "a.csv: the measured positions fit this job's placements nowhere, so this looks like the"
            + " article of another board; give the article of this board, or its job");
    String d = deviations("ref,dx,dy", rows, 1);
    asked(
        d.replace("SEP1", "01-Sep").replace("1E3", "1.00E+03"),
        "mangledRefs",
        "a.csv: the ref in line 2, '01-Sep' looks like SEP1 changed by a spreadsheet, and 1 more;"
            + " make the column of refs a text column and export it again");
    asked(
        d.replace("1E3", "1000"),
        "mangledRefs",
        "a.csv: the ref in line 3, '1000' looks like 1E3 changed by a spreadsheet; make the column"
            + " of refs a text column and export it again");
  }

  /** However many rows the refs have that the list lacks, they are one question. */
  @Test
  void placementListThatIsCutShort() throws IOException {
    List<String> lines = Files.readAllLines(dir.resolve("p.csv"));
    job(PANEL);
    List<Row> rows = measured(true);
    String poses = poses("ref,column,row,x,y", rows, p -> p);
    String lies =
        "; the others lie where it says, so the list looks cut short or of another variant of this"
            + " board; give the whole placement list";
    Files.write(dir.resolve("p.csv"), lines.subList(0, 10));
    asked(
        poses,
        "unlistedRefs",
        "a.csv: 15 of 24 refs ('R9', 'R10', 'R11' and 12 more, first in line 11) are not in the"
            + " placement list, which has 9 placements"
            + lies);
    asked(
        poses("ref,x,y", rows, p -> p),
        "unlistedRefs",
        "a.csv: 15 of 24 refs ('R9', 'R10', 'R11' and 12 more, first in line 11) are not in the"
            + " placement list, which has 9 placements"
            + lies);
    asked(
        deviations("ref,column,row,dx,dy", rows, 1),
        "otherBoard",
        "a.csv: 15 of 24 refs ('R9', 'R10', 'R11' and 12 more, first in line 11) are not in the"
            + " placement list, which has 9 placements, so this looks like the article of another"
            + " board, or the list is cut short; give the article of this board, or its job with"
            + " the whole list");
    Files.write(dir.resolve("p.csv"), lines.subList(0, 18));
    asked(
        deviations("ref,column,row,dx,dy", rows, 1),
        "unlistedRefs",
        "a.csv: 7 of 24 refs ('R17', 'R18', 'R19', 'R20', 'R21', 'R22', 'R23', first in line 19)"
            + " are not in the placement list, which has 17 placements, so the list looks cut short"
            + " or of another variant of this board; give the whole placement list, or correct the"
            + " refs");
    Files.write(dir.resolve("p.csv"), lines.subList(0, 24));
    assertThat(analyse(poses).err())
        .isEqualTo(
            dir.resolve("a.csv")
                + ", line 25, column ref: 'R23' is not among the placements, here and in 3 more"
                + " rows; did you mean R13, R2 or R20\n");
  }

  /** Refs that are on the other side, too, are one sentence in all. */
  @Test
  void articleOfTheOtherSide() throws IOException {
    List<String> lines = new ArrayList<>(Files.readAllLines(dir.resolve("p.csv")));
    for (int i = 0; i < lines.size(); i++) {
      lines.set(i, lines.get(i) + (i == 0 ? ",side" : i <= 12 ? ",top" : ",bottom"));
    }
    Files.write(dir.resolve("p.csv"), lines);
    assertThat(analyse(deviations("ref,dx,dy", measured(false), 1)).err())
        .isEqualTo(
            dir.resolve("a.csv")
                + ", line 14, column ref: 12 refs ('R12', 'R13', 'R14' and 9 more) are on the other"
                + " side in the placement file; say \"side\" in the job, or remove the rows\n");
  }

  @Test
  void machineValuesInMicrometres() throws IOException {
    job(PLAIN.replaceFirst("\\{", "{\"machine\": {\"resolution\": 10}, "));
    String d = deviations("ref,dx,dy", measured(false), 1);
    Run r = analyse(d);
    assertThat(r.err())
        .isEqualToIgnoringNewLines(
            "B: \"machine.resolution\" is 10 mm, which looks like 10 um; write it in mm (0.01), or"
                + " say --as-is if it is really so (\"asIs\": [\"machineUnits\"] in the job keeps"
                + " that answer)");
    assertThat(r.code()).isEqualTo(2);
    analysed(d, "--as-is");
  }

  /** Fiducials and board origins are in mm, whatever the unit of the placement list. */
  @Test
  void fiducialsAndBoardsInAnotherUnit() throws IOException {
    double[] at = {2, 2, 62, 42};
    for (String[] unit : new String[][] {{"mil", "0.0254"}, {"um", "0.001"}, {"inch", "25.4"}}) {
      double f = Double.parseDouble(unit[1]);
      job(
          PLAIN.replaceFirst(
              "\\{",
              String.format(
                  Locale.ROOT,
                  "{\"panel\": {\"fiducials\": [{\"name\": \"F1\", \"x\": %.4f, \"y\": %.4f},"
                      + " {\"name\": \"F2\", \"x\": %.4f, \"y\": %.4f}]}, ",
                  at[0] / f,
                  at[1] / f,
                  at[2] / f,
                  at[3] / f)));
      String d = deviations("ref,dx,dy", measured(false), 1);
      Run r = analyse(d);
      assertThat(r.err())
          .matches(
              "B: \"panel.fiducials\" span [0-9.]+ mm where the placements span [0-9.]+ mm, which"
                  + " looks like "
                  + unit[0]
                  + "; write it in mm, or say --as-is if it is really so \\(\"asIs\":"
                  + " \\[\"panelUnits\"\\] in the job keeps that answer\\)\n");
      assertThat(r.code()).isEqualTo(2);
      job(
          Files.readString(dir.resolve("job.json"))
              .replaceFirst("\\{", "{\"asIs\": [\"panelUnits\"], "));
      letIn(d);
    }
    job(PANEL.replace("75", "2.95").replace("60", "2.36"));
    Run r = analyse(deviations("ref,column,row,dx,dy", measured(true), 1));
    assertThat(r.err())
        .matches(
            "B: the origins of boards 1/1 and 2/1 lie 2.05 mm apart, but the placements of one"
                + " board span [0-9.]+ x [0-9.]+ mm, so \"panel.boards\" looks written in another"
                + " unit; write it in mm, or say --as-is if it is really so \\(\"asIs\":"
                + " \\[\"panelUnits\"\\] in the job keeps that answer\\)\n");
    assertThat(r.code()).isEqualTo(2);
  }

  /** The log takes no nonsense, and no second article either. */
  @Test
  void recordAndCheckAskTheSame() throws IOException {
    String good = deviations("ref,dx,dy", measured(false), 1);
    String um = deviations("ref,dx,dy", measured(false), 1000);
    Files.writeString(dir.resolve("um.csv"), um);
    Path log = dir.resolve("log.db");
    Object[] record = {
      "record", dir.resolve("job.json"), dir.resolve("um.csv"), "--history", log, "--quiet"
    };
    Run r = Run.of(record);
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).contains("um.csv: dx and dy look written in um but were read as mm;");
    assertThat(log).doesNotExist();
    analysed(good);
    Object[] check = {
      "check",
      dir.resolve("job.json"),
      dir.resolve("out/analysis.json"),
      dir.resolve("um.csv"),
      "--out",
      dir.resolve("checked")
    };
    r = Run.of(check);
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).contains("um.csv: dx and dy look written in um but were read as mm;");
    assertThat(dir.resolve("checked")).doesNotExist();
  }

  @Test
  void answersThatAreNone() throws IOException {
    job(PLAIN.replaceFirst("\\{", "{\"asIs\": [\"turnt\"], "));
    assertThat(analyse(deviations("ref,dx,dy", measured(false), 1)).err().replace(dir + "/", ""))
        .isEqualToIgnoringNewLines(
            "job.json, line 1, column 11: \"asIs\" has 'turnt', which is not known; did you mean"
                + " \"turned\"");
  }

  /** Just beyond what any panel needs: the estimate tells, where a wide prior would give way. */
  @Test
  void justBeyondTheLimits() throws IOException {
    double c = Math.cos(Math.toRadians(6));
    double s = Math.sin(Math.toRadians(6));
    assertThat(
            question(
                poses(
                    "ref,x,y",
                    measured(false),
                    p -> new double[] {c * p[0] - s * p[1], s * p[0] + c * p[1]})))
        .isEqualTo("turned");
    assertThat(
            question(
                poses(
                    "ref,x,y", measured(false), p -> new double[] {1.0045 * p[0], 1.0045 * p[1]})))
        .isEqualTo("scale");
    assertThat(
            question(
                poses("ref,x,y", measured(false), p -> new double[] {1.002 * p[0], 1.002 * p[1]})))
        .isEmpty();
  }

  /** An empty placement list is no other board. */
  @Test
  void anEmptyListIsSaidToBeEmpty() throws IOException {
    Files.writeString(dir.resolve("p.csv"), "ref,part,x,y,rotation\n");
    Run r = analyse(deviations("ref,dx,dy", measured(false), 1));
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).contains("the placement list is empty, so there is nothing to do");
  }
}
