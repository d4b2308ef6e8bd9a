package org.padtrue.history;

import java.time.Instant;

/**
 * What happened to a machine between articles.
 *
 * @param machine its name
 * @param at when
 * @param kind service or reel
 * @param level part type or nozzle concerned; empty for the whole machine
 * @param note free text
 */
public record LoggedEvent(String machine, Instant at, String kind, String level, String note) {}
