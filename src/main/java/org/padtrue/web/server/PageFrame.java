package org.padtrue.web.server;

/**
 * What every page has around its content.
 *
 * @param title of the page
 * @param here which part of the pages is open: jobs, log, drift, help, or empty
 * @param token for its forms
 * @param canLeave true when there is a pass phrase, and so a way out
 */
public record PageFrame(String title, String here, String token, boolean canLeave) {}
