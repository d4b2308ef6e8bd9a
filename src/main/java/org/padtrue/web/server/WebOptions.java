package org.padtrue.web.server;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * How the pages are served.
 *
 * @param workspace folder of jobs and articles; made when it is not there
 * @param historyUrl the log of articles
 * @param host address to listen at; loopback unless a pass phrase is given
 * @param port port, 0 for any free one
 * @param passPhrase asked of everyone, or null when only this machine can reach the pages
 */
public record WebOptions(
    Path workspace, String historyUrl, String host, int port, @Nullable String passPhrase) {
  public static final String LOOPBACK = "127.0.0.1";

  /** Shortest pass phrase that is taken, characters. */
  public static final int LEAST_PASS_PHRASE = 12;

  public WebOptions {
    if (passPhrase == null && !host.equals(LOOPBACK)) {
      throw new IllegalArgumentException("pages beyond this machine need a pass phrase");
    }
    if (passPhrase != null && passPhrase.length() < LEAST_PASS_PHRASE) {
      throw new IllegalArgumentException(
          "a pass phrase has " + LEAST_PASS_PHRASE + " characters or more");
    }
  }

  /** Pages for this machine alone. */
  public static WebOptions local(Path workspace, String historyUrl, int port) {
    return new WebOptions(workspace, historyUrl, LOOPBACK, port, null);
  }
}
