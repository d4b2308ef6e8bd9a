package org.padtrue.web.help;

import java.util.List;

/**
 * A page of the handbook with the menu beside it.
 *
 * @param pages all of them, in the menu's order
 * @param page the one that is open
 */
public record HelpView(List<HelpPage> pages, HelpPage page) {
  public HelpView {
    pages = List.copyOf(pages);
  }
}
