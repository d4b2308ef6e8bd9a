/**
 * Which small moves part neighbours that touch, or may: the least that leave every pair its gap and
 * every placement its land limits.
 *
 * <p>{@link org.padtrue.room.RoomSearch} finds the groups, {@link org.padtrue.room.LeastMoves} the
 * moves of one group. mm, degrees; poses in the panel frame as placed, moves in the axes of an
 * unturned board. Imports land, numeric, panel; the convex programs are ojAlgo's, which lives here
 * and nowhere else.
 */
@NullMarked
package org.padtrue.room;

import org.jspecify.annotations.NullMarked;
