package org.padtrue.load.text;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * The characters of a text file and how they were coded.
 *
 * <p>UTF-8, UTF-16 (with byte order mark, or without when the pattern of zero bytes shows it) and,
 * for bytes that are no UTF-8, Latin-1, which maps every byte to a character and back. {@link
 * #encode} of {@link #chars} gives the bytes of the file again, exactly.
 */
public final class TextFile {
  private static final long LARGEST = 1L << 30;

  private final String name;
  private final String chars;
  private final Encoding encoding;
  private final boolean marked;

  private TextFile(String name, String chars, Encoding encoding, boolean marked) {
    this.name = name;
    this.chars = chars;
    this.encoding = encoding;
    this.marked = marked;
  }

  /** Text that is in memory already. */
  public static TextFile of(String name, String chars) {
    return new TextFile(name, chars, Encoding.UTF_8, false);
  }

  /** Reads a file that the user named on the command line. */
  public static TextFile read(Path path) {
    return read(path, "check the path");
  }

  /**
   * Reads a file.
   *
   * @param path the file; messages name it as given
   * @param mendMissing what to do when there is no such file
   * @throws InputException when there is no file, it is empty, too large or no text
   */
  public static TextFile read(Path path, String mendMissing) {
    return decode(path.toString(), bytes(path, mendMissing));
  }

  private static byte[] bytes(Path path, String mendMissing) {
    String name = path.toString();
    if (Files.isDirectory(path)) {
      throw refuse(name, "this is a folder, not a file", "name the file inside it");
    }
    if (!Files.exists(path)) {
      throw refuse(name, "there is no such file", mendMissing);
    }
    try {
      if (Files.size(path) > LARGEST) {
        throw refuse(
            name, "the file is larger than 1 GB", "this is no list of placements; name another");
      }
      return Files.readAllBytes(path);
    } catch (AccessDeniedException e) {
      throw refuse(name, "the file may not be read", "change its permissions");
    } catch (IOException e) {
      throw refuse(name, "the file cannot be read (" + e.getMessage() + ")", "");
    }
  }

  private static InputException refuse(String name, String found, String mend) {
    return new InputException(Problem.of(name, found, mend));
  }

  /** Decodes bytes; see {@link #read(Path, String)}. */
  public static TextFile decode(String name, byte[] bytes) {
    if (bytes.length == 0) {
      throw refuse(name, "the file is empty", "export it again");
    }
    FileKind.of(bytes)
        .ifPresent(
            k -> {
              throw refuse(name, "this is " + k + ", not a text file", "name a text file");
            });
    Encoding.Guess guess = Encoding.guess(bytes);
    if (guess == null) {
      throw refuse(name, "this is a binary file, not a text file", "name a text file");
    }
    return new TextFile(name, guess.chars(), guess.encoding(), guess.marked());
  }

  /** The path as the user gave it. */
  public String name() {
    return name;
  }

  /** All characters, without the byte order mark. */
  public String chars() {
    return chars;
  }

  /** How the file is coded, in words. */
  public String encodingWords() {
    return encoding.words() + (marked ? " with byte order mark" : "");
  }

  /** True when the bytes are no UTF-8 and were read as Latin-1. */
  public boolean fellBackToLatin1() {
    return encoding == Encoding.LATIN_1;
  }

  /** Codes text as this file is coded, with its byte order mark where it has one. */
  public byte[] encode(String text) {
    byte[] body = text.getBytes(encoding.charset());
    if (!marked) {
      return body;
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream(body.length + 3);
    out.writeBytes(encoding.mark());
    out.writeBytes(body);
    return out.toByteArray();
  }

  /** True when the last line has no line end. */
  public boolean endsWithinLine() {
    return !chars.isEmpty() && !chars.endsWith("\n") && !chars.endsWith("\r");
  }

  /** The codings that are recognised. */
  enum Encoding {
    UTF_8(StandardCharsets.UTF_8, "UTF-8", 0xEF, 0xBB, 0xBF),
    UTF_16LE(StandardCharsets.UTF_16LE, "UTF-16, little end first", 0xFF, 0xFE),
    UTF_16BE(StandardCharsets.UTF_16BE, "UTF-16, big end first", 0xFE, 0xFF),
    LATIN_1(StandardCharsets.ISO_8859_1, "Latin-1");

    private final Charset charset;
    private final String words;
    private final byte[] mark;

    Encoding(Charset charset, String words, int... mark) {
      this.charset = charset;
      this.words = words;
      this.mark = new byte[mark.length];
      for (int i = 0; i < mark.length; i++) {
        this.mark[i] = (byte) mark[i];
      }
    }

    Charset charset() {
      return charset;
    }

    String words() {
      return words;
    }

    byte[] mark() {
      return mark.clone();
    }

    private boolean opens(byte[] bytes) {
      return mark.length > 0
          && bytes.length >= mark.length
          && Arrays.equals(bytes, 0, mark.length, mark, 0, mark.length);
    }

    record Guess(Encoding encoding, boolean marked, String chars) {}

    /** The coding of the bytes; null when they are no text. */
    static @Nullable Guess guess(byte[] bytes) {
      for (Encoding e : new Encoding[] {UTF_8, UTF_16LE, UTF_16BE}) {
        if (e.opens(bytes)) {
          return strict(e, bytes, e.mark.length);
        }
      }
      int[] zeros = Zeros.count(bytes);
      if (zeros[0] + zeros[1] > 0) {
        Encoding wide = Zeros.wide(bytes.length, zeros[0], zeros[1]);
        return wide == null ? null : strict(wide, bytes, 0);
      }
      Guess utf8 = strict(UTF_8, bytes, 0);
      return utf8 != null ? utf8 : plain(bytes);
    }

    private static @Nullable Guess plain(byte[] bytes) {
      return Zeros.manyControls(bytes)
          ? null
          : new Guess(LATIN_1, false, new String(bytes, StandardCharsets.ISO_8859_1));
    }

    /** Decodes only when coding again gives the same bytes; a wrong guess must not lose any. */
    private static @Nullable Guess strict(Encoding e, byte[] bytes, int from) {
      String s = new String(bytes, from, bytes.length - from, e.charset);
      if (s.indexOf('\uFFFD') >= 0 || (e != UTF_8 && (bytes.length - from) % 2 != 0)) {
        byte[] again = s.getBytes(e.charset);
        if (!Arrays.equals(again, 0, again.length, bytes, from, bytes.length)) {
          return e == UTF_8 && from > 0 ? plain(bytes) : null;
        }
      }
      return new Guess(e, from > 0, s);
    }
  }

  /** What the control bytes of a file tell. */
  private static final class Zeros {
    /** Zero bytes at even and at odd places. */
    static int[] count(byte[] bytes) {
      int[] n = new int[2];
      for (int i = 0; i < bytes.length; i++) {
        if (bytes[i] == 0) {
          n[i & 1]++;
        }
      }
      return n;
    }

    /** Latin text in UTF-16 has a zero in nearly every high byte and in no low byte. */
    static @Nullable Encoding wide(int length, int even, int odd) {
      int half = length / 2;
      if (length % 2 != 0 || half == 0) {
        return null;
      }
      if (odd > 0.7 * half && even == 0) {
        return Encoding.UTF_16LE;
      }
      return even > 0.7 * half && odd == 0 ? Encoding.UTF_16BE : null;
    }

    static boolean manyControls(byte[] bytes) {
      int n = 0;
      for (byte b : bytes) {
        if (b >= 0 && b < 32 && b != '\t' && b != '\n' && b != '\r' && b != '\f' && b != 0x1A) {
          n++;
        }
      }
      return n > bytes.length / 100 + 1;
    }
  }
}
