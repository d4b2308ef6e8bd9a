package org.padtrue.imaging;

import org.padtrue.panel.Stage;

/**
 * How a picture is taken.
 *
 * @param pxPerMm scale at the board
 * @param blurPx defocus, standard deviation, px
 * @param motionPx length of motion blur along x, px
 * @param noise standard deviation of each channel at mid grey, grey levels (mostly shot noise)
 * @param vignette loss of light in the corner, share
 * @param jpegQuality 0 for none
 * @param cameraDistanceMm infinite for a telecentric view
 * @param lens distortion, or null
 * @param tiltDeg camera off the vertical about the panel's y
 * @param turnDeg the panel in the picture, counter-clockwise
 * @param mirrored seen from behind
 * @param light horizontal direction towards the lamp, degrees
 * @param shadow darkness of shadows, 0 none to 1
 * @param texture strength of all surface texture, 1 usual
 * @param marginMm ground around the panel
 * @param stage bare lands, paste or solder
 * @param mask blue, green, red of the solder mask
 * @param seed of everything random
 */
record RenderSettings(
    double pxPerMm,
    double blurPx,
    double motionPx,
    double noise,
    double vignette,
    int jpegQuality,
    double cameraDistanceMm,
    CameraModel lens,
    double tiltDeg,
    double turnDeg,
    boolean mirrored,
    double light,
    double shadow,
    double texture,
    double marginMm,
    Stage stage,
    int[] mask,
    long seed) {

  static final int[] GREEN = {48, 92, 24};
  static final int[] RED = {36, 22, 150};
  static final int[] BLACK = {34, 34, 32};

  static RenderSettings at(double pxPerMm) {
    return new RenderSettings(
        pxPerMm,
        0.8,
        0,
        2,
        0.08,
        0,
        Double.POSITIVE_INFINITY,
        null,
        0,
        0,
        false,
        35,
        0.45,
        1,
        3,
        Stage.PASTE,
        GREEN,
        1);
  }

  RenderSettings blur(double px) {
    return new RenderSettings(
        pxPerMm,
        px,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings motion(double px) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        px,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings noise(double sd) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        sd,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings jpeg(int quality) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        quality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings distance(double mm) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        mm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings lens(CameraModel model) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        model,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings tilt(double deg) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        deg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings turn(double deg) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        deg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings fromBehind() {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        true,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings light(double deg, double darkness) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        deg,
        darkness,
        texture,
        marginMm,
        stage,
        mask,
        seed);
  }

  /** Plain surfaces: no texture, no shadow, no vignetting, bare board below the parts. */
  RenderSettings plain() {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        0,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        0,
        0,
        marginMm,
        stage,
        mask,
        seed);
  }

  RenderSettings mask(int[] colour) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        colour,
        seed);
  }

  RenderSettings stage(Stage s) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        s,
        mask,
        seed);
  }

  RenderSettings seed(long s) {
    return new RenderSettings(
        pxPerMm,
        blurPx,
        motionPx,
        noise,
        vignette,
        jpegQuality,
        cameraDistanceMm,
        lens,
        tiltDeg,
        turnDeg,
        mirrored,
        light,
        shadow,
        texture,
        marginMm,
        stage,
        mask,
        s);
  }
}
