/**
 * Room between neighbours on a page: asked, shown, its list handed out.
 *
 * <p>By the code of the command {@code room}. Lengths mm, angles degrees, in the placement list's
 * axes. Imports apply, report, web.bench, web.kept, web.server.
 */
@NullMarked
package org.padtrue.web.room;

import org.jspecify.annotations.NullMarked;
