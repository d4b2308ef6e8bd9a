package org.padtrue.load.article;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.load.table.Table;
import org.padtrue.load.table.TableSpec;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Job;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.AsIs;
import org.padtrue.problem.InputException;
import org.padtrue.problem.WithProblems;
import org.padtrue.quantity.LengthUnit;

/**
 * Reads an article: what was measured on a panel.
 *
 * <p>Format: a table with {@code ref} and either {@code x, y, rotation}, the measured pose, or
 * {@code dx, dy, drotation}, measured minus nominal; both in the panel frame (x right, y up,
 * counter-clockwise, seen from the placed side). Optional: {@code panel} (P1), {@code column, row}
 * (1, 1), {@code u} (standard uncertainty, mm), {@code urotation}, {@code nozzle, feeder, head,
 * order, time, note}. An empty rotation is 'not measured'. Fiducials of the job may appear under
 * their names. With both kinds the positions must be the nominal ones (a measuring plan filled in);
 * the deviations are taken, and a row without them is not measured. A comment {@code # temperature
 * = 27.5} states degrees Celsius; {@code # registered on parts} says that panel shift and rotation
 * cannot be known, {@code # type offset not known: A; B} that the offsets of these part types
 * cannot. Lengths without a unit behind them, in the header or in a banner are mm, whatever the
 * placement file has. A {@code status} (missing, tombstone, skewed, wrong part ...), or such a word
 * in place of a number, marks a placement as wrong: it is counted and not fitted.
 *
 * <pre>
 * # temperature = 24.5
 * ref,dx (um),dy (um),drotation,nozzle
 * R1,12,-8,0.05,N1
 * R2,15,-3,,N2
 * </pre>
 */
public final class ArticleLoader {
  private ArticleLoader() {}

  /**
   * Reads an article, with the unit and column names that the job gives for its files.
   *
   * @return the rows that could be used, and all problems
   * @throws InputException when the file as a whole is no article
   */
  public static WithProblems<Article> load(Path article, LoadedJob job) {
    return load(TextFile.read(article), job);
  }

  /** The same for a text in memory. */
  public static WithProblems<Article> load(TextFile file, LoadedJob job) {
    return load(file, job.job(), job.placements().options(), job.rowsByBoard(), job.asIs());
  }

  private static WithProblems<Article> load(
      TextFile file,
      Job job,
      PlacementOptions options,
      Map<String, PlacementRow> rowsByBoard,
      AsIs asIs) {
    Table table = Table.of(file, TableSpec.article(options.columns(), options.decimal()));
    ArticleQuestions.units(file.name(), table, asIs);
    ProblemList problems = new ProblemList(file.name());
    ArticleRowReader reader = new ArticleRowReader(table, problems);
    List<MeasuredRow> rows = reader.read();
    List<String> notes = new ArrayList<>();
    ArticleMatch match =
        new ArticleMatch(
            job,
            rowsByBoard,
            rows,
            table.header(),
            problems,
            notes,
            file.name(),
            reader.unit(),
            asIs);
    match.run();
    int notMeasured = reader.notMeasured() + match.notMeasured();
    if (notMeasured > 0) {
      notes.add(
          file.name()
              + ": "
              + TextPieces.count(notMeasured, "row")
              + " without a position taken as not measured.");
    }
    if (reader.mended() > 0) {
      notes.add(
          file.name()
              + ": in "
              + TextPieces.count(reader.mended(), "row")
              + " a quote or delimiter within a text was taken as part of the text.");
    }
    LengthUnit jobUnit = options.unit();
    if (reader.unitTaken() && jobUnit != null && jobUnit != LengthUnit.MM) {
      notes.add(
          file.name()
              + " states no unit; mm were taken, since the job's \"units\" is the placement"
              + " file's.");
    }
    if (!reader.unknownWords().isEmpty()) {
      notes.add(
          file.name()
              + ": the status "
              + TextPieces.list(reader.unknownWords(), 5)
              + " is not known and counts for nothing.");
    }
    OptionalDouble temperature = ArticleComments.temperatureC(table.comments());
    Article a =
        new Article(
            baseName(file.name()),
            match.measured(),
            match.fiducials(),
            match.poses(),
            ArticleComments.registeredOnParts(table.comments()),
            temperature,
            notes,
            ArticleComments.relativeTypes(table.comments()),
            ArticleComments.registeredOnLands(table.comments()),
            reader.unit(),
            match.faults());
    return new WithProblems<>(a, problems.all());
  }

  private static String baseName(String path) {
    return String.valueOf(Path.of(path).getFileName());
  }
}
