package org.padtrue.load.placement;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.bill.BillOption;
import org.padtrue.load.table.CellReader;
import org.padtrue.load.table.Cells;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.table.RowReader;
import org.padtrue.load.table.Table;
import org.padtrue.load.table.TableSpec;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Reads one placement file. */
final class PlacementReader {
  private static final Field[] PART_SOURCES = {Field.PART, Field.PACKAGE, Field.VALUE};

  /** Stands for a ref that is left blank where no part is. */
  private static final String NO_REF = "(none)";

  private final TextFile file;
  private final PlacementOptions options;
  private final Table table;
  private final Header header;
  private final ProblemList problems;
  private final RowReader rows;
  private final CellReader cells;
  private final FittedReader fitted;
  private final SideReader sides;
  private final List<PlacementRow> read = new ArrayList<>();
  private final Map<Integer, String> openSides = new HashMap<>();
  private final RefCounts refs = new RefCounts();
  private final BitSet blankSides = new BitSet();
  private int[] spans = new int[6 * 64];
  private final List<Field> partSources = new ArrayList<>();

  PlacementReader(TextFile file, PlacementOptions options) {
    this.file = file;
    this.options = options;
    this.table = Table.of(file, TableSpec.placements(options.columns(), options.decimal()));
    this.header = table.header();
    this.problems = new ProblemList(file.name());
    this.rows = table.rows(problems);
    this.cells = new CellReader(table, rows, options.unit(), problems, "write a number");
    this.fitted = new FittedReader(header, cells);
    this.sides = new SideReader(options.sides());
    BillOption bill = options.bill();
    for (Field f : PART_SOURCES) {
      // a package in the bill says more than a value, or a bare name, in the list
      boolean weak = f == Field.VALUE || header.name(f).equalsIgnoreCase("name");
      if (header.has(f) && (bill == null || !weak || !bill.bill().namesTypes())) {
        partSources.add(f);
      }
    }
  }

  PlacementFile read() {
    BillOption bill = options.bill();
    if (partSources.isEmpty() && bill == null && !options.typeless()) {
      throw new InputException(
          Problem.at(
              file.name(),
              header.line(),
              "there is no column for part, package or value, so part types are not known",
              "name the bill of materials that has them as \"bom\" in the job (inspect and parts:"
                  + " --bom FILE), or say which column it is, \"columns\": {\"part\": \"NAME\"}"));
    }
    while (rows.next()) {
      row();
    }
    if (fitted.doubtfulLine() > 0) {
      problems.add(
          fitted.doubtfulLine(),
          header.name(Field.FITTED),
          "the cell is empty where other rows say yes",
          "write yes or no in every row");
    }
    settleSides();
    List<String> notes = new ArrayList<>();
    if (bill != null) {
      Bills.join(bill, read, Parked.find(read, Drawings.find(read)), file.name(), notes, problems);
    }
    Drawings drawings = Drawings.find(read);
    Parked parked = Parked.find(read, drawings);
    UnitCheck unit = UnitCheck.of(file.name(), header.line(), read, cells, table);
    problems.addAll(unit.problems());
    Understood u =
        new UnderstoodReport(table, options, partSources, unit, rows.mended())
            .of(read, drawings, parked, refs, notes);
    return new PlacementFile(
        table,
        options,
        unit.bareUnit(),
        read,
        Arrays.copyOf(spans, 6 * read.size()),
        u,
        problems.allAtOnce(),
        refs.repeated(),
        null,
        drawings,
        parked);
  }

