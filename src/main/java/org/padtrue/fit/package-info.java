/**
 * Plain fits: least squares, planar transforms, trimmed (high-breakdown) fits, screening of gross
 * errors.
 *
 * <p>Nominal positions are taken as exact, all error is in the measured ones. A shift needs one
 * placement, rigid and similarity two distinct ones, affine three that are not in line. Lengths mm,
 * angles degrees in public records. Imports panel, problem, quantity; Commons Math stays inside.
 * Entry classes: {@link org.padtrue.fit.PlanarFit}, {@link org.padtrue.fit.Screening}.
 */
@NullMarked
package org.padtrue.fit;

import org.jspecify.annotations.NullMarked;
