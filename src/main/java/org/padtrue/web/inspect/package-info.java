/**
 * How a placement file was understood, and what differs between two of one board, by the code of
 * the command. Nothing that is sent is kept. Imports load, compare, report, web.bench, web.server.
 */
@NullMarked
package org.padtrue.web.inspect;

import org.jspecify.annotations.NullMarked;
