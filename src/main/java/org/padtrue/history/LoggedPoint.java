package org.padtrue.history;

import java.time.Instant;

/**
 * One article's point of a series.
 *
 * <p>Value, standard error, state and trims are in the unit of the series.
 *
 * @param at when it was measured
 * @param articleId number in the log
 * @param panel panel, empty for the article as a whole
 * @param value observed
 * @param standardError NaN unknown
 * @param state value minus the trims in force
 * @param trims in force: the sum of the increments as they were typed, exact to the last decimal
 * @param conditions under what
 */
public record LoggedPoint(
    Instant at,
    long articleId,
    String panel,
    double value,
    double standardError,
    double state,
    double trims,
    Conditions conditions) {}
