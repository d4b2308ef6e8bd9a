package org.padtrue.load.article;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.padtrue.load.table.CellReader;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Table;
import org.padtrue.load.table.TableSpec;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.WithProblems;

/**
 * Which picture shows which placement: a table with {@code file, ref}, optional {@code panel,
 * column, row}, and {@code x, y}, where the camera stood over the panel if not over the nominal
 * position. Files are looked for beside the list.
 *
 * <pre>
 * file,panel,column,row,ref
 * shots/0001.png,P1,1,1,R7
 * </pre>
 */
public final class PictureList {
  /**
   * One picture.
   *
   * @param file where it is
   * @param panel panel, P1 where not said
   * @param column board column, 1 where not said
   * @param row board row
   * @param ref reference designator
   * @param xMm camera over the panel, mm; NaN over the nominal position
   * @param yMm likewise
   */
  public record Entry(
      Path file, String panel, int column, int row, String ref, double xMm, double yMm) {}

  private PictureList() {}

  /**
   * Reads a list.
   *
   * @throws InputException when the file as a whole is no such list
   */
  public static WithProblems<List<Entry>> load(Path path) {
    Table table = Table.of(TextFile.read(path), TableSpec.pictures());
    ProblemList problems = new ProblemList(path.toString());
    var rows = table.rows(problems);
    CellReader cells = new CellReader(table, rows, null, problems, "leave the cell empty");
    List<Entry> out = new ArrayList<>();
    while (rows.next()) {
      cells.begin(false);
      String file = cells.text(Field.FILE);
      String ref = cells.text(Field.REF);
      if (file.isEmpty()) {
        cells.complain(Field.FILE, "the cell is empty", "name the picture or remove the row");
      }
      if (ref.isEmpty()) {
        cells.complain(Field.REF, "the ref is empty", "name or remove the row");
      }
      int column = cells.index(Field.COLUMN, 1);
      int row = cells.index(Field.ROW, 1);
      double x = table.header().has(Field.X) ? cells.length(Field.X) : Double.NaN;
      double y = table.header().has(Field.Y) ? cells.length(Field.Y) : Double.NaN;
      if (!cells.failed() && Double.isNaN(x) != Double.isNaN(y)) {
        Field alone = Double.isNaN(x) ? Field.Y : Field.X;
        cells.complain(alone, "one coordinate says no place", "give both x and y, or neither");
      }
      if (!cells.failed()) {
        String panel = cells.isEmpty(Field.PANEL) ? "P1" : cells.text(Field.PANEL);
        out.add(new Entry(path.resolveSibling(file), panel, column, row, ref, x, y));
      }
    }
    if (out.isEmpty() && problems.all().isEmpty()) {
      throw new InputException(
          Problem.of(path.toString(), "the list names no picture", "give one row per picture"));
    }
    return new WithProblems<>(out, problems.all());
  }
}
