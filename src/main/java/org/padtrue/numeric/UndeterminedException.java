package org.padtrue.numeric;

/**
 * The data do not determine what was asked for: too few points, points in line, columns that hang
 * together. More or better spread data mend it; misuse of a method is an {@link
 * IllegalArgumentException} and never this.
 */
public final class UndeterminedException extends RuntimeException {
  private static final long serialVersionUID = 1;

  /**
   * @param what what is not determined and why, as one clause
   */
  public UndeterminedException(String what) {
    super(what);
  }
}
