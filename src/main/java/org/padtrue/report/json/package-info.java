/**
 * Files for programs, written and read: mm, degrees, ppm and mrad at full precision, null for
 * unknown, keys as their schemas say.
 *
 * <p>{@link org.padtrue.report.json.AnalysisJson} is analysis.json, both ways; {@link
 * org.padtrue.report.json.Schemas} gives the schemas. Imports results of the rooms and
 * report.words; Jackson stays inside.
 */
@NullMarked
package org.padtrue.report.json;

import org.jspecify.annotations.NullMarked;
