/**
 * Numbers that several rooms need and that know nothing of panels: variances that lean on each
 * other. Plain doubles and arrays in the unit of the caller. Imports nothing of ours.
 */
@NullMarked
package org.padtrue.numeric;

import org.jspecify.annotations.NullMarked;
