package org.padtrue.web.store;

/**
 * The question before something is deleted.
 *
 * @param kind jobs, articles
 * @param what it is called in the question
 * @param holds a sentence on what goes with it
 * @param seen state that the question was asked about
 */
public record DeleteView(
    String kind, String id, String name, String what, String holds, String seen) {}
