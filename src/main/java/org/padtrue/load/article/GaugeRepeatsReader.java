package org.padtrue.load.article;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.placement.YesNoWords;
import org.padtrue.load.table.CellReader;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.table.RowReader;
import org.padtrue.load.table.Table;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/** Reads the rows of a gauge study. */
final class GaugeRepeatsReader {
  /** More than any machine is off. */
  private static final double FAR_MM = 5;

  private static final Pattern WITH_BOARD = Pattern.compile("(\\d{1,4})/(\\d{1,4})/(.+)");

  private final Header header;
  private final RowReader rows;
  private final CellReader cells;
  private final @Nullable LoadedJob job;
  private final @Nullable RefIndex refs;
  private final ProblemList problems;
  private final boolean poses;
  private final Map<String, Integer> repeats = new HashMap<>();
  private final Map<String, Pose> first = new HashMap<>();
  private final List<Measured> placed = new ArrayList<>();
  private final Map<String, List<Integer>> unlisted = new LinkedHashMap<>();
  private int notFilledIn;

  GaugeRepeatsReader(Table table, @Nullable LoadedJob job, ProblemList problems) {
    this.header = table.header();
    this.rows = table.rows(problems);
    this.job = job;
    this.problems = problems;
    this.refs = job == null ? null : new RefIndex(job.job());
    this.cells =
        new CellReader(table, rows, null, problems, "leave the cell empty when it is not measured");
    this.poses = !(header.has(Field.DX) && header.has(Field.DY));
  }

  boolean nominalKnown() {
    return !poses || job != null;
  }

  int notFilledIn() {
    return notFilledIn;
  }

  List<GaugeRepeat> read() {
    List<Row> read = new ArrayList<>();
    while (rows.next()) {
      Row r = row();
      if (r != null) {
        read.add(r);
      }
    }
    LoadedJob loaded = job;
    if (loaded != null && refs != null) {
      RefsNotPlaced.tell(
          unlisted,
          " is not among the placements of the job",
          refs,
          problems,
          header.name(Field.REF));
      PoseCheck.check(loaded.job(), placed, problems);
      if (problems.isEmpty()) {
        placed.forEach(this::near);
      }
    }
    boolean panels = read.stream().map(Row::panel).distinct().count() > 1;
    return read.stream().map(r -> reading(r, panels)).toList();
  }

  /** A reading far from its place is a slip, or was given in another frame or unit. */
  private void near(Measured m) {
    double off = Math.hypot(m.dxMm(), m.dyMm());
    if (off > FAR_MM) {
      problems.add(
          m.line(),
          header.name(Field.X),
          String.format(
              Locale.ROOT,
              "%s is read %.1f mm from its nominal place",
              TextPieces.quoted(m.placement().ref()),
              off),
          "give x and y in the panel's own frame, also where the panel was turned");
    }
  }

  /**
   * One row that can be used.
   *
   * @param panel panel, empty when not named
   * @param id the placement on its panel
   * @param operator who read it
   * @param trial which repeat; empty when not said
   * @param value deviation, or pose where nothing says where the placement belongs
   */
  private record Row(
      String panel,
      String id,
      String operator,
      String trial,
      boolean turned,
      Pose value,
      int line) {}

  private @Nullable Row row() {
    cells.begin(false);
    Field fx = poses ? Field.X : Field.DX;
    Field fy = poses ? Field.Y : Field.DY;
    Field fr = poses ? Field.ROTATION : Field.DROTATION;
    if (cells.isEmpty(fx) && cells.isEmpty(fy)) {
      notFilledIn++;
      return null;
    }
    for (Field f : new Field[] {fx, fy}) {
      if (cells.isEmpty(f)) {
        cells.complain(f, "the cell is empty but the other one is not", "give both, or neither");
      }
    }
    String ref = cells.text(Field.REF);
    if (ref.isEmpty()) {
      cells.complain(Field.REF, "the ref is empty", "name or remove the row");
    }
    double x = cells.length(fx);
    double y = cells.length(fy);
    double r = cells.angle(fr);
    boolean turned = turned();
    BoardIndex board = new BoardIndex(cells.index(Field.COLUMN, 1), cells.index(Field.ROW, 1));
    if (cells.failed()) {
      return null;
    }
    Pose value = new Pose(x, y, r);
    String id = header.has(Field.COLUMN) || header.has(Field.ROW) ? board + "/" + ref : ref;
    if (job != null) {
      Found found = find(ref, board);
      if (found == null) {
        return null;
      }
      id = job.job().array().boards().size() > 1 ? found.board + "/" + found.ref() : found.ref();
      if (poses) {
        value = less(value, found.nominal, found.symmetry);
        placed.add(measured(found, value));
      }
    }
    return new Row(
        cells.isEmpty(Field.PANEL) ? "" : cells.text(Field.PANEL),
        id,
        cells.isEmpty(Field.OPERATOR) ? "-" : cells.text(Field.OPERATOR),
        cells.isEmpty(Field.TRIAL) ? "" : cells.text(Field.TRIAL),
        turned,
        value,
        rows.line());
  }

