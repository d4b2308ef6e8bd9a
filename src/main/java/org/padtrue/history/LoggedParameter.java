package org.padtrue.history;

import org.padtrue.panel.term.Term;

/**
 * One estimate of an article, unshrunk. Terms that the article cannot tell are left out, not logged
 * as 0.
 *
 * <p>Value and standard error are in the unit of the series.
 *
 * @param panel panel it belongs to; empty when it is of the article as a whole
 * @param name name of the series: shiftX, scaleXPpm, "part R0603 x"
 * @param unit mm, deg, ppm or mrad
 * @param value finite
 * @param standardError NaN unknown
 */
public record LoggedParameter(
    String panel, String name, String unit, double value, double standardError) {
  public LoggedParameter {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException(name + " = " + value + "; expected a finite value");
    }
  }

  /** An estimate of a term that belongs to no panel of the article. */
  public static LoggedParameter of(Term term, double value, double standardError) {
    return new LoggedParameter("", term.series(), term.unit(), value, standardError);
  }
}
