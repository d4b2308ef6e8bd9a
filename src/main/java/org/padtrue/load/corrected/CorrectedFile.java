package org.padtrue.load.corrected;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.placement.Axes;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.load.placement.RowCells;
import org.padtrue.load.table.CellReader;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.NumberReader;
import org.padtrue.load.table.StatedUnit;
import org.padtrue.load.text.TextFile;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;

/**
 * The user's own placement file with corrections added to x, y and rotation of some rows, all else
 * byte for byte: coding, byte order mark, line ends, quotes, banner, unit suffixes, decimal sign.
 *
 * <p>A number keeps its decimals, or gets those of the machine's resolution in the file's unit if
 * these are more; a number whose value does not change keeps its very characters. Corrections are
 * turned into the file's own axes. The new text is read back before it is given out.
 */
public final class CorrectedFile {
  private static final Field[] FIELDS = {Field.X, Field.Y, Field.ROTATION};

  private final PlacementFile file;
  private final Side side;
  private final Machine machine;
  private final CorrectedFileTurns turns;
  private final NumberReader reader = new NumberReader();
  private final List<CorrectedFileEdit> edits = new ArrayList<>();
  private final List<CorrectedFileChange> changes = new ArrayList<>();
  private final Map<Integer, Pose> expected = new LinkedHashMap<>();
  private final boolean[] right = new boolean[FIELDS.length];
  private final @Nullable CorrectedFileBlanks blanks;
  private final int moreDecimals;
  private final String chars;

  private CorrectedFile(LoadedJob job, List<CorrectedFileRow> rows, int moreDecimals) {
    this.file = job.placements();
    this.side = job.job().side();
    this.machine = job.job().machine();
    this.moreDecimals = moreDecimals;
    this.turns = CorrectedFileTurns.of(file.rows());
    this.blanks = file.table().aligned() ? new CorrectedFileBlanks(file.text().chars()) : null;
    for (int f = 0; blanks != null && f < FIELDS.length; f++) {
      int field = f;
      right[f] = blanks.alignedRight(rows.stream().map(r -> span(r.row(), field)).toList());
    }
    rows.forEach(this::correct);
    edits.sort(Comparator.comparingInt(CorrectedFileEdit::start));
    this.chars = CorrectedFileEdit.apply(file.text().chars(), edits);
  }

  /**
   * Corrects a file.
   *
   * @param job the job and its placement file
   * @param rows what to add to which row; each row once
   * @throws InputException when the corrected text would not be understood as it is meant
   */
  public static CorrectedFile of(LoadedJob job, List<CorrectedFileRow> rows) {
    CorrectedFile f = new CorrectedFile(job, rows, 0);
    if (f.unreadable() != null) {
      // three decimals behind a comma may be taken for thousands; four cannot
      f = new CorrectedFile(job, rows, 1);
    }
    String trouble = f.unreadable();
    if (trouble != null) {
      throw new InputException(
          Problem.of(
              job.placements().name(),
              "the corrected numbers do not fit into this file (" + trouble + ")",
              "export it with wider columns, or with a delimiter"));
    }
    return f;
  }

  /** The rows whose numbers changed, in the order given. */
  public List<CorrectedFileChange> changes() {
    return List.copyOf(changes);
  }

  /** The new file. */
  public byte[] bytes() {
    return file.text().encode(chars);
  }

  /**
   * Writes the new file in one step.
   *
   * @param out where to
   * @param inputs files that must not be written over
   */
  public void write(Path out, Collection<Path> inputs) {
    CorrectedFileWriter.write(bytes(), out, inputs);
  }

  /** Refuses a file to write to that is one of the inputs. */
  public static void refuseInput(Path out, Collection<Path> inputs) {
    CorrectedFileWriter.refuseInput(out, inputs);
  }

  private RowCells.Span span(int row, int field) {
    RowCells c = file.cells(row);
    return field == 0 ? c.x() : field == 1 ? c.y() : c.rotation();
  }

