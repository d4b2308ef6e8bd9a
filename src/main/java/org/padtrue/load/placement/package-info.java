/**
 * Reads placement files: rows as the file means them, and what was understood.
 *
 * <p>What a file leaves open is a {@link org.padtrue.problem.Problem} that says how to settle it,
 * never a guess; what was concluded is told in {@link org.padtrue.load.placement.Understood}.
 * Lengths leave in mm, angles in degrees, axes as the file has them ({@link
 * org.padtrue.load.placement.Axes} turns them). Entry class: {@link
 * org.padtrue.load.placement.PlacementFile}. Imports load.table, load.standard, load.bill,
 * load.names, panel.
 */
@NullMarked
package org.padtrue.load.placement;

import org.jspecify.annotations.NullMarked;
