package org.padtrue.analysis;

/**
 * What to enter for one level of a factor.
 *
 * @param value correction to ADD, rounded to the machine's resolution; 0 where left
 * @param decision what to do
 * @param reason one sentence
 */
public record TrimValue(Xyr value, Decision decision, String reason) {}
