package org.padtrue.load.table;

/** Whether the cells of a row hold what their columns promise: tells a good mend from a bad one. */
final class RowCheck {
  private static final Field[] NUMBERS = {
    Field.X, Field.Y, Field.ROTATION, Field.DX, Field.DY, Field.DROTATION
  };

  private final Header header;
  private final char[] decimals;
  private final NumberReader numbers = new NumberReader();

  /**
   * @param decimals decimal signs that are possible
   */
  RowCheck(Header header, char... decimals) {
    this.header = header;
    this.decimals = decimals.clone();
  }

  /** True when every position and rotation is a number or empty, and some position is there. */
  boolean plausible(Cells c) {
    boolean any = false;
    for (Field f : NUMBERS) {
      int i = header.column(f);
      if (i >= 0 && !c.isEmpty(i)) {
        if (!isNumber(f, c, i)) {
          return false;
        }
        any = true;
      }
    }
    return any && sidePlausible(c) && !c.isEmpty(header.column(Field.REF));
  }

  private boolean sidePlausible(Cells c) {
    int i = header.column(Field.SIDE);
    if (i < 0 || c.isEmpty(i)) {
      return true;
    }
    return c.end(i) - c.start(i) == 1 || SideWord.known(c.text(i));
  }

  boolean isNumber(Field f, Cells c, int i) {
    for (char d : decimals) {
      NumberReader.Result r =
          f.kind() == Field.Kind.ANGLE
              ? numbers.angle(c.chars(), c.start(i), c.end(i), d)
              : numbers.length(c.chars(), c.start(i), c.end(i), d);
      if (r == NumberReader.Result.OK) {
        return true;
      }
    }
    return false;
  }

  boolean isPlainNumber(Cells c, int i) {
    for (char d : decimals) {
      if (numbers.number(c.chars(), c.start(i), c.end(i), d) == NumberReader.Result.OK) {
        return true;
      }
    }
    return false;
  }
}
