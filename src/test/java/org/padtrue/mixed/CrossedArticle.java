package org.padtrue.mixed;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.ReferenceData;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.DeviationTable;

/** The simulated article of src/test/r/crossed-article.R and the values that lme4 fits to it. */
public final class CrossedArticle {
  private CrossedArticle() {}

  public static DeviationTable table() {
    List<Measured> rows = new ArrayList<>();
    for (String[] c : ReferenceData.rows(CrossedArticle.class, "crossed-article.csv")) {
      Pose nominal =
          new Pose(Double.parseDouble(c[5]), Double.parseDouble(c[6]), Double.parseDouble(c[7]));
      rows.add(
          new Measured(
              "P1",
              new BoardIndex(Integer.parseInt(c[3]), Integer.parseInt(c[4])),
              new Placement(
                  c[0], c[1], nominal, Levels.NONE.with(Factor.NOZZLE, c[2]), Double.NaN, 0),
              nominal,
              Double.parseDouble(c[8]),
              Double.parseDouble(c[9]),
              Double.parseDouble(c[10]),
              Double.NaN,
              Double.NaN,
              Levels.NONE.with(Factor.NOZZLE, c[2]),
              Double.NaN,
              "",
              0));
    }
    return new DeviationTable(rows, Double.NaN, Double.NaN);
  }

  /** Values by "model,family,quantity". */
  static Map<String, Double> values() {
    Map<String, Double> v = new HashMap<>();
    for (String[] c : ReferenceData.rows(CrossedArticle.class, "crossed-values.csv")) {
      v.put(c[0] + "," + c[1] + "," + c[2], Double.parseDouble(c[3]));
    }
    return v;
  }
}
