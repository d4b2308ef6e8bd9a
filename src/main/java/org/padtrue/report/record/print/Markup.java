package org.padtrue.report.record.print;

/**
 * XHTML by hand for the PDF library, which wants it well formed: all text is escaped, and what XML
 * cannot carry becomes a replacement sign.
 */
final class Markup {
  private final StringBuilder b = new StringBuilder(1 << 16);

  /** Opens an element; attributes are name, value, name, value. */
  Markup open(String tag, String... attributes) {
    b.append('<').append(tag);
    for (int i = 0; i < attributes.length; i += 2) {
      b.append(' ').append(attributes[i]).append("=\"");
      text(attributes[i + 1]);
      b.append('"');
    }
    b.append('>');
    return this;
  }

  Markup close(String tag) {
    b.append("</").append(tag).append(">\n");
    return this;
  }

  /** An element with a text. */
  Markup element(String tag, String text, String... attributes) {
    return open(tag, attributes).text(text).close(tag);
  }

  /** The program's own style sheet. */
  Markup style(String css) {
    b.append("<style>").append(css).append("</style>\n");
    return this;
  }

  /** Text, escaped. */
  Markup text(String s) {
    s.codePoints().forEach(this::codePoint);
    return this;
  }

  private void codePoint(int c) {
    switch (c) {
      case '&' -> b.append("&amp;");
      case '<' -> b.append("&lt;");
      case '>' -> b.append("&gt;");
      case '"' -> b.append("&quot;");
      default -> b.appendCodePoint(shown(c));
    }
  }

  /** Control characters become blanks; XML 1.0, production 2, has no place for some others. */
  private static int shown(int c) {
    if (c < ' ' || (c >= 0x7f && c < 0xa0)) {
      return ' ';
    }
    boolean xml = c <= 0xd7ff || (c >= 0xe000 && c <= 0xfffd) || c >= 0x10000;
    return xml ? c : 0xfffd;
  }

  @Override
  public String toString() {
    return b.toString();
  }
}
