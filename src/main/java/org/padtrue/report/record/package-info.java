/**
 * The first article record: what a quality technician signs, files and finds again.
 *
 * <p>Every placement's x, y and rotation as a numbered characteristic with requirement, result,
 * expanded uncertainty and conformity; identification, tools, trims, attachments by SHA-256. Field
 * numbers are those of AS9102 (forms 1 and 3); the layout is our own. Computes nothing that changes
 * an answer. mm and degrees. Entry class: {@link org.padtrue.report.record.FirstArticleRecords}
 * (from an analysis in memory or stored). Imports report.json, report.words, load.json and below.
 */
@NullMarked
package org.padtrue.report.record;

import org.jspecify.annotations.NullMarked;
