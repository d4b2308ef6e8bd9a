/**
 * Which placements to measure, chosen on a page; the blank form to print; an article begun from it.
 *
 * <p>mm and degrees. Entry class: {@link org.padtrue.web.plan.PlanPages}. Imports plan, log,
 * report, web.bench, web.server.
 */
@NullMarked
package org.padtrue.web.plan;

import org.jspecify.annotations.NullMarked;
