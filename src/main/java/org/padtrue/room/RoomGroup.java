package org.padtrue.room;

import java.util.List;

/**
 * Placements that were looked at as one.
 *
 * @param pairs neighbours that were too near, or that the moves bring to the wanted gap
 * @param moves what to move; empty where nothing helps
 * @param solved true when every pair has its gap and every placement its limits then
 * @param sentence what is the case; what stands in the way where not solved
 */
public record RoomGroup(
    List<RoomPair> pairs, List<RoomMove> moves, boolean solved, String sentence) {
  public RoomGroup {
    pairs = List.copyOf(pairs);
    moves = List.copyOf(moves);
  }
}
