package org.padtrue.web.bench;

import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Arrays;
import java.util.Optional;
import java.util.zip.CRC32;
import org.padtrue.web.server.StoredText;

/**
 * One line of the journal: {@code e1, sequence, milliseconds, kind, placement, dx, dy, drotation,
 * u, urotation, text, check sum}, blanks between, texts percent-encoded. A line that a crash cut
 * short fails its check sum.
 */
public final class EntryLine {
  private static final String VERSION = "e1";
  private static final int FIELDS = 12;
  private static final int PLACEMENT = 4;

  private EntryLine() {}

  static String write(Entry e) {
    String body =
        String.join(
            " ",
            VERSION,
            Long.toString(e.sequence()),
            Long.toString(e.at().toEpochMilli()),
            e.kind().name(),
            encode(e.placement()),
            Double.toString(e.dxMm()),
            Double.toString(e.dyMm()),
            Double.toString(e.dRotationDeg()),
            Double.toString(e.uMm()),
            Double.toString(e.uRotationDeg()),
            encode(e.text()));
    return body + " " + sum(body);
  }

  /** The entry of a whole line, or nothing. */
  public static Optional<Entry> read(String line) {
    String[] f = line.split(" ", -1);
    int last = line.lastIndexOf(' ');
    if (f.length != FIELDS
        || !f[0].equals(VERSION)
        || !sum(line.substring(0, last)).equals(f[FIELDS - 1])) {
      return Optional.empty();
    }
    boolean known = Arrays.stream(Entry.Kind.values()).anyMatch(k -> k.name().equals(f[3]));
    // else whole, but of a kind that a newer program writes
    return known ? Optional.of(entry(f)) : Optional.empty();
  }

  /** The placement of a damaged line, as far as it can be read; else empty. */
  static String placement(String line) {
    String[] f = line.split(" ", -1);
    String key = f.length > PLACEMENT ? StoredText.decoded(f[PLACEMENT]).orElse("") : "";
    return key.matches("[^/]+/\\d{1,6}/\\d{1,6}/[^\uFFFD]+") ? key : "";
  }

  private static Entry entry(String[] f) {
    return new Entry(
        Long.parseLong(f[1]),
        Instant.ofEpochMilli(Long.parseLong(f[2])),
        Entry.Kind.valueOf(f[3]),
        decode(f[4]),
        Double.parseDouble(f[5]),
        Double.parseDouble(f[6]),
        Double.parseDouble(f[7]),
        Double.parseDouble(f[8]),
        Double.parseDouble(f[9]),
        decode(f[10]));
  }

  private static String sum(String body) {
    CRC32 crc = new CRC32();
    crc.update(body.getBytes(StandardCharsets.UTF_8));
    return Long.toHexString(crc.getValue());
  }

  private static String encode(String s) {
    return URLEncoder.encode(s, StandardCharsets.UTF_8);
  }

  private static String decode(String s) {
    return URLDecoder.decode(s, StandardCharsets.UTF_8);
  }
}
