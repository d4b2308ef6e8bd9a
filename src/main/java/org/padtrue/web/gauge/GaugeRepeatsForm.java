package org.padtrue.web.gauge;

import java.util.ArrayList;
import java.util.List;

/** The lines of a blank form as rows. */
record GaugeRepeatsForm(List<String> lines) {
  /** Nothing read yet; comments and header are passed over. */
  List<GaugeRow> rows() {
    List<GaugeRow> rows = new ArrayList<>();
    boolean header = false;
    for (String line : lines) {
      if (line.startsWith("#")) {
        continue;
      }
      if (!header) {
        header = true;
        continue;
      }
      List<String> c = GaugeFolder.cells(line);
      rows.add(
          new GaugeRow(
              Integer.parseInt(c.get(0)),
              c.get(1),
              c.get(2),
              Integer.parseInt(c.get(3)),
              Integer.parseInt(c.get(4)),
              Double.NaN,
              Double.NaN,
              Double.NaN));
    }
    return rows;
  }
}
