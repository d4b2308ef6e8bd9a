package org.padtrue.load.table;

import org.padtrue.quantity.LengthUnit;

/**
 * A unit that a banner or comment line states for the whole file.
 *
 * @param unit the unit
 * @param line the line
 */
public record StatedUnit(LengthUnit unit, int line) {}
