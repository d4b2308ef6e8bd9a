package org.padtrue.load.ipc2581;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharacterCodingException;
import java.util.function.Consumer;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.text.TextPieces;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Walks an XML file element by element, within bounds, without DTD or external entities. */
final class XmlCursor {
  static final int DEEPEST = 64;
  static final long MOST_ELEMENTS = 100_000_000L;

  private final String file;
  private final XMLStreamReader xml;
  private int depth;
  private long elements;

  XmlCursor(String file, InputStream in) {
    this.file = file;
    XMLInputFactory f = XMLInputFactory.newDefaultFactory();
    f.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    f.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    f.setProperty(XMLInputFactory.IS_COALESCING, false);
    f.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException("external entity");
        });
    try {
      this.xml = f.createXMLStreamReader(BoundedText.of(in));
    } catch (IOException | XMLStreamException | RuntimeException e) {
      throw broken(file, 0, e);
    }
  }

  /** Moves to the root element; its local name. */
  String root() {
    while (true) {
      int e = next();
      if (e == XMLStreamConstants.START_ELEMENT) {
        return xml.getLocalName();
      }
      if (e == XMLStreamConstants.END_DOCUMENT) {
        throw fail("the file has no element", "export it again");
      }
    }
  }

  /**
   * Hands each child of the current element to an action, which may read its attributes first and
   * its children then; what it leaves is skipped.
   */
  void children(Consumer<String> action) {
    int own = depth;
    while (true) {
      int e = next();
      if (e == XMLStreamConstants.START_ELEMENT) {
        action.accept(xml.getLocalName());
        while (depth > own) {
          next();
        }
      } else if (e == XMLStreamConstants.END_ELEMENT && depth < own) {
        return;
      }
    }
  }

  /** Reads to the end, so that a broken tail is noticed. */
  void finish() {
    while (next() != XMLStreamConstants.END_DOCUMENT) {
      // nothing more is kept
    }
  }

  /** An attribute of the current element, trimmed; null when absent. */
  @Nullable String text(String attribute) {
    String v = xml.getAttributeValue(null, attribute);
    return v == null ? null : v.strip();
  }

  /** An attribute, or empty. */
  String textOrEmpty(String attribute) {
    String v = text(attribute);
    return v == null ? "" : v;
  }

  /** A number in an attribute; the default when absent. */
  double number(String attribute, double whenAbsent) {
    String v = text(attribute);
    return v == null || v.isEmpty() ? whenAbsent : parsed(attribute, v);
  }

  private double parsed(String attribute, String v) {
    try {
      // letters that Java reads but XML numbers do not have: 1d, 0x1p3
      double d = v.matches("[-+.0-9eE]{1,60}") ? Double.parseDouble(v) : Double.NaN;
      if (Math.abs(d) <= 1e12) {
        return d;
      }
    } catch (NumberFormatException e) {
      // told below
    }
    throw fail(
        xml.getLocalName()
            + " has "
            + attribute
            + "="
            + TextPieces.quoted(v)
            + ", which is no number",
        "write a decimal number");
  }

  boolean flag(String attribute) {
    String v = textOrEmpty(attribute);
    return v.equalsIgnoreCase("true") || v.equals("1");
  }

  int line() {
    return xml.getLocation().getLineNumber();
  }

  InputException fail(String found, String mend) {
    return new InputException(Problem.at(file, Math.max(0, line()), found, mend));
  }

  private int next() {
    int e;
    try {
      e = xml.next();
    } catch (XMLStreamException | RuntimeException x) {
      throw broken(file, line(), x);
    }
    if (e == XMLStreamConstants.DTD) {
      throw fail(
          "the file has a document type definition (DOCTYPE), which is not read",
          "export it without, or remove the DOCTYPE");
    }
    if (e == XMLStreamConstants.START_ELEMENT) {
      depth++;
      if (depth > DEEPEST) {
        throw fail("elements are nested deeper than " + DEEPEST, "export the file again");
      }
      if (++elements > MOST_ELEMENTS) {
        throw fail("the file has more than " + MOST_ELEMENTS + " elements", "export one board");
      }
    } else if (e == XMLStreamConstants.END_ELEMENT) {
      depth--;
    }
    return e;
  }

  private static InputException broken(String file, int line, Exception e) {
    Throwable t = e;
    for (int i = 0; i < 10 && t != null; i++) {
      if (t instanceof BoundedText.TooLong) {
        return problem(file, line, "a tag, attribute or text is longer than 1 MB");
      }
      if (t instanceof BoundedText.UnknownCoding) {
        return problem(file, 1, "the characters are coded neither as UTF-8, UTF-16 nor Latin-1");
      }
      if (t instanceof CharacterCodingException) {
        return problem(file, line, "the characters are not coded as the file says");
      }
      t = t instanceof XMLStreamException x ? x.getNestedException() : t.getCause();
    }
    String m = String.valueOf(e.getMessage());
    if (m.contains("Invalid byte")
        || m.contains("invalid XML character")
        || m.contains("ncoding")) {
      return problem(file, line, "the characters are not coded as the file says");
    }
    if (m.contains("same entity")
        || m.contains("end of file")
        || m.contains("must be terminated")) {
      return problem(file, line, "the file ends too early or its tags do not match");
    }
    if (m.contains("ntity")) {
      return problem(file, line, "an entity is used that XML itself does not have");
    }
    return problem(file, line, "this is no well-formed XML");
  }

  private static InputException problem(String file, int line, String found) {
    return new InputException(Problem.at(file, Math.max(0, line), found, "export the file again"));
  }
}
