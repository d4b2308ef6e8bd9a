package org.padtrue.imaging.registration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.picture.Blobs;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.RimContrast;

/**
 * What every way of laying a picture onto the panel starts from, its spots and its lines: found
 * when first asked for, and once only, since each takes longer than decoding the picture.
 */
public final class Features {
  /** Spots that are kept of those best in shape, and of those with the plainest rim. */
  private static final int LIKELY = 100;

  private final Picture picture;
  private @Nullable List<Blobs.Spot> spots;
  private @Nullable List<Blobs.Spot> likelySpots;
  private @Nullable LineTilt lines;

  /** Those of the same picture the other way round; null when this is the picture as it is. */
  private final @Nullable Features unflipped;

  private Features(Picture picture, @Nullable Features unflipped) {
    this.picture = picture;
    this.unflipped = unflipped;
  }

  public static Features of(Picture picture) {
    return new Features(picture, null);
  }

  public Picture picture() {
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

  /**
   * The spots that look most like fiducials, by their shape or by their rim: where few fiducials
   * show, every pair of spots would be too many. Of 44 fiducials in 15 pictures, as found, small,
   * blurred, turned and in a margin, the last one was the 69th by shape or rim.
   */
  synchronized List<Blobs.Spot> likelySpots() {
    if (likelySpots == null) {
      likelySpots =
          unflipped == null
              ? likeliest()
              : unflipped.likelySpots().stream().map(s -> s.mirrored(picture.width())).toList();
    }
    return likelySpots;
  }

  private List<Blobs.Spot> likeliest() {
    List<Blobs.Spot> byShape = spots();
    Map<Blobs.Spot, Double> rim = new HashMap<>();
    for (Blobs.Spot s : byShape) {
      rim.put(s, RimContrast.of(picture, s.x(), s.y(), s.diameter() / 2));
    }
    List<Blobs.Spot> byRim = new ArrayList<>(byShape);
    byRim.sort(Comparator.comparing((Blobs.Spot s) -> -rim.getOrDefault(s, 0.0)));
    Set<Blobs.Spot> out = new LinkedHashSet<>();
    for (int i = 0; i < Math.min(LIKELY, byShape.size()); i++) {
      out.add(byShape.get(i));
      out.add(byRim.get(i));
    }
    return List.copyOf(out);
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
  public Features mirrored(Picture flipped) {
    return new Features(flipped, this);
  }
}
