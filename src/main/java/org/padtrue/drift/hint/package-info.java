/**
 * Likely causes by name, materials' expansion, and how sentences about series spell names and
 * numbers.
 *
 * <p>Units as each says: micrometres and degrees in sentences. Imports panel and drift.series.
 */
@NullMarked
package org.padtrue.drift.hint;

import org.jspecify.annotations.NullMarked;
