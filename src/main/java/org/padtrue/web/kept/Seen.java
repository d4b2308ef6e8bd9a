package org.padtrue.web.kept;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * Tells states of a form apart: a page carries the mark of what it showed, and what is kept has
 * another mark when somebody else kept something since.
 */
public final class Seen {
  private static final int LONG = 16;

  private Seen() {}

  /** The mark of a state, hexadecimal digits. */
  public static String of(Object... state) {
    try {
      MessageDigest d = MessageDigest.getInstance("SHA-256");
      for (Object o : state) {
        d.update((o + "\u0000").getBytes(StandardCharsets.UTF_8));
      }
      return HexFormat.of().formatHex(d.digest()).substring(0, LONG);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
