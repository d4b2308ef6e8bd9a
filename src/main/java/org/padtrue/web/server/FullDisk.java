package org.padtrue.web.server;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Whether something failed because nothing more can be written, told by the system's words. */
final class FullDisk {
  static final String SENTENCE =
      "The disk of the computer that serves these pages is full, so this was not stored. Make room"
          + " there, then send it again; what was stored before is still there.";

  private FullDisk() {}

  /** True for a full disk, a full quota or a file at its limit. */
  static boolean is(@Nullable Throwable e) {
    for (Throwable t = e; t != null; t = t.getCause()) {
      String m = String.valueOf(t.getMessage()).toLowerCase(Locale.ROOT);
      if (t instanceof java.io.IOException
          && (m.contains("no space left")
              || m.contains("not enough space")
              || m.contains("quota exceeded")
              || m.contains("file too large"))) {
        return true;
      }
    }
    return false;
  }
}
