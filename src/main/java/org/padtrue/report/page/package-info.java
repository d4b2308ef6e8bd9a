/**
 * The page for people: one file, pictures inside, no script, nothing fetched.
 *
 * <p>What comes from files is escaped, always. Entry class: {@link
 * org.padtrue.report.page.HtmlReport}. Imports report.words, report.json, report.plot.
 */
@NullMarked
package org.padtrue.report.page;

import org.jspecify.annotations.NullMarked;