  private Measured measured(Found f, Pose d) {
    return new Measured(
        "",
        f.board,
        f.placement,
        f.nominal,
        d.xMm(),
        d.yMm(),
        d.rotationDeg(),
        Double.NaN,
        Double.NaN,
        Levels.NONE,
        Double.NaN,
        "",
        rows.line());
  }

  private boolean turned() {
    String s = cells.isEmpty(Field.TURNED) ? "" : cells.text(Field.TURNED);
    if (s.isEmpty() || s.equals("0") || YesNoWords.no(s)) {
      return false;
    }
    if (s.equals("180") || YesNoWords.yes(s)) {
      return true;
    }
    cells.complain(
        Field.TURNED,
        TextPieces.quoted(s) + " is neither 0 nor 180",
        "write 180 for a turned panel");
    return false;
  }

  private GaugeRepeat reading(Row r, boolean panels) {
    String id = panels ? r.panel() + "/" + r.id() : r.id();
    Pose d = r.value();
    if (!nominalKnown()) {
      Pose from = first.merge(id, d, GaugeRepeatsReader::known);
      d = less(d, from, 1);
    }
    String trial =
        r.trial().isEmpty()
            ? Integer.toString(repeats.merge(id + "\n" + r.operator(), 1, Integer::sum))
            : r.trial();
    return new GaugeRepeat(
        id,
        r.operator(),
        trial,
        r.turned(),
        d.xMm(),
        d.yMm(),
        Angles.wrap(d.rotationDeg()),
        r.line());
  }

  /** The first reading, with the first rotation that was read. */
  private static Pose known(Pose first, Pose next) {
    return Double.isNaN(first.rotationDeg())
        ? new Pose(first.xMm(), first.yMm(), next.rotationDeg())
        : first;
  }

  private static Pose less(Pose measured, Pose from, int symmetry) {
    return new Pose(
        measured.xMm() - from.xMm(),
        measured.yMm() - from.yMm(),
        Angles.wrap(measured.rotationDeg() - from.rotationDeg(), symmetry));
  }

  /** A placement of the job on a board. */
  private record Found(Placement placement, BoardIndex board, Pose nominal, int symmetry) {
    String ref() {
      return placement.ref();
    }
  }

  private @Nullable Found find(String ref, BoardIndex named) {
    LoadedJob loaded = job;
    RefIndex index = refs;
    if (loaded == null || index == null) {
      return null;
    }
    int p = index.find(ref);
    BoardIndex board = named;
    Matcher m = WITH_BOARD.matcher(ref);
    if (p < 0 && m.matches()) {
      p = index.find(m.group(3));
      board = new BoardIndex(Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2)));
    }
    if (p < 0) {
      unlisted.computeIfAbsent(ref, k -> new ArrayList<>()).add(rows.line());
      return null;
    }
    Optional<Board> b = loaded.job().array().find(board);
    if (b.isEmpty()) {
      problems.add(
          rows.line(),
          header.name(Field.REF),
          "board " + board + " is not on the panel",
          "count columns from the left and rows from below, from 1");
      return null;
    }
    Placement placement = loaded.job().placements().get(p);
    return new Found(
        placement,
        board,
        placement.pose().seenFrom(b.get().origin()),
        loaded.job().partType(placement.part()).symmetry());
  }
}
