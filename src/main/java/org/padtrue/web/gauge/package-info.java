/**
 * A gauge study typed at the bench: appraisers, placements and trials in the random order of the
 * form, session by session, and its verdict; the blank form to print.
 *
 * <p>mm and degrees inside. Entry class: {@link org.padtrue.web.gauge.GaugePages}. Imports gauge,
 * load, report, web.bench, web.server.
 */
@NullMarked
package org.padtrue.web.gauge;

import org.jspecify.annotations.NullMarked;
