/**
 * Measuring in pictures on pages: send one, look at every pose, accept, move or reject. mm and
 * degrees; places on a shown picture in px. Imports web.bench, imaging.
 */
@NullMarked
package org.padtrue.web.picture;

import org.jspecify.annotations.NullMarked;
