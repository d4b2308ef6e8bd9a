package org.padtrue.room;

/**
 * One of two neighbours has to be placed before the other.
 *
 * @param first key of the one to place first
 * @param then key of the other
 * @param sentence why
 */
public record PlacingOrder(String first, String then, String sentence) {}
