package org.padtrue.enough;

import java.util.List;
import java.util.Map;

/**
 * What is said of the terms that one test decides together.
 *
 * @param terms its numbers
 * @param moves by draw: mean square, over the placements of a panel, of what the sheet to come
 *     would place otherwise than today's, mm^2
 * @param more by key: how many placements more settle it
 */
record EnoughFamily(List<EnoughTerm> terms, double[] moves, Map<String, Integer> more) {}
