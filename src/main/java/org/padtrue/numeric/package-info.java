/**
 * Numbers that several rooms need and that know nothing of panels.
 *
 * <p>Least squares (QR and normal equations), small dense algebra, order statistics, tails of
 * distributions kept accurate far out, variances that lean on each other, control of false
 * discoveries. Plain doubles and arrays in the unit of the caller. Imports nothing of ours; Commons
 * Math inside, never in a signature.
 */
@NullMarked
package org.padtrue.numeric;

import org.jspecify.annotations.NullMarked;
