package org.padtrue.load.corrected;

/**
 * A row whose numbers were changed, as the file spells them.
 *
 * @param line line of the file
 * @param ref reference designator
 * @param before x, y and rotation as they were
 * @param after x, y and rotation as they are now
 */
public record CorrectedFileChange(int line, String ref, String before, String after) {}
