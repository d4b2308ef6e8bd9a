/**
 * How the answer is told: files for programs, tables for a spreadsheet, a page and a summary for
 * people.
 *
 * <p>Takes an {@code analysis.FirstArticleResult}, computes nothing that changes an answer. Files
 * for programs are in mm, degrees, ppm and mrad at full precision with null for unknown; people see
 * micrometres. Imports analysis and below, and report.plot for the charts. Entry classes: {@link
 * org.padtrue.report.AnalysisReport} (all files of a report), {@link
 * org.padtrue.report.AnalysisJson} (analysis.json, both ways), {@link
 * org.padtrue.report.ConsoleSummary}.
 */
@NullMarked
package org.padtrue.report;

import org.jspecify.annotations.NullMarked;
