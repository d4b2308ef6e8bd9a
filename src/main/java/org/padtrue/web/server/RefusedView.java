package org.padtrue.web.server;

import java.util.List;

/** Why something was not done, one sentence each. */
public record RefusedView(List<String> sentences) {
  public RefusedView {
    sentences = List.copyOf(sentences);
  }
}
