/**
 * The first article record on pages: who says what about the article, tools, files that belong to
 * it, the check; then the record to sign.
 *
 * <p>What was typed is kept in the article's folder as the identification file that the command
 * line reads. Entry class: {@link org.padtrue.web.record.RecordPages}. Imports report, load,
 * web.bench, web.check, web.server.
 */
@NullMarked
package org.padtrue.web.record;

import org.jspecify.annotations.NullMarked;
