package org.padtrue.web.server;

/**
 * The page that asks for the pass phrase.
 *
 * @param problem empty at first
 * @param to page to go on to
 */
public record EnterView(String problem, String to) {}
