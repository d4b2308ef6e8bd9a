/**
 * The door: articles that look like a usual mistake are asked about before anything is made of
 * them. Entry class: {@link org.padtrue.door.Door}.
 *
 * <p>An article is read as given and under each usual mistake ({@code Readings}); a robust fit
 * ({@code DoorFit}) says how well each reading explains it. mm and degrees, panel frame. Imports
 * numeric, panel, problem, quantity.
 */
@NullMarked
package org.padtrue.door;

import org.jspecify.annotations.NullMarked;
