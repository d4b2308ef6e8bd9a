package org.padtrue.firstarticle.result;

import java.util.List;

/**
 * Terms that this article cannot tell apart.
 *
 * @param terms names such as "part R0603 x", "shift x"
 * @param sentence what it means and what would tell them apart
 */
public record Alias(List<String> terms, String sentence) {
  public Alias {
    terms = List.copyOf(terms);
  }
}
