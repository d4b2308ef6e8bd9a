/**
 * Reads Gerber X3 component layers: one side of a board, parts as flashes with attributes.
 *
 * <p>Entry class: {@link org.padtrue.load.gerber.GerberReader}. Imports {@code load.standard},
 * {@code load.text} and below.
 */
@NullMarked
package org.padtrue.load.gerber;

import org.jspecify.annotations.NullMarked;
