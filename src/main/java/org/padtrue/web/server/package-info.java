/**
 * What every page stands on: guard, sessions, pass phrase, forms, uploads, templates, scripts and
 * style.
 *
 * <p>{@code Guard} stands before every request: host, session, pass phrase, token, headers. Typed
 * values leave as mm and degrees. Imports problem, quantity.
 */
@NullMarked
package org.padtrue.web.server;

import org.jspecify.annotations.NullMarked;
