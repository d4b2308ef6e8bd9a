/**
 * The handbook as the pages show it: the Markdown files under {@code src/site/markdown}, which
 * travel in the jar, made into HTML. Nothing is fetched, and only the pages and pictures of the
 * handbook itself can be asked for.
 */
@NullMarked
package org.padtrue.web.help;

import org.jspecify.annotations.NullMarked;
