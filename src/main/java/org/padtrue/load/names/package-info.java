/**
 * Names of part types: what a file calls them, what the job calls them, and which land pattern a
 * name says by the naming of IPC-7351 and of published outlines.
 *
 * <p>{@link org.padtrue.load.names.TypeTable} is the job's own table of names. Imports panel,
 * problem and {@code load.text}.
 */
@NullMarked
package org.padtrue.load.names;

import org.jspecify.annotations.NullMarked;
