package org.padtrue.drift;

/**
 * Spread of a series from article to article beyond the standard errors: for shift and rotation
 * that is how well the machine registers panels.
 *
 * <p>Spreads are in the unit of the series.
 *
 * @param series name
 * @param unit its unit
 * @param sd standard deviation
 * @param low lower end of the 95 % interval
 * @param high upper end
 * @param points articles it comes from
 * @param method one clause: how, and what was taken off before
 */
public record ExcessSpread(
    String series, String unit, double sd, double low, double high, int points, String method) {}
