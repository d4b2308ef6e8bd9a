package org.padtrue.history;

/**
 * A correction entered into the machine before the article with which it is logged: an increment,
 * in force for that article and all later ones.
 *
 * @param name name of the series that it moves; "part * x" moves all types
 * @param unit unit of that series
 * @param increment value ADDED to what the machine had
 * @param scope how far it reaches
 * @param sourceHash hash of the sheet it was read from; the same sheet is refused twice on a
 *     machine; empty when there is none
 */
public record LoggedTrim(
    String name, String unit, double increment, Scope scope, String sourceHash) {
  /** How far a trim reaches. */
  public enum Scope {
    /** Only the job of the article: its registration. */
    JOB,
    /** Every job on the machine: axes, types, nozzles. */
    MACHINE
  }

  public LoggedTrim {
    if (!Double.isFinite(increment)) {
      throw new IllegalArgumentException(name + " = " + increment + "; expected a finite value");
    }
  }

  /** Shift and rotation belong to the job's registration, everything else to the machine. */
  public static Scope usualScope(String name) {
    return name.equals("shiftX") || name.equals("shiftY") || name.equals("rotation")
        ? Scope.JOB
        : Scope.MACHINE;
  }

  /** True when it moves a series. */
  boolean moves(String series) {
    int star = name.indexOf(" * ");
    return star < 0
        ? name.equals(series)
        : series.startsWith(name.substring(0, star + 1))
            && series.endsWith(name.substring(star + 2));
  }
}
