package org.padtrue.load.text;

import java.util.Optional;

/** Files that people hand in by mistake, known by their first bytes. */
final class FileKind {
  private record Magic(String words, int... bytes) {}

  // First bytes as their open specifications give them (PNG, JPEG, GIF, TIFF, PDF, ZIP, gzip).
  private static final Magic[] KNOWN = {
    new Magic("a PNG picture", 0x89, 'P', 'N', 'G'),
    new Magic("a JPEG picture", 0xFF, 0xD8, 0xFF),
    new Magic("a GIF picture", 'G', 'I', 'F', '8'),
    new Magic("a TIFF picture", 'I', 'I', 42, 0),
    new Magic("a TIFF picture", 'M', 'M', 0, 42),
    new Magic("a PDF document", '%', 'P', 'D', 'F'),
    new Magic("a spreadsheet or an archive (ZIP)", 'P', 'K', 3, 4),
    new Magic("a compressed file (gzip)", 0x1F, 0x8B),
    new Magic("an old spreadsheet (compound file)", 0xD0, 0xCF, 0x11, 0xE0),
  };

  private FileKind() {}

  static Optional<String> of(byte[] bytes) {
    for (Magic m : KNOWN) {
      if (opens(bytes, m.bytes)) {
        return Optional.of(m.words);
      }
    }
    return Optional.empty();
  }

  private static boolean opens(byte[] bytes, int[] magic) {
    if (bytes.length < magic.length) {
      return false;
    }
    for (int i = 0; i < magic.length; i++) {
      if ((bytes[i] & 0xFF) != magic[i]) {
        return false;
      }
    }
    return true;
  }
}
