package org.padtrue.load.table;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Factor;

/**
 * What a reader wants of a table.
 *
 * @param what what the table is in a sentence, "placement file"
 * @param known the columns that are looked for
 * @param needed alternatives, each a set of columns that make a usable header
 * @param mapping the user's names for columns that are not recognised: name in the file, or its
 *     1-based number
 * @param mappingRequired true when a mapped name that the header lacks is an error
 * @param headerless true when a table without header may be understood by its values
 * @param decimal decimal sign where the file leaves it open; null when not said
 */
public record TableSpec(
    String what,
    Set<Field> known,
    List<Set<Field>> needed,
    Map<Field, String> mapping,
    boolean mappingRequired,
    boolean headerless,
    @Nullable Character decimal) {

  public TableSpec {
    known = Set.copyOf(known);
    needed = List.copyOf(needed);
    mapping = Map.copyOf(mapping);
  }

  /** Nominal positions. */
  public static TableSpec placements(Map<Field, String> mapping, @Nullable Character decimal) {
    return new TableSpec(
        "placement file",
        withLevels(
            Field.REF,
            Field.PART,
            Field.X,
            Field.Y,
            Field.ROTATION,
            Field.SIDE,
            Field.MIRRORED,
            Field.ORDER,
            Field.VALUE,
            Field.PACKAGE,
            Field.FITTED,
            Field.NOT_FITTED,
            Field.STATUS),
        List.of(EnumSet.of(Field.REF, Field.X, Field.Y, Field.ROTATION)),
        mapping,
        true,
        true,
        decimal);
  }

  /** Bill of materials: refs, several in a cell, with part, package or value. */
  public static TableSpec bill(Map<Field, String> mapping) {
    return new TableSpec(
        "bill of materials",
        EnumSet.of(
            Field.REF,
            Field.PART,
            Field.VALUE,
            Field.PACKAGE,
            Field.FITTED,
            Field.NOT_FITTED,
            Field.STATUS,
            Field.QUANTITY),
        List.of(
            EnumSet.of(Field.REF, Field.PACKAGE),
            EnumSet.of(Field.REF, Field.PART),
            EnumSet.of(Field.REF, Field.VALUE)),
        mapping,
        true,
        false,
        '.');
  }

  /** Measured poses or deviations. */
  public static TableSpec article(Map<Field, String> mapping, @Nullable Character decimal) {
    return measured(
        "article",
        withLevels(
            Field.PANEL,
            Field.COLUMN,
            Field.ROW,
            Field.U,
            Field.UROTATION,
            Field.ORDER,
            Field.TIME,
            Field.NOTE,
            Field.STATUS),
        mapping,
        decimal);
  }

  /** Repeated measurements of a gauge study. */
  public static TableSpec repeats() {
    return measured(
        "gauge study",
        EnumSet.of(Field.OPERATOR, Field.TRIAL, Field.TURNED, Field.PANEL, Field.COLUMN, Field.ROW),
        Map.of(),
        null);
  }

  /** Which picture shows which placement. */
  public static TableSpec pictures() {
    return new TableSpec(
        "list of pictures",
        EnumSet.of(Field.FILE, Field.PANEL, Field.COLUMN, Field.ROW, Field.REF, Field.X, Field.Y),
        List.of(EnumSet.of(Field.FILE, Field.REF)),
        Map.of(),
        false,
        false,
        null);
  }

  /** With the columns that list levels. */
  private static EnumSet<Field> withLevels(Field... fields) {
    EnumSet<Field> all = EnumSet.copyOf(List.of(fields));
    Factor.listedOnes().forEach(f -> all.add(Field.of(f)));
    return all;
  }

  private static TableSpec measured(
      String what, EnumSet<Field> more, Map<Field, String> mapping, @Nullable Character decimal) {
    EnumSet<Field> known =
        EnumSet.of(
            Field.REF,
            Field.X,
            Field.Y,
            Field.ROTATION,
            Field.DX,
            Field.DY,
            Field.DROTATION,
            Field.PART,
            Field.SIDE,
            Field.VALUE,
            Field.PACKAGE);
    known.addAll(more);
    return new TableSpec(
        what,
        known,
        List.of(EnumSet.of(Field.REF, Field.X, Field.Y), EnumSet.of(Field.REF, Field.DX, Field.DY)),
        mapping,
        false,
        false,
        decimal);
  }
}
