package org.padtrue.web.server;

/** One very object, as a part of a key: large values need not be compared. */
public record Same(Object object) {
  @Override
  public boolean equals(Object other) {
    return other instanceof Same s && s.object == object;
  }

  @Override
  public int hashCode() {
    return System.identityHashCode(object);
  }
}
