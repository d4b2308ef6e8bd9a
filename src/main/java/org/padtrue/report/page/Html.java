package org.padtrue.report.page;

/**
 * HTML by hand: what comes from files is escaped, always; only {@link #raw} is not, and it gets
 * nothing but the program's own text.
 */
public final class Html {
  private final StringBuilder b = new StringBuilder(1 << 16);

  /** Opens an element; attributes are name, value, name, value. */
  public Html open(String tag, String... attributes) {
    b.append('<').append(tag);
    for (int i = 0; i < attributes.length; i += 2) {
      b.append(' ').append(attributes[i]).append("=\"");
      escape(attributes[i + 1], b);
      b.append('"');
    }
    b.append('>');
    return this;
  }

  /** An element without content. */
  Html single(String tag, String... attributes) {
    open(tag, attributes);
    b.setLength(b.length() - 1);
    b.append("/>");
    return this;
  }

  public Html close(String tag) {
    b.append("</").append(tag).append(">\n");
    return this;
  }

  Html text(String s) {
    escape(s, b);
    return this;
  }

  /** An element with a text. */
  public Html element(String tag, String text, String... attributes) {
    return open(tag, attributes).text(text).close(tag);
  }

  /** The program's own markup. */
  Html raw(String markup) {
    b.append(markup);
    return this;
  }

  @Override
  public String toString() {
    return b.toString();
  }

  /** Escapes for text and for attributes in double quotes; control characters become blanks. */
  static void escape(String s, StringBuilder to) {
    for (int i = 0; i < s.length(); i++) {
      char c = s.charAt(i);
      switch (c) {
        case '&' -> to.append("&amp;");
        case '<' -> to.append("&lt;");
        case '>' -> to.append("&gt;");
        case '"' -> to.append("&quot;");
        case '\'' -> to.append("&#39;");
        default -> to.append(c < ' ' && c != '\n' || c == 0x7f ? ' ' : c);
      }
    }
  }
}
