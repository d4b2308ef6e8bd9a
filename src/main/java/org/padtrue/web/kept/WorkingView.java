package org.padtrue.web.kept;

/**
 * What stands where an answer will be.
 *
 * @param title of the page
 * @param back where it is reached from
 * @param backName its name
 * @param what is being worked on, in words
 * @param seconds how long it has taken so far, in words
 */
public record WorkingView(
    String title, String back, String backName, String what, String seconds) {}
