/**
 * Decisions: which terms to change, by how much, and which placements to measure.
 *
 * <p>Tests by families of terms with Benjamini-Hochberg control, dead bands, rounding to what the
 * machine accepts, measuring plans, gauge studies. Lengths mm, angles degrees. Imports panel,
 * problem, quantity; Commons Math stays inside. Entry classes: {@link
 * org.padtrue.trim.BenjaminiHochberg}, {@link org.padtrue.trim.DeadBand}.
 */
@NullMarked
package org.padtrue.trim;

import org.jspecify.annotations.NullMarked;
