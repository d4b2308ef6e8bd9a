/**
 * What an article shows: the trim sheet, the map, the evidence, and what changes when something is
 * tried out. mm and degrees until a view makes text of them. Imports web.picture, web.bench,
 * report.
 */
@NullMarked
package org.padtrue.web.result;

import org.jspecify.annotations.NullMarked;
