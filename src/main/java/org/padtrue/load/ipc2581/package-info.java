/**
 * Reads IPC-2581, revisions A to C: an XML description of boards, panels, packages and parts.
 *
 * <p>Only what a placement needs is kept; the file is streamed and need not fit into memory. No
 * DTD, no external entity; depth, number of elements and length of a piece of markup or text are
 * bounded. Entry class: {@link org.padtrue.load.ipc2581.Ipc2581Reader}. Imports {@code
 * load.standard}, {@code load.text} and below.
 */
@NullMarked
package org.padtrue.load.ipc2581;

import org.jspecify.annotations.NullMarked;
