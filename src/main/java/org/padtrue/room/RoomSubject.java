package org.padtrue.room;

import org.jspecify.annotations.Nullable;

/**
 * What an answer belongs to, and how the placement list counts.
 *
 * @param job the job's name
 * @param analysisHash which analysis it rests on; null without one
 * @param signX plus or minus 1: how a step along the list's x moves x as placed
 * @param signY the same of y
 * @param signRotation the same of rotation
 */
public record RoomSubject(
    String job, @Nullable String analysisHash, int signX, int signY, int signRotation) {}
