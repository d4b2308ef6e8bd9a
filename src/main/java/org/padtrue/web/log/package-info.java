/**
 * The log on pages: its list, one article, two side by side, what drifts. Units are those of the
 * series, lengths shown in micrometres. Imports web.bench, history, log.
 */
@NullMarked
package org.padtrue.web.log;

import org.jspecify.annotations.NullMarked;
