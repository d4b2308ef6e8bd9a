package org.padtrue.firstarticle.result;

/**
 * The board array's own error, constant within a board; NaN where a single row or column hides it.
 *
 * @param perColumn added for each column right of the first, mm
 * @param perRow added for each row above the first, mm
 * @param perColumnSe standard errors
 * @param perRowSe standard errors
 */
public record ArrayError(Xy perColumn, Xy perRow, Xy perColumnSe, Xy perRowSe) {}
