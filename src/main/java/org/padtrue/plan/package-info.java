/**
 * Which few placements to measure so that every trim is known well enough, in which order, and what
 * will stay undecided.
 *
 * <p>Entry class: {@link org.padtrue.plan.MeasuringPlan}. mm and degrees in public records; radians
 * only as locals. Imports plan.model, numeric, panel, problem, quantity.
 */
@NullMarked
package org.padtrue.plan;

import org.jspecify.annotations.NullMarked;
