package org.padtrue.imaging;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What every way of laying a picture onto the panel starts from, its spots and its lines: found
 * when first asked for, and once only, since each takes longer than decoding the picture.
 */
final class Features {
  private final Picture picture;
  private @Nullable List<Blobs.Spot> spots;
  private @Nullable LineTilt lines;

  /** Those of the same picture the other way round; null when this is the picture as it is. */
  private final @Nullable Features unflipped;

  private Features(Picture picture, @Nullable Features unflipped) {
    this.picture = picture;
    this.unflipped = unflipped;
  }

  static Features of(Picture picture) {
    return new Features(picture, null);
  }

  Picture picture() {
    return picture;
  }

  synchronized List<Blobs.Spot> spots() {
    if (spots == null) {
      spots =
          unflipped == null
              ? List.copyOf(Blobs.find(picture))
              : unflipped.spots().stream().map(s -> s.mirrored(picture.width())).toList();
    }
    return spots;
  }

  synchronized LineTilt lines() {
    if (lines == null) {
      lines = unflipped == null ? LineTilt.of(picture) : unflipped.lines().mirrored();
    }
    return lines;
  }

  /**
   * The same of the picture with left and right exchanged.
   *
   * @param flipped that picture
   */
  Features mirrored(Picture flipped) {
    return new Features(flipped, this);
  }
}
