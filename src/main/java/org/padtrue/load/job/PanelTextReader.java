package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.json.Bound;
import org.padtrue.load.json.JsonFields;
import org.padtrue.load.json.JsonValue;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.BoardIndex;

/** Reads the job's {@code panel}; its coordinates are in mm. */
final class PanelTextReader {
  private static final int MOST = 1000;

  private final JsonFields panel;
  private final ProblemList problems;
  private final int before;
  private final int columns;
  private final int rows;

  private PanelTextReader(JsonFields panel, ProblemList problems) {
    this.panel = panel;
    this.problems = problems;
    this.before = problems.size();
    this.columns = panel.whole("columns", 1, 1, MOST);
    this.rows = panel.whole("rows", 1, 1, MOST);
  }

  static JobText.@Nullable PanelText read(JsonFields job, ProblemList problems) {
    JsonFields panel =
        job.object("panel", List.of("columns", "rows", "boards", "skip", "fiducials")).orElse(null);
    return panel == null ? null : new PanelTextReader(panel, problems).read();
  }

  private JobText.PanelText read() {
    List<ListedBoard> listed = boards();
    Set<BoardIndex> skip = skipped(listed);
    boolean usable = problems.size() == before;
    return new JobText.PanelText(
        columns,
        rows,
        panel.get("columns") != null || panel.get("rows") != null,
        listed,
        skip,
        fiducials(),
        usable,
        panel.value().line(),
        panel.value().column());
  }

  private List<ListedBoard> boards() {
    List<ListedBoard> all = new ArrayList<>();
    Set<BoardIndex> seen = new HashSet<>();
    for (JsonFields b : panel.objects("boards", List.of("column", "row", "x", "y", "turned"))) {
      BoardIndex i = new BoardIndex(b.whole("column", 1, 1, MOST), b.whole("row", 1, 1, MOST));
      double x = b.needed("x", Bound.ANY);
      double y = b.needed("y", Bound.ANY);
      double turned = b.number("turned", 0);
      if (turned != 0 && Math.abs(turned) != 180) {
        b.complain(b.value(), "board " + i + " is turned by " + turned, "use 0 or 180");
      }
      if (!inside(i)) {
        outside(b.value(), i);
      } else if (!seen.add(i)) {
        b.complain(b.value(), "board " + i + " is listed twice", "leave one of the two");
      } else if (!Double.isNaN(x + y)) {
        all.add(new ListedBoard(i, x, y, turned != 0, b.value()));
      }
    }
    return all;
  }

  private boolean inside(BoardIndex i) {
    return i.column() <= columns && i.row() <= rows;
  }

  private void outside(JsonValue at, BoardIndex i) {
    panel.complain(
        at,
        "board " + i + " is outside the panel of " + columns + " x " + rows + " boards",
        "count columns from the left and rows from below, from 1");
  }

  private Set<BoardIndex> skipped(List<ListedBoard> listed) {
    Set<BoardIndex> skip = new HashSet<>();
    for (JsonValue v : panel.list("skip")) {
      BoardIndex i = index(v);
      if (i == null) {
        continue;
      }
      if (!inside(i)) {
        outside(v, i);
      } else if (!skip.add(i)) {
        panel.complain(v, "board " + i + " is skipped twice", "leave one of the two");
      } else if (listed.stream().anyMatch(b -> b.index().equals(i))) {
        panel.complain(
            v,
            "board " + i + " is skipped and listed with coordinates",
            "leave it out of one of the two");
      }
    }
    if (!skip.isEmpty() && skip.size() == columns * rows) {
      panel.complain(panel.value(), "every board is skipped", "leave one at least");
    }
    return skip;
  }

  private @Nullable BoardIndex index(JsonValue v) {
    boolean pair =
        v.kind() == JsonValue.Kind.ARRAY
            && v.items().size() == 2
            && v.items().stream()
                .allMatch(
                    n -> n.kind() == JsonValue.Kind.NUMBER && n.text().matches("[1-9]\\d{0,5}"));
    if (!pair) {
      panel.complain(
          v, "\"skip\" has " + v.shown() + ", expected [column, row]", "count both from 1");
      return null;
    }
    return new BoardIndex(
        Integer.parseInt(v.items().get(0).text()), Integer.parseInt(v.items().get(1).text()));
  }

  private List<JobText.FiducialText> fiducials() {
    Map<String, JobText.FiducialText> all = new LinkedHashMap<>();
    for (JsonFields f :
        panel.objects("fiducials", List.of("name", "x", "y", "diameter", "scope", "axes"))) {
      String name = f.text("name").map(String::trim).orElse("");
      // without both the placement file says where it is
      boolean placed = f.get("x") != null || f.get("y") != null;
      double x = placed ? f.needed("x", Bound.ANY) : Double.NaN;
      double y = placed ? f.needed("y", Bound.ANY) : Double.NaN;
      double d = f.number("diameter", Double.NaN, Bound.POSITIVE);
      boolean board = f.word("scope", false, JobText.words("panel", false, "board", true));
      boolean fileAxes = f.word("axes", false, JobText.words("panel", false, "file", true));
      JobText.FiducialText t =
          new JobText.FiducialText(
              name,
              x,
              y,
              d,
              f.get("scope") == null ? null : board,
              fileAxes,
              f.value().line(),
              f.value().column());
      if (name.isEmpty()) {
        f.complain(f.value(), "the fiducial has no \"name\"", "name it");
      } else if (all.putIfAbsent(name, t) != null) {
        f.complain(
            f.value(), "the fiducial " + TextPieces.quoted(name) + " is there twice", "keep one");
      }
    }
    return List.copyOf(all.values());
  }
}
