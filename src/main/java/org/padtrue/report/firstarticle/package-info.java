/**
 * The first article record: what a quality technician signs, files and finds again.
 *
 * <p>Every placement's x, y and rotation as a numbered characteristic with requirement, result,
 * expanded uncertainty and conformity; identification, tools, trims, attachments by SHA-256, lines
 * to sign. Field numbers are those of AS9102 (forms 1 and 3); the layout is our own. Computes
 * nothing that changes an answer. mm and degrees. Imports report, load (identification files),
 * analysis and below; the PDF libraries stay in {@link
 * org.padtrue.report.firstarticle.FirstArticlePdf}. Entry classes: {@link
 * org.padtrue.report.firstarticle.FirstArticleRecords} (from an analysis in memory or stored),
 * {@link org.padtrue.report.firstarticle.FirstArticleFiles} (all files), {@link
 * org.padtrue.report.firstarticle.FirstArticlePdf} (bytes or stream).
 */
@NullMarked
package org.padtrue.report.firstarticle;

import org.jspecify.annotations.NullMarked;
