package org.padtrue.enough;

import java.util.List;

/**
 * What is said of the terms that one test decides together.
 *
 * @param terms its numbers
 * @param anyChance probability that any of them changes by more than its dead band
 * @param more by key: how many placements more settle it
 */
record EnoughFamily(
    List<EnoughTerm> terms, double anyChance, java.util.Map<String, Integer> more) {}
