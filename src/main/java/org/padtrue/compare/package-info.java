/**
 * Two placement files of the same board, held against each other by their refs: where the origins
 * lie, which unit, turn or mirror image parts the positions, which convention the rotations, and
 * what is missing or lies elsewhere.
 *
 * <p>Units: mm and degrees along the files' own axes. Imports the records of {@code load} and the
 * transforms of {@code fit}. Entry class: {@link org.padtrue.compare.FileComparison}.
 */
@NullMarked
package org.padtrue.compare;

import org.jspecify.annotations.NullMarked;
