package org.padtrue.load.table;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.padtrue.panel.Factor;

/**
 * Our names for the columns of placement, article and gauge files, bills, and lists of pictures.
 */
public enum Field {
  REF("ref", Kind.TEXT),
  PART("part", Kind.TEXT),
  X("x", Kind.LENGTH),
  Y("y", Kind.LENGTH),
  ROTATION("rotation", Kind.ANGLE),
  DX("dx", Kind.LENGTH),
  DY("dy", Kind.LENGTH),
  DROTATION("drotation", Kind.ANGLE),
  SIDE("side", Kind.TEXT),
  /** Says of a row whether it is mirrored, that is on the bottom. */
  MIRRORED("mirrored", Kind.TEXT),
  NOZZLE("nozzle", Kind.TEXT),
  FEEDER("feeder", Kind.TEXT),
  HEAD("head", Kind.TEXT),
  LOT("lot", Kind.TEXT),
  ORDER("order", Kind.NUMBER),
  VALUE("value", Kind.TEXT),
  PACKAGE("package", Kind.TEXT),
  /** Says yes where a part is fitted. */
  FITTED("fitted", Kind.TEXT),
  /** Says yes where a part is not fitted. */
  NOT_FITTED("notFitted", Kind.TEXT),
  /** Free words that may say 'not fitted'. */
  STATUS("status", Kind.TEXT),
  PANEL("panel", Kind.TEXT),
  COLUMN("column", Kind.NUMBER),
  ROW("row", Kind.NUMBER),
  U("u", Kind.LENGTH),
  UROTATION("urotation", Kind.ANGLE),
  TIME("time", Kind.TEXT),
  NOTE("note", Kind.TEXT),
  OPERATOR("operator", Kind.TEXT),
  TRIAL("trial", Kind.TEXT),
  /** Says of a reading whether the panel lay turned by 180 degrees. */
  TURNED("turned", Kind.TEXT),
  /** A picture's file. */
  FILE("file", Kind.TEXT),
  /** How many of a part a bill of materials lists. */
  QUANTITY("quantity", Kind.TEXT);

  /** What a column holds. */
  public enum Kind {
    TEXT,
    NUMBER,
    LENGTH,
    ANGLE
  }

  private final String key;
  private final Kind kind;

  Field(String key, Kind kind) {
    this.key = key;
    this.kind = kind;
  }

  /** The name used in job files and messages. */
  public String key() {
    return key;
  }

  /** What the column holds. */
  public Kind kind() {
    return kind;
  }

  /** True for numbers of any kind. */
  public boolean numeric() {
    return kind != Kind.TEXT;
  }

  /** The column that lists the levels of a factor. */
  public static Field of(Factor factor) {
    Field f = Columns.OF.get(factor);
    if (f == null) {
      throw new IllegalArgumentException(factor.key() + " is no column of files");
    }
    return f;
  }

  /** Columns by factor, sought once: every row of a file asks for them. */
  private static final class Columns {
    static final Map<Factor, Field> OF = new EnumMap<>(Factor.class);

    static {
      for (Factor factor : Factor.values()) {
        parse(factor.key()).ifPresent(f -> OF.put(factor, f));
      }
    }
  }

  /** The field with a key. */
  public static Optional<Field> parse(String key) {
    return Arrays.stream(values()).filter(f -> f.key.equals(key)).findFirst();
  }

  /** Keys that a job may map to columns of its files; a list of pictures belongs to none. */
  public static List<String> keys() {
    return Arrays.stream(values()).filter(f -> f != FILE && f != QUANTITY).map(Field::key).toList();
  }
}
