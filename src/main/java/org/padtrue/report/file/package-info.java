/**
 * How files are put in place: whole or not at all, written beside and moved; tables of the log and
 * of articles.
 *
 * <p>mm and degrees in files. Imports history, imaging, report.plot.ink, problem.
 */
@NullMarked
package org.padtrue.report.file;

import org.jspecify.annotations.NullMarked;
