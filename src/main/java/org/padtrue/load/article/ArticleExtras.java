package org.padtrue.load.article;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.load.table.CellReader;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.RowReader;
import org.padtrue.load.table.Table;
import org.padtrue.load.table.TableSpec;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;

/**
 * What an article file says that no analysis asks for, for whoever writes the file anew.
 *
 * @param comments its comment lines, without their marks
 * @param times text of the time column by 1-based line
 */
public record ArticleExtras(List<String> comments, Map<Integer, String> times) {
  public ArticleExtras {
    comments = List.copyOf(comments);
    times = Map.copyOf(times);
  }

  /** Reads them from a file that is known to be an article of the job. */
  public static ArticleExtras read(TextFile file, LoadedJob job) {
    PlacementOptions o = job.placements().options();
    Table table = Table.of(file, TableSpec.article(o.columns(), o.decimal()));
    Map<Integer, String> times = new HashMap<>();
    if (table.header().has(Field.TIME)) {
      ProblemList problems = new ProblemList(file.name());
      RowReader rows = table.rows(problems);
      CellReader cells = new CellReader(table, rows, null, problems, "");
      while (rows.next()) {
        cells.begin(true);
        if (!cells.isEmpty(Field.TIME)) {
          times.put(rows.line(), cells.rareText(Field.TIME));
        }
      }
    }
    return new ArticleExtras(table.comments(), times);
  }
}
