package org.padtrue.load.bill;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.padtrue.load.table.Cells;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.table.RowReader;
import org.padtrue.load.table.Table;
import org.padtrue.load.table.TableSpec;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.problem.Problem;

/**
 * A bill of materials: a table with a column of refs and one at least of part, package and value;
 * the last columns of a quantity, and of fitted or not, are heeded.
 *
 * <pre>
 * Designator,Footprint,Quantity,Value
 * "R1, R2-R5",R0603,5,10k
 * </pre>
 */
public final class Bill {
  private static final int SHOWN = 5;

  /** A row of the file as it stands. */
  private record Row(String refs, String quantity, BillLine line) {}

  private final String name;
  private final String refColumn;
  private final List<Row> rows;
  private final List<Problem> problems;
  private final Map<Field, String> columns;

  private Bill(
      String name,
      String refColumn,
      List<Row> rows,
      List<Problem> problems,
      Map<Field, String> columns) {
    this.name = name;
    this.refColumn = refColumn;
    this.rows = rows;
    this.problems = problems;
    this.columns = columns;
  }

  /**
   * Reads a bill.
   *
   * @param columns our names to the file's where they are not recognised
   * @param notFitted true for words that say 'not fitted'
   * @param yes true for words that say yes
   * @param no true for words that say no
   */
  public static Bill read(
      TextFile file,
      Map<Field, String> columns,
      Predicate<String> notFitted,
      Predicate<String> yes,
      Predicate<String> no) {
    Table table = Table.of(file, TableSpec.bill(columns));
    ProblemList problems = new ProblemList(file.name());
    RowReader reader = table.rows(problems);
    Header h = table.header();
    List<Row> rows = new ArrayList<>();
    while (reader.next()) {
      Cells c = reader.cells();
      String refs = c.text(h.column(Field.REF));
      if (refs.isEmpty()) {
        continue;
      }
      boolean out =
          yes.test(text(c, h, Field.NOT_FITTED))
              || no.test(text(c, h, Field.FITTED))
              || notFitted.test(text(c, h, Field.FITTED))
              || notFitted.test(text(c, h, Field.STATUS))
              || notFitted.test(text(c, h, Field.VALUE));
      rows.add(
          new Row(
              refs,
              text(c, h, Field.QUANTITY),
              new BillLine(
                  text(c, h, Field.PART),
                  text(c, h, Field.PACKAGE),
                  text(c, h, Field.VALUE),
                  text(c, h, Field.STATUS),
                  !out,
                  reader.line())));
    }
    Map<Field, String> named = new LinkedHashMap<>();
    for (Field f : new Field[] {Field.REF, Field.PACKAGE, Field.PART, Field.VALUE}) {
      if (h.has(f)) {
        named.put(f, h.name(f));
      }
    }
    return new Bill(file.name(), h.name(Field.REF), rows, problems.all(), named);
  }

  private static String text(Cells c, Header h, Field f) {
    return h.has(f) ? c.text(h.column(f)) : "";
  }

  /** The path as given. */
  public String name() {
    return name;
  }

  /** True when it has a column of packages or of part types. */
  public boolean namesTypes() {
    return columns.containsKey(Field.PACKAGE) || columns.containsKey(Field.PART);
  }

  /**
   * The bill joined to a list.
   *
   * @param lines what it says of a ref, for refs of the list
   * @param unlisted refs of the list that the bill does not name, in order
   * @param notes what a reader should know, one sentence each
   * @param problems what cannot be told
   */
  public record Joined(
      Map<String, BillLine> lines,
      List<String> unlisted,
      List<String> notes,
      List<Problem> problems) {}

  /** Joins the bill to the refs of a placement list. */
  public Joined join(Set<String> listed, String listName) {
    ProblemList found = new ProblemList(name);
    problems.forEach(found::add);
    List<String> notes = new ArrayList<>();
    Map<String, String> byCase = new HashMap<>();
    listed.forEach(r -> byCase.merge(r.toUpperCase(Locale.ROOT), r, (a, b) -> ""));
    Map<String, BillLine> lines = new HashMap<>();
    Set<String> more = new TreeSet<>();
    Set<String> twice = new TreeSet<>();
    Map<String, Integer> doubtful = new LinkedHashMap<>();
    List<String> counts = new ArrayList<>();
    int named = 0;
    for (Row r : rows) {
      RefCell cell = RefCell.of(r.refs, listed);
      cell.doubtful().forEach(d -> doubtful.putIfAbsent(d, r.line.line()));
      named += cell.refs().size();
      count(r, cell, counts);
      for (String ref : cell.refs()) {
        String known = listed.contains(ref) ? ref : byCase.get(ref.toUpperCase(Locale.ROOT));
        if (known == null || known.isEmpty()) {
          more.add(ref);
          continue;
        }
        BillLine before = lines.putIfAbsent(known, r.line);
        if (before != null && !before.sameAs(r.line)) {
          twice.add(known + " (lines " + before.line() + " and " + r.line.line() + ")");
        }
      }
    }
    complain(doubtful, twice, found);
    List<String> unlisted = listed.stream().filter(r -> !lines.containsKey(r)).toList();
    if (lines.isEmpty() && !listed.isEmpty() && doubtful.isEmpty()) {
      found.add(
          named == 0
              ? "the bill names no refs"
              : "none of its " + TextPieces.count(named, "ref") + " is in " + listName,
          "name the bill of this board as \"bom\" in the job");
      return new Joined(lines, List.of(), notes, found.all());
    }
    if (!more.isEmpty()) {
      notes.add(
          name
              + " names "
              + TextPieces.count(more.size(), "ref")
              + " that "
              + listName
              + " does not have ("
              + some(more)
              + ").");
    }
    if (!counts.isEmpty()) {
      notes.add(name + ": the quantity is not the number of refs in " + some(counts) + ".");
    }
    return new Joined(lines, unlisted, notes, found.all());
  }

  private void complain(Map<String, Integer> doubtful, Set<String> twice, ProblemList found) {
    if (!doubtful.isEmpty()) {
      found.add(
          doubtful.values().iterator().next(),
          refColumn,
          TextPieces.list(doubtful.keySet(), SHOWN)
              + (doubtful.size() == 1 ? " is a ref" : " are refs")
              + " of the placement list and may be a range of others too",
          "write the refs of a range one by one");
    }
    if (!twice.isEmpty()) {
      found.add(
          0,
          refColumn,
          "refs have two different entries: " + some(twice),
          "keep the one that is placed");
    }
  }

  private static void count(Row r, RefCell cell, List<String> counts) {
    if (r.quantity.matches("\\d{1,6}")
        && Integer.parseInt(r.quantity) != cell.refs().size()
        && cell.doubtful().isEmpty()) {
      counts.add("line " + r.line.line() + " (" + r.quantity + ", " + cell.refs().size() + ")");
    }
  }

  private static String some(java.util.Collection<String> texts) {
    String shown = String.join(", ", texts.stream().limit(SHOWN).toList());
    return texts.size() > SHOWN ? shown + " and " + (texts.size() - SHOWN) + " more" : shown;
  }
}
