/**
 * Reads what the user hands in: job, placements, article, part types.
 *
 * <p>Everything leaves in the canonical frame of {@code panel}: millimetres, degrees, x right, y
 * up, rotation counter-clockwise positive, seen from the side being placed. What a file leaves open
 * is a {@link org.padtrue.problem.Problem} that says how to settle it, never a guess; what was
 * concluded is told in notes and in {@link org.padtrue.load.Understood}. {@code load.table} finds
 * header, delimiter and units, {@code load.json} is strict JSON with places, {@code load.text}
 * knows encodings. Entry classes: {@link org.padtrue.load.JobLoader}, {@link
 * org.padtrue.load.ArticleLoader}, {@link org.padtrue.load.PlacementFile}. Imports quantity,
 * problem and panel.
 */
@NullMarked
package org.padtrue.load;

import org.jspecify.annotations.NullMarked;
