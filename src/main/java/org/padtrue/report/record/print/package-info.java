/**
 * The record on paper: XHTML in the order in which a technician reads and signs, and the PDF made
 * of it.
 *
 * <p>mm and degrees. The PDF libraries stay here. Entry classes: {@link
 * org.padtrue.report.record.print.FirstArticleFiles} (all files), {@link
 * org.padtrue.report.record.print.FirstArticlePdf} (bytes or stream). Imports report.record.
 */
@NullMarked
package org.padtrue.report.record.print;

import org.jspecify.annotations.NullMarked;
