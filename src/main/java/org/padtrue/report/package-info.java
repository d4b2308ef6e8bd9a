/**
 * All files of an answer, written together or not at all: analysis, drift, plan, check.
 *
 * <p>Takes results and computes nothing that changes an answer. {@code report.json} for programs,
 * {@code report.words} sentences and consoles, {@code report.page} the page for people, {@code
 * report.plot} charts, {@code report.record} the record to sign, {@code report.file} how files are
 * put in place. Imports everything but {@code apply}, {@code web} and {@code cli}.
 */
@NullMarked
package org.padtrue.report;

import org.jspecify.annotations.NullMarked;
