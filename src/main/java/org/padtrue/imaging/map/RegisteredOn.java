package org.padtrue.imaging.map;

/** What a picture was laid onto the panel by. */
public enum RegisteredOn {
  /** Fiducials. */
  FIDUCIALS("fiducials"),
  /** Lands that show beside the parts: panel shift and rotation are those against the copper. */
  LANDS("lands"),
  /** The parts themselves: panel shift and rotation cannot be known any more. */
  PARTS("parts"),
  /** A camera whose position was given. */
  CAMERA("camera position");

  private final String word;

  RegisteredOn(String word) {
    this.word = word;
  }

  /** In words. */
  public String word() {
    return word;
  }
}
