/**
 * What to measure, what to change, and whether the change held.
 *
 * <p>A {@link org.padtrue.trim.MeasuringPlan} says which few placements to measure so that every
 * trim is known well enough; a {@link org.padtrue.trim.GaugeStudy} says whether the measuring is
 * good enough to decide anything, {@link org.padtrue.trim.GaugeForm} is its blank form. Imports
 * quantity, problem and panel, and Commons Math for distributions and optimisers. Millimetres and
 * degrees in public records; radians only as locals.
 */
@NullMarked
package org.padtrue.trim;

import org.jspecify.annotations.NullMarked;
