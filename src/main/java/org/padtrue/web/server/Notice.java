package org.padtrue.web.server;

/**
 * What a page says above everything else.
 *
 * @param sentence what to know
 * @param to address of the page that helps; empty when there is none
 * @param link words of the link to it
 */
public record Notice(String sentence, String to, String link) {
  /** A sentence alone. */
  public static Notice of(String sentence) {
    return new Notice(sentence, "", "");
  }
}
