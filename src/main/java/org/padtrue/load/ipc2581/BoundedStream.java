package org.padtrue.load.ipc2581;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/**
 * Bytes of an XML file; stops when a tag, an attribute or a text is longer than any real one,
 * before the parser has to hold it.
 */
final class BoundedStream extends FilterInputStream {
  /** Longest run of bytes without an opening bracket. */
  static final int LONGEST = 1 << 20;

  private int run;

  BoundedStream(InputStream in) {
    super(in);
  }

  /** Says that the limit was passed. */
  static final class TooLong extends IOException {
    private static final long serialVersionUID = 1L;
  }

  @Override
  public int read() throws IOException {
    int b = super.read();
    if (b >= 0) {
      count((byte) b);
    }
    return b;
  }

  @Override
  public int read(byte[] b, int off, int len) throws IOException {
    int n = super.read(b, off, Math.min(len, LONGEST));
    for (int i = 0; i < n; i++) {
      count(b[off + i]);
    }
    return n;
  }

  private void count(byte b) throws TooLong {
    run = b == '<' ? 0 : run + 1;
    if (run > LONGEST) {
      throw new TooLong();
    }
  }
}
