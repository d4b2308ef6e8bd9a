/**
 * Two placement files of the same board, held against each other by their refs: where the origins
 * lie, which unit, turn or mirror image parts the positions, which convention the rotations, and
 * what is missing or lies elsewhere. Imports the records of {@code load} and the transforms of
 * {@code fit}. Units: mm and degrees along the files' own axes. Entry: {@link
 * org.padtrue.analysis.compare.FileComparison}.
 */
@NullMarked
package org.padtrue.analysis.compare;

import org.jspecify.annotations.NullMarked;
