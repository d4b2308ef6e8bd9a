/**
 * The placement list of a job with an article's trims put into it: what would change, and the file.
 *
 * <p>Entry class: {@link org.padtrue.web.corrected.CorrectedPages}. Imports apply, report,
 * web.bench, web.server.
 */
@NullMarked
package org.padtrue.web.corrected;

import org.jspecify.annotations.NullMarked;
