/**
 * Sentences and consoles: what a person reads, with a unit at every number, sign and frame at every
 * value.
 *
 * <p>Micrometres, degrees, ppm, mrad as people read them. One place for each sentence, so that
 * console, page and record say the same. Imports results of the rooms.
 */
@NullMarked
package org.padtrue.report.words;

import org.jspecify.annotations.NullMarked;
