package org.padtrue.web.help;

import java.util.List;

/**
 * One page of the handbook.
 *
 * @param name in its address: lower-case letters
 * @param title its first heading
 * @param sections its headings of the second order
 * @param blocks HTML, one piece a paragraph, list, table or picture
 */
public record HelpPage(String name, String title, List<Section> sections, List<String> blocks) {
  public HelpPage {
    sections = List.copyOf(sections);
    blocks = List.copyOf(blocks);
  }

  /** Where the page is served. */
  public String address() {
    return Handbook.address(name);
  }

  /**
   * A heading that is led to.
   *
   * @param id of the heading in its page
   * @param title its words
   */
  public record Section(String id, String title) {}
}
