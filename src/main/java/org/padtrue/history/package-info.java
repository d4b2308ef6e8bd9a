/**
 * The append-only log of first articles: an embedded SQLite file by default, PostgreSQL by URL, one
 * schema kept by Flyway migrations, SQL here and nowhere else.
 *
 * <p>Nothing is changed or deleted (triggers refuse it); a correction is a new row that points at
 * the old one. {@link org.padtrue.history.ArticleLog#record} returns only after the commit is on
 * disk. Trims are increments that add up; a series gives {@code state = value - sum of trims in
 * force}. Trouble with the store is one sentence in an {@link org.padtrue.problem.InputException}.
 *
 * <p>mm, degrees, ppm, mrad, degrees Celsius; times are instants, stored as UTC text; NaN is
 * unknown and stored as NULL. Imports problem only. Entry class: {@link
 * org.padtrue.history.ArticleLog}.
 */
@NullMarked
package org.padtrue.history;

import org.jspecify.annotations.NullMarked;
