/**
 * Tables as people hand them in: a header somewhere, a delimiter that must be found, numbers in
 * several spellings.
 *
 * <p>{@link org.padtrue.load.table.Table} finds header, delimiter and units and gives row after row
 * as {@link org.padtrue.load.table.Cells}, spans of the file's characters, so that a cell can be
 * rewritten where it stands. What cannot be told is a problem, never a guess. Lengths leave in
 * millimetres, angles in degrees, both as the file means them (no axis is turned here). Imports
 * quantity, problem and load.text.
 */
@NullMarked
package org.padtrue.load.table;

import org.jspecify.annotations.NullMarked;
