/**
 * The linear model that a plan is made for: candidates, unknowns, trims, and what cannot be told
 * apart.
 *
 * <p>Position in mm, angles in degrees; rotation terms as what they do half a diagonal from the
 * centroid. Imports numeric, panel, quantity.
 */
@NullMarked
package org.padtrue.plan.model;

import org.jspecify.annotations.NullMarked;
