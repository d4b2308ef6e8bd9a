/**
 * Bills of materials: which part type, package and value stand under which refs.
 *
 * <p>{@link org.padtrue.load.bill.Bill} is read from a table and joined to the refs of a placement
 * list; {@link org.padtrue.load.bill.RefCell} takes cells such as {@code R1, R2-R5} apart. What
 * could be read in two ways is a problem, never a guess. Imports problem, {@code load.table} and
 * {@code load.text}.
 */
@NullMarked
package org.padtrue.load.bill;

import org.jspecify.annotations.NullMarked;
