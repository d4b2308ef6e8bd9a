package org.padtrue.load.table;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.padtrue.quantity.LengthUnit;

/** What the columns of a table mean. */
public final class Header {
  private final int line;
  private final List<String> names;
  private final Map<Field, Integer> columns;
  private final Map<Field, LengthUnit> units;
  // asked for every cell of a million rows: an array, not a map
  private final int[] byField = new int[Field.values().length];

  /**
   * @param line line of the header, 0 when the table has none
   * @param names the columns' names as the file has them
   * @param columns our name to the 0-based column
   * @param units units that the header states
   */
  Header(int line, List<String> names, Map<Field, Integer> columns, Map<Field, LengthUnit> units) {
    this.line = line;
    this.names = List.copyOf(names);
    this.columns = Map.copyOf(columns);
    this.units = Map.copyOf(units);
    Arrays.fill(byField, -1);
    columns.forEach((f, c) -> byField[f.ordinal()] = c);
  }

  /** Line of the header, 0 when the table has none. */
  public int line() {
    return line;
  }

  /** The columns' names as the file has them; their numbers when it has none. */
  public List<String> names() {
    return names;
  }

  /** Our name to the 0-based column. */
  public Map<Field, Integer> columns() {
    return columns;
  }

  /** The 0-based column of a field, -1 when the table has none. */
  public int column(Field f) {
    return byField[f.ordinal()];
  }

  /** True when the table has a column for a field. */
  public boolean has(Field f) {
    return byField[f.ordinal()] >= 0;
  }

  /** Number of columns. */
  public int size() {
    return names.size();
  }

  /** The file's name for a field's column; ours when the table has no header. */
  public String name(Field f) {
    int c = column(f);
    return line == 0 || c < 0 ? f.key() : names.get(c);
  }

  /** The unit that the header states for a length. */
  public Optional<LengthUnit> unit(Field f) {
    return Optional.ofNullable(units.get(f));
  }

  /** The file's names of the columns that are not used. */
  public List<String> unused() {
    return IntStream.range(0, size())
        .filter(i -> !columns.containsValue(i))
        .mapToObj(names::get)
        .filter(n -> !n.isEmpty())
        .toList();
  }

  /** The same header with one column taken for another field. */
  Header moved(Field from, Field to) {
    Map<Field, Integer> c = new EnumMap<>(columns);
    Integer at = c.remove(from);
    if (at != null) {
      c.put(to, at);
    }
    return new Header(line, names, c, units);
  }

  /** The same header with a column for a field. */
  Header with(Field f, int column) {
    Map<Field, Integer> c = new EnumMap<>(Field.class);
    c.putAll(columns);
    c.put(f, column);
    return new Header(line, names, c, units);
  }
}
