/**
 * Usual mistakes in articles, by name and in words: how else an article may be read, and what is
 * asked then.
 */
@NullMarked
package org.padtrue.panel.mistake;

import org.jspecify.annotations.NullMarked;
