/**
 * Bytes to characters: encodings, files that are no text at all, and the words of an error message.
 *
 * <p>{@link org.padtrue.load.text.TextFile} keeps the encoding and the byte order mark, so that a
 * file can be written back byte for byte. {@link org.padtrue.load.text.Nearest} finds the known
 * word that a misspelt one was meant to be. Imports problem only.
 */
@NullMarked
package org.padtrue.load.text;

import org.jspecify.annotations.NullMarked;
