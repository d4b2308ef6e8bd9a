package org.padtrue.imaging.picture;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Optional;

/**
 * What the first bytes of a picture file say, read without decoding, so that a file that claims to
 * be enormous or that ends early is refused before any memory is spent on it.
 *
 * @param format "JPEG", "PNG", "TIFF" or "BMP"
 * @param width px as stored, before any turning by EXIF
 * @param height px
 * @param complete false when the file ends before its picture does
 */
public record PictureHeader(String format, long width, long height, boolean complete) {

  /** Reads the header; empty when the bytes are none of the known formats. */
  public static Optional<PictureHeader> of(byte[] b) {
    if (b.length > 24 && u8(b, 0) == 0x89 && b[1] == 'P' && b[2] == 'N' && b[3] == 'G') {
      return Optional.of(png(b));
    }
    if (b.length > 4 && u8(b, 0) == 0xFF && u8(b, 1) == 0xD8) {
      return jpeg(b);
    }
    if (b.length > 8 && (b[0] == 'I' && b[1] == 'I' && b[2] == 42 || b[0] == 'M' && b[3] == 42)) {
      return tiff(b);
    }
    if (b.length > 26 && b[0] == 'B' && b[1] == 'M') {
      ByteBuffer le = ByteBuffer.wrap(b).order(ByteOrder.LITTLE_ENDIAN);
      long size = Integer.toUnsignedLong(le.getInt(2));
      long h = Math.abs((long) le.getInt(22));
      return Optional.of(new PictureHeader("BMP", le.getInt(18), h, b.length >= size));
    }
    return Optional.empty();
  }

  private static PictureHeader png(byte[] b) {
    ByteBuffer be = ByteBuffer.wrap(b);
    long w = Integer.toUnsignedLong(be.getInt(16));
    long h = Integer.toUnsignedLong(be.getInt(20));
    long at = 8;
    boolean end = false;
    while (!end && at + 12 <= b.length) {
      long length = Integer.toUnsignedLong(be.getInt((int) at));
      end = be.getInt((int) at + 4) == 0x49454E44; // "IEND"
      at += 12 + length;
    }
    return new PictureHeader("PNG", w, h, end && at <= b.length);
  }

  private static Optional<PictureHeader> jpeg(byte[] b) {
    int at = 2;
    long w = 0;
    long h = 0;
    while (at + 9 < b.length && u8(b, at) == 0xFF) {
      int marker = u8(b, at + 1);
      if (marker == 0xFF) {
        at++;
        continue;
      }
      boolean frame =
          marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
      if (frame) {
        h = u8(b, at + 5) << 8 | u8(b, at + 6);
        w = u8(b, at + 7) << 8 | u8(b, at + 8);
      }
      if (marker == 0xDA) {
        break;
      }
      at += 2 + (u8(b, at + 2) << 8 | u8(b, at + 3));
    }
    if (w == 0 || h == 0) {
      return Optional.empty();
    }
    return Optional.of(new PictureHeader("JPEG", w, h, endsAfter(b, at)));
  }

  /** True when an end-of-image marker follows the scan; inside a scan FF is always stuffed. */
  private static boolean endsAfter(byte[] b, int from) {
    for (int i = b.length - 2; i > from; i--) {
      if (u8(b, i) == 0xFF && u8(b, i + 1) == 0xD9) {
        return true;
      }
    }
    return false;
  }

  private static Optional<PictureHeader> tiff(byte[] b) {
    ByteBuffer t =
        ByteBuffer.wrap(b).order(b[0] == 'I' ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
    long dir = Integer.toUnsignedLong(t.getInt(4));
    if (dir + 2 > b.length) {
      // The directory often stands at the end: a file cut short loses it.
      return Optional.of(new PictureHeader("TIFF", 1, 1, false));
    }
    int n = Short.toUnsignedInt(t.getShort((int) dir));
    long w = 0;
    long h = 0;
    for (int i = 0; i < n && dir + 2 + 12L * (i + 1) <= b.length; i++) {
      int e = (int) dir + 2 + 12 * i;
      int tag = Short.toUnsignedInt(t.getShort(e));
      int type = Short.toUnsignedInt(t.getShort(e + 2));
      long v =
          type == 3
              ? Short.toUnsignedInt(t.getShort(e + 8))
              : Integer.toUnsignedLong(t.getInt(e + 8));
      w = tag == 256 ? v : w;
      h = tag == 257 ? v : h;
    }
    return w == 0 || h == 0
        ? Optional.empty()
        : Optional.of(new PictureHeader("TIFF", w, h, dir + 2 + 12L * n <= b.length));
  }

  private static int u8(byte[] b, int i) {
    return b[i] & 0xFF;
  }
}
