package org.padtrue.load.article;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.table.Table;
import org.padtrue.load.table.TableSpec;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.problem.InputException;
import org.padtrue.problem.WithProblems;

/**
 * Repeated readings of a gauge study.
 *
 * <p>Format: a table with {@code ref} and either {@code dx, dy, drotation}, measured minus nominal,
 * or {@code x, y, rotation}, the measured pose; optional {@code operator}, {@code trial}, {@code
 * turned} (0 or 180, yes or no), {@code column, row, panel}. Delimiters, decimal sign, units and
 * header spellings as in an article. A row without numbers has not been filled in and is passed
 * over.
 *
 * <pre>
 * ref;operator;trial;turned;dx (um);dy (um);drotation
 * R1;Ann;1;0;12,5;-8;0,05
 * R1;Ann;2;180;14;-9,5;
 * </pre>
 *
 * @param file the file's name
 * @param readings in file order
 * @param nominalKnown false when poses were given and no job says where the placements belong: then
 *     the readings are relative to the first of each placement, and say nothing about how
 *     placements differ
 * @param notFilledIn rows without numbers
 */
public record GaugeRepeats(
    String file, List<GaugeRepeat> readings, boolean nominalKnown, int notFilledIn) {
  public GaugeRepeats {
    readings = List.copyOf(readings);
  }

  /**
   * Reads a study.
   *
   * @param path the file
   * @param job the job whose placements were read, or null
   * @return the rows that could be used, and all problems
   * @throws InputException when the file as a whole is no gauge study
   */
  public static WithProblems<GaugeRepeats> load(Path path, @Nullable LoadedJob job) {
    return of(TextFile.read(path), job);
  }

  /** The same for a text in memory. */
  public static WithProblems<GaugeRepeats> of(TextFile file, @Nullable LoadedJob job) {
    Table table = Table.of(file, TableSpec.repeats());
    ProblemList problems = new ProblemList(file.name());
    GaugeRepeatsReader r = new GaugeRepeatsReader(table, job, problems);
    List<GaugeRepeat> readings = r.read();
    return new WithProblems<>(
        new GaugeRepeats(file.name(), readings, r.nominalKnown(), r.notFilledIn()), problems.all());
  }
}
