/**
 * Pages on which the loop closes: the trims of an article are entered, one more panel is placed and
 * measured, and it is said which of them held.
 *
 * <p>mm and degrees inside; pages say units, sign and frame at every value. Entry class: {@link
 * org.padtrue.web.check.CheckPages}. Imports check, apply, door, report, web.bench, web.server.
 */
@NullMarked
package org.padtrue.web.check;

import org.jspecify.annotations.NullMarked;
