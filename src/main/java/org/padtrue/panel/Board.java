package org.padtrue.panel;

/**
 * One board of the panel.
 *
 * @param index column and row
 * @param origin pose of the board's own frame in the panel frame; rotation 0 or 180
 * @param listed true when the job gave this board's coordinates, false when the tiling derived them
 */
public record Board(BoardIndex index, Pose origin, boolean listed) {}