  private void correct(CorrectedFileRow row) {
    Axes axes = file.axes();
    double[] add = {
      row.add().xMm() * axes.signX(side),
      row.add().yMm() * axes.signY(),
      row.add().rotationDeg() * axes.signRotation(side)
    };
    PlacementRow r = file.rows().get(row.row());
    double[] now = {r.filePose().xMm(), r.filePose().yMm(), r.filePose().rotationDeg()};
    StringBuilder before = new StringBuilder();
    StringBuilder after = new StringBuilder();
    boolean changed = false;
    for (int f = 0; f < FIELDS.length; f++) {
      RowCells.Span s = span(row.row(), f);
      String old = file.text().chars().substring(s.start(), s.end());
      String text = add[f] == 0 ? old : number(s, f, add[f], now, row.stepMm());
      before.append(f == 0 ? "" : "  ").append(old);
      after.append(f == 0 ? "" : "  ").append(text);
      if (!text.equals(old)) {
        changed = true;
        edit(s, f, text);
      }
    }
    expected.put(row.row(), new Pose(now[0], now[1], now[2]));
    if (changed) {
      changes.add(new CorrectedFileChange(r.line(), r.ref(), before.toString(), after.toString()));
    }
  }

  private void edit(RowCells.Span s, int f, String text) {
    CorrectedFileEdit e = new CorrectedFileEdit(s.start(), s.end(), quoted(s, text));
    edits.add(blanks == null ? e : blanks.fit(e, right[f]));
  }

  /** Quotes for a whole number that gets a decimal comma in a file of commas. */
  private String quoted(RowCells.Span s, String text) {
    boolean quotes =
        text.indexOf(',') >= 0
            && file.table().delimiterWords().equals("comma")
            && (s.start() == 0 || file.text().chars().charAt(s.start() - 1) != '"');
    return quotes ? '"' + text + '"' : text;
  }

  /** The new text of a cell; {@code now} gets the value that it stands for. */
  private String number(RowCells.Span s, int f, double add, double[] now, double stepMm) {
    char decimal = file.table().decimal();
    String all = file.text().chars();
    if (f < 2) {
      reader.length(all, s.start(), s.end(), decimal);
    } else {
      reader.angle(all, s.start(), s.end(), decimal);
    }
    String suffix = all.substring(reader.numberEnd(), s.end());
    CorrectedFileNumber n =
        new CorrectedFileNumber(all.substring(s.start(), reader.numberEnd()), decimal);
    BigDecimal v;
    if (f < 2) {
      LengthUnit own = reader.unit();
      LengthUnit unit = own == null ? unit(FIELDS[f]) : own;
      double step =
          Double.isNaN(stepMm) ? machine.resolutionMm() : Math.min(stepMm, machine.resolutionMm());
      int decimals = CorrectedFileDecimals.of(step, unit) + moreDecimals;
      v = n.plus(add / unit.mm(), decimals);
      now[f] = CellReader.toMm(v.doubleValue(), unit);
    } else {
      v = n.plus(add, CorrectedFileDecimals.of(machine.rotationResolutionDeg()) + moreDecimals);
      v = v.compareTo(n.value()) == 0 ? v : turns.wrap(v);
      now[f] = v.doubleValue();
    }
    return n.write(v) + suffix;
  }

  /** As {@link CellReader} settles it, column by column. */
  private LengthUnit unit(Field f) {
    LengthUnit job = file.textOptions().unit();
    return file.table()
        .header()
        .unit(f)
        .or(() -> file.table().statedUnit().map(StatedUnit::unit))
        .orElse(job == null ? LengthUnit.MM : job);
  }

  /** Why the new text does not read as it should; null when it does. */
  private @Nullable String unreadable() {
    PlacementFile again;
    try {
      again = PlacementFile.of(TextFile.of(file.name(), chars), file.textOptions());
    } catch (InputException e) {
      return e.problems().get(0).found();
    }
    if (!again.problems().isEmpty()) {
      Problem p = again.problems().get(0);
      return "line " + p.line() + ": " + p.found();
    }
    if (again.rows().size() != file.rows().size()) {
      return "rows run together";
    }
    for (int i = 0; i < again.rows().size(); i++) {
      PlacementRow r = again.rows().get(i);
      PlacementRow was = file.rows().get(i);
      Pose p = expected.getOrDefault(i, was.filePose());
      boolean same =
          r.ref().equals(was.ref())
              && r.part().equals(was.part())
              && r.side() == was.side()
              && near(r.filePose().xMm(), p.xMm())
              && near(r.filePose().yMm(), p.yMm())
              && near(r.filePose().rotationDeg(), p.rotationDeg());
      if (!same) {
        return "line " + r.line() + ": cells run together";
      }
    }
    return null;
  }

  private static boolean near(double a, double b) {
    return Double.isNaN(a) && Double.isNaN(b) || Math.abs(a - b) < 1e-9;
  }
}
