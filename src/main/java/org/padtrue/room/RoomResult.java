package org.padtrue.room;

import java.util.List;

/**
 * Every group, and what could not be looked at.
 *
 * @param groups the groups, the nearest pair first
 * @param withoutOutline part types of which no size is known: judged by nothing
 * @param notJudged part types that are moved though no land limits are known of them
 * @param order which of two neighbours to place first
 */
public record RoomResult(
    List<RoomGroup> groups,
    List<String> withoutOutline,
    List<String> notJudged,
    List<PlacingOrder> order) {
  public RoomResult {
    groups = List.copyOf(groups);
    withoutOutline = List.copyOf(withoutOutline);
    notJudged = List.copyOf(notJudged);
    order = List.copyOf(order);
  }
}
