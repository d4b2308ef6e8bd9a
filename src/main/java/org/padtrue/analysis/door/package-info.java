/**
 * The door: articles that look like a usual mistake are asked about before anything is made of
 * them. Entry class: {@link org.padtrue.analysis.door.Door}.
 *
 * <p>An article is read as given and under each usual mistake ({@link
 * org.padtrue.analysis.door.Readings}); a robust fit ({@link org.padtrue.analysis.door.DoorFit})
 * says how well each reading explains it. Knows the panel, no other room.
 */
@NullMarked
package org.padtrue.analysis.door;

import org.jspecify.annotations.NullMarked;
