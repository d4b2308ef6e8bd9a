package org.padtrue.load.standard;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Pattern;

/** Which standard a file is written in, told by its first characters, not by its name. */
public enum StandardFile {
  XML,
  GERBER,
  /** Neither: a table, or something else that its own reader will name. */
  NONE;

  private static final int HEAD = 8192;
  private static final Pattern GERBER_COMMAND =
      Pattern.compile("%(?:TF\\.|TA\\.|TO\\.|FS[LT][AI]|MO(?:MM|IN)\\*|ADD\\d|LP[DC]\\*)|^G0?4\\b");

  /** Looks at the beginning of a file; a file that cannot be read is left to its reader. */
  public static StandardFile of(Path path) {
    if (!Files.isRegularFile(path)) {
      return NONE;
    }
    try (InputStream in = Files.newInputStream(path)) {
      return of(in.readNBytes(HEAD));
    } catch (IOException e) {
      return NONE;
    }
  }

  /** Looks at the first bytes. */
  public static StandardFile of(byte[] head) {
    // dropping zeros and marks lets UTF-16 be told as well as UTF-8
    String s =
        new String(head, StandardCharsets.ISO_8859_1)
            .replace("\u0000", "")
            .replaceFirst("^(?:\u00ef\u00bb\u00bf|\u00ff\u00fe|\u00fe\u00ff)", "")
            .stripLeading();
    if (s.startsWith("<?xml") || s.startsWith("<!") || s.startsWith("<IPC-2581")) {
      return XML;
    }
    return GERBER_COMMAND.matcher(s).find() && s.indexOf('*') >= 0 ? GERBER : NONE;
  }
}
