package org.padtrue.web.bench;

/**
 * The page that records an article in work.
 *
 * @param article its id
 * @param name its name
 * @param form what there is to choose from
 */
public record RecordView(String article, String name, RecordForm form) {}
