package org.padtrue.mixed;

/**
 * Which fixed terms a model of positions has.
 *
 * @param family panel transform
 * @param array steps per board column and row
 * @param common offset in the part frame that all parts share
 * @param settling linear in the placing order
 */
public record Terms(PanelFamily family, boolean array, boolean common, boolean settling) {
  /** The same terms with another family. */
  public Terms with(PanelFamily f) {
    return new Terms(f, array, common, settling);
  }

  /** The same terms with or without the array. */
  public Terms withArray(boolean a) {
    return new Terms(family, a, common, settling);
  }

  /** The same terms with or without the common offset. */
  public Terms withCommon(boolean c) {
    return new Terms(family, array, c, settling);
  }

  /** The same terms with or without settling. */
  public Terms withSettling(boolean s) {
    return new Terms(family, array, common, s);
  }
}
