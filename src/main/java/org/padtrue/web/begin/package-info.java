/**
 * A panel is begun, and said to be what it is: a first article, one placed after the trims of
 * another article were entered, or monitoring. Imports web.bench, web.kept, web.server, plan.
 */
@NullMarked
package org.padtrue.web.begin;

import org.jspecify.annotations.NullMarked;
