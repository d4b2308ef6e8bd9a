package org.padtrue.firstarticle.result;

/**
 * How sure a line of the trim sheet is and what it does.
 *
 * @param standardErrors one standard error of the estimates that the line corrects, in the units of
 *     the line; NaN where it corrects none
 * @param squarenessError the same of a squareness, mrad; NaN for other lines
 * @param takesOutMm root of what the line takes out of the expected mean square deviation of the
 *     next panel, the other lines being entered, mm; a rotation of parts counts at their farthest
 *     edge; NaN where another line already says it
 * @param fewerOutside by how many fewer placements of the next panel are expected outside; NaN
 *     where nothing is judged or another line already says it
 */
public record TrimEffect(
    Xyr standardErrors, double squarenessError, double takesOutMm, double fewerOutside) {
  /** Nothing known. */
  public static final TrimEffect UNKNOWN =
      new TrimEffect(Xyr.UNKNOWN, Double.NaN, Double.NaN, Double.NaN);

  /** The same errors, the effect said by another line. */
  public TrimEffect saidElsewhere() {
    return new TrimEffect(standardErrors, squarenessError, Double.NaN, Double.NaN);
  }
}
