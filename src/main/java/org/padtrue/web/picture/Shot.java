package org.padtrue.web.picture;

import org.padtrue.quantity.Angles;

/**
 * How a measured picture lies on the panel, as far as a page needs it: a similarity around each
 * reading.
 *
 * @param file its name in the article's folder of pictures
 * @param width px
 * @param height px
 * @param pxPerMm scale at the panel's middle
 * @param rotationDeg direction of the panel's x in the picture, counter-clockwise
 * @param mirrored seen through from behind
 * @param sentence how it was registered
 */
record Shot(
    String file,
    int width,
    int height,
    double pxPerMm,
    double rotationDeg,
    boolean mirrored,
    String sentence) {

  /** Picture direction, px with y down, of a step on the panel, mm. */
  double[] toPicture(double dxMm, double dyMm) {
    double c = Angles.cosDeg(rotationDeg) * pxPerMm;
    double s = Angles.sinDeg(rotationDeg) * pxPerMm;
    // a mirrored view counts its direction the other way round
    double x = mirrored ? c * dxMm + s * dyMm : c * dxMm - s * dyMm;
    double y = mirrored ? s * dxMm - c * dyMm : s * dxMm + c * dyMm;
    return new double[] {x, -y};
  }

  /** Step on the panel, mm, of a picture step, px with y down. */
  double[] toPanel(double dxPx, double dyPx) {
    double[] ex = toPicture(1, 0);
    double[] ey = toPicture(0, 1);
    double det = ex[0] * ey[1] - ex[1] * ey[0];
    return new double[] {(dxPx * ey[1] - dyPx * ey[0]) / det, (ex[0] * dyPx - ex[1] * dxPx) / det};
  }
}
