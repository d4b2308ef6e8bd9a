package org.padtrue.imaging.picture;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * Holds the picture last read, so that drawing what was measured in a large one need not decode it
 * again. Not for several threads.
 */
public final class OpenPicture implements AutoCloseable {
  private @Nullable Path file;
  private @Nullable Picture picture;

  /** The decoded picture; owned by this, and closed when another is asked for. */
  public Picture read(Path wanted) {
    Picture held = picture;
    if (held != null && wanted.equals(file)) {
      return held;
    }
    close();
    Picture fresh = PictureReader.read(wanted);
    picture = fresh;
    file = wanted;
    return fresh;
  }

  @Override
  public void close() {
    if (picture != null) {
      picture.close();
    }
    picture = null;
    file = null;
  }
}