  private void row() {
    cells.begin(false);
    boolean isFitted = fitted.fitted(rows.line());
    boolean failedBefore = cells.failed();
    cells.begin(!isFitted);
    String ref = cells.rareText(Field.REF);
    double x = needed(Field.X);
    double y = needed(Field.Y);
    double rotation = needed(Field.ROTATION);
    double order = cells.number(Field.ORDER);
    boolean failed = failedBefore || (isFitted && cells.failed());
    cells.begin(false);
    String part = part();
    if (ref.isEmpty() && (part.isEmpty() || Drawings.is("", part))) {
      ref = NO_REF;
    }
    if (ref.isEmpty()) {
      cells.complain(Field.REF, "the ref is empty", "name or remove the row");
    }
    boolean typed = !partSources.isEmpty() && options.bill() == null;
    if (part.isEmpty() && typed && !Drawings.is(ref, part)) {
      cells.complain(partSources.get(0), "the part type is empty", "name it");
    }
    if (!failed && !cells.failed()) {
      keep(ref, part, new Pose(x, y, rotation), isFitted, order);
    }
  }

  private double needed(Field f) {
    double v = f == Field.ROTATION ? cells.angle(f) : cells.length(f);
    if (Double.isNaN(v) && cells.isEmpty(f)) {
      cells.complain(f, "the cell is empty", "write a number");
    }
    return v;
  }

  private String part() {
    for (Field f : partSources) {
      if (!cells.isEmpty(f)) {
        return cells.text(f);
      }
    }
    return "";
  }

  private void keep(String ref, String part, Pose pose, boolean isFitted, double order) {
    int at = 6 * read.size();
    if (at + 6 > spans.length) {
      spans = Arrays.copyOf(spans, 2 * spans.length);
    }
    Cells c = rows.cells();
    for (Field f : new Field[] {Field.X, Field.Y, Field.ROTATION}) {
      int column = header.column(f);
      boolean there = column < c.count();
      spans[at++] = there ? c.start(column) : 0;
      spans[at++] = there ? c.end(column) : 0;
    }
    if (isFitted) {
      refs.add(ref);
    }
    read.add(
        new PlacementRow(
            ref,
            part,
            side(),
            pose,
            isFitted,
            Levels.read(f -> cells.textOrNull(Field.of(f))),
            order,
            rows.line()));
  }

  /** The row's side, or null while it is not known. */
  private @Nullable Side side() {
    if (!header.has(Field.SIDE)) {
      return header.has(Field.MIRRORED) ? mirrored() : null;
    }
    if (cells.isEmpty(Field.SIDE)) {
      blankSides.set(read.size());
      return null;
    }
    String word = cells.text(Field.SIDE);
    Side side = sides.see(word);
    if (side == null) {
      openSides.put(read.size(), word);
    }
    return side;
  }

  private @Nullable Side mirrored() {
    String s = cells.text(Field.MIRRORED);
    if (!s.isEmpty() && !YesNoWords.yes(s) && !YesNoWords.no(s)) {
      cells.complain(
          Field.MIRRORED, TextPieces.quoted(s) + " says neither yes nor no", "write yes or no");
    }
    return YesNoWords.yes(s) ? Side.BOTTOM : Side.TOP;
  }

  /** Gives rows their sides where these were not known from their own word. */
  private void settleSides() {
    Map<String, Side> meanings = sides.meanings();
    sideProblem(meanings);
    openSides.forEach((i, word) -> setSide(i, meanings.get(word)));
    if (meanings.isEmpty()) {
      Side banner = SideReader.banner(table.comments());
      for (int i = 0; i < read.size() && banner != null; i++) {
        setSide(i, banner);
      }
      return;
    }
    blankSides.stream()
        .forEach(
            i ->
                problems.add(
                    read.get(i).line(),
                    header.name(Field.SIDE),
                    "the side is empty",
                    "write top or bottom"));
  }

  private void setSide(int row, @Nullable Side side) {
    if (side != null && read.get(row).side() == null) {
      read.set(row, withSide(read.get(row), side));
    }
  }

  private void sideProblem(Map<String, Side> meanings) {
    sides
        .problem(file.name(), header.line(), header.name(Field.SIDE), meanings.keySet())
        .ifPresent(problems::add);
  }

  private static PlacementRow withSide(PlacementRow r, Side side) {
    return new PlacementRow(
        r.ref(), r.part(), side, r.filePose(), r.fitted(), r.levels(), r.order(), r.line());
  }
}
