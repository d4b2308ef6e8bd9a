package org.padtrue.load.ipc2581;

import java.io.BufferedInputStream;
import java.io.FilterReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Characters of an XML file; stops at bytes that are no text in the stated coding, and when a tag,
 * an attribute or a text is longer than any real one, before the parser has to hold it.
 */
final class BoundedText extends FilterReader {
  /** Longest run of characters without an opening bracket. */
  static final int LONGEST = 1 << 20;

  private static final int HEAD = 512;
  private static final Pattern CODING = Pattern.compile("encoding\\s*=\\s*[\"']([\\w.-]{1,40})");

  private int run;

  private BoundedText(Reader in) {
    super(in);
  }

  /** Says that the limit was passed. */
  static final class TooLong extends IOException {
    private static final long serialVersionUID = 1L;
  }

  /** Says that the coding is none that is read. */
  static final class UnknownCoding extends IOException {
    private static final long serialVersionUID = 1L;
  }

  static BoundedText of(InputStream bytes) throws IOException {
    BufferedInputStream in = new BufferedInputStream(bytes, 1 << 16);
    in.mark(HEAD);
    byte[] head = in.readNBytes(HEAD);
    in.reset();
    Charset coding = coding(head);
    return new BoundedText(
        new InputStreamReader(
            in,
            coding
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT)));
  }

  private static Charset coding(byte[] head) throws UnknownCoding {
    if (head.length >= 2) {
      int two = (head[0] & 0xFF) << 8 | head[1] & 0xFF;
      if (two == 0xFEFF || two == 0xFFFE) {
        return StandardCharsets.UTF_16;
      }
      if (two == 0x3C00 || two == 0x003C) {
        return two == 0x3C00 ? StandardCharsets.UTF_16LE : StandardCharsets.UTF_16BE;
      }
    }
    Matcher m = CODING.matcher(new String(head, StandardCharsets.ISO_8859_1));
    return switch (m.find() ? m.group(1).toUpperCase(Locale.ROOT) : "UTF-8") {
      case "UTF-8", "UTF8" -> StandardCharsets.UTF_8;
      case "US-ASCII", "ASCII" -> StandardCharsets.US_ASCII;
      case "ISO-8859-1", "LATIN1", "WINDOWS-1252" -> StandardCharsets.ISO_8859_1;
      default -> throw new UnknownCoding();
    };
  }

  @Override
  public int read() throws IOException {
    int c = super.read();
    if (c >= 0) {
      count((char) c);
    }
    return c;
  }

  @Override
  public int read(char[] b, int off, int len) throws IOException {
    int n = super.read(b, off, len);
    int skip = n > 0 && b[off] == 0xFEFF && run == 0 ? 1 : 0;
    if (skip > 0) {
      // a byte order mark is no character of the document
      System.arraycopy(b, off + 1, b, off, n - 1);
      n--;
      if (n == 0) {
        return read(b, off, len);
      }
    }
    for (int i = 0; i < n; i++) {
      count(b[off + i]);
    }
    return n;
  }

  private void count(char c) throws TooLong {
    run = c == '<' ? 0 : run + 1;
    if (run > LONGEST) {
      throw new TooLong();
    }
  }
}
