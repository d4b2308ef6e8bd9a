package org.padtrue.web.server;

import java.util.List;

/**
 * What every page has around its content.
 *
 * @param title of the page
 * @param here which part of the pages is open: jobs, log, drift, help, or empty
 * @param token for its forms
 * @param notices what to know before the page's own content
 * @param canLeave true when there is a pass phrase, and so a way out
 */
public record PageFrame(
    String title, String here, String token, boolean canLeave, List<Notice> notices) {
  public PageFrame {
    notices = List.copyOf(notices);
  }
}
