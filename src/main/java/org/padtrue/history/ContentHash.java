package org.padtrue.history;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;

/**
 * What an article contains, whatever its file looks like: job and measured placements, sorted, to
 * the nanometre and the micro-degree. Time, machine and conditions are not part of it: recording
 * the same measurements again under another time is a mistake, not a second article.
 */
final class ContentHash {
  private ContentHash() {}

  static String of(String job, List<LoggedPlacement> placements) {
    List<String> lines = new ArrayList<>();
    for (LoggedPlacement p : placements) {
      lines.add(
          String.join(
              "\u0000",
              p.panel(),
              p.column() + "/" + p.row(),
              p.ref(),
              number(p.dxMm()),
              number(p.dyMm()),
              number(p.dRotationDeg()) + p.fault().map(k -> "\u0000" + k.key()).orElse("")));
    }
    Collections.sort(lines);
    MessageDigest d = sha256();
    d.update(job.getBytes(StandardCharsets.UTF_8));
    for (String line : lines) {
      d.update((byte) '\n');
      d.update(line.getBytes(StandardCharsets.UTF_8));
    }
    return HexFormat.of().formatHex(d.digest());
  }

  private static String number(double v) {
    if (Double.isNaN(v)) {
      return "";
    }
    String s = String.format(Locale.ROOT, "%.6f", v);
    return s.equals("-0.000000") ? "0.000000" : s;
  }

  static String ofFile(Path file) throws IOException {
    MessageDigest d = sha256();
    try (InputStream in = Files.newInputStream(file)) {
      byte[] buffer = new byte[1 << 16];
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        d.update(buffer, 0, n);
      }
    }
    return HexFormat.of().formatHex(d.digest());
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
