package org.padtrue.report.page;

import java.util.ArrayList;
import java.util.List;

/** A table with a caption and scoped headers; the first cell of a row heads it. */
public final class HtmlTable {
  /** How a column is set. */
  enum Kind {
    TEXT,
    NUMBER
  }

  private record Column(String name, Kind kind) {}

  private record Row(String style, List<String> cells) {}

  private final String caption;
  private final List<Column> columns = new ArrayList<>();
  private final List<Row> rows = new ArrayList<>();

  public HtmlTable(String caption) {
    this.caption = caption;
  }

  public HtmlTable text(String... names) {
    for (String n : names) {
      columns.add(new Column(n, Kind.TEXT));
    }
    return this;
  }

  public HtmlTable numbers(String... names) {
    for (String n : names) {
      columns.add(new Column(n, Kind.NUMBER));
    }
    return this;
  }

  public HtmlTable row(String... cells) {
    return styled("", cells);
  }

  /** A row with a class for its look. */
  HtmlTable styled(String style, String... cells) {
    if (cells.length != columns.size()) {
      throw new IllegalArgumentException(cells.length + " cells for " + columns.size());
    }
    rows.add(new Row(style, List.of(cells)));
    return this;
  }

  boolean isEmpty() {
    return rows.isEmpty();
  }

  /** Writes the table, or nothing when it has no rows. */
  public void into(Html h) {
    if (isEmpty()) {
      return;
    }
    h.open("div", "class", "table").open("table");
    if (!caption.isEmpty()) {
      h.element("caption", caption);
    }
    h.open("thead").open("tr");
    for (Column c : columns) {
      h.element("th", c.name(), "scope", "col", "class", style(c));
    }
    h.close("tr").close("thead").open("tbody");
    for (Row r : rows) {
      h.open("tr", "class", r.style());
      for (int i = 0; i < columns.size(); i++) {
        Column c = columns.get(i);
        if (i == 0) {
          h.element("th", r.cells().get(i), "scope", "row", "class", style(c));
        } else {
          h.element("td", minus(r.cells().get(i), c), "class", style(c));
        }
      }
      h.close("tr");
    }
    h.close("tbody").close("table").close("div");
  }

  private static String style(Column c) {
    return c.kind() == Kind.NUMBER ? "n" : "t";
  }

  /** A real minus sign before numbers; a lone dash stays one. */
  private static String minus(String s, Column c) {
    return c.kind() == Kind.NUMBER && s.length() > 1 ? s.replace('-', '\u2212') : s;
  }
}
