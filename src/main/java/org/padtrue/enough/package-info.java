/**
 * Whether measuring the rest of a panel is going to change what to do, while it is being measured.
 *
 * <p>Chances from 0 to 1; estimates in mm and degrees. Entry class: {@link
 * org.padtrue.enough.Enough}. Imports firstarticle, panel.
 */
@NullMarked
package org.padtrue.enough;

import org.jspecify.annotations.NullMarked;
