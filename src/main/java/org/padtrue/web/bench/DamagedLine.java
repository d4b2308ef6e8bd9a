package org.padtrue.web.bench;

/**
 * A line of a journal that cannot be read.
 *
 * @param line its 1-based number in the file
 * @param placement panel/column/row/ref as far as it can be read, else empty
 * @param after number of the last entry before it that can be read
 */
record DamagedLine(long line, String placement, long after) {}
