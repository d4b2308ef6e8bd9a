package org.padtrue.history;

/**
 * How far a log has grown: two equal states mean that articles and events are the same, as nothing
 * in a log is changed or deleted.
 *
 * @param articles rows, corrections included
 * @param lastArticle highest number, 0 for none
 * @param events rows
 * @param lastEvent highest number, 0 for none
 */
public record LogState(long articles, long lastArticle, long events, long lastEvent) {}
