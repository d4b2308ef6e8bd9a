/**
 * Options that several commands take, and how their values are typed: scatters, trims, zones,
 * places. mm and degrees. Imports problem, panel, report.json; only {@code cli} knows it.
 */
@NullMarked
package org.padtrue.cli.option;

import org.jspecify.annotations.NullMarked;
