package org.padtrue.imaging;

import org.padtrue.imaging.map.CameraModel;
import org.padtrue.panel.Stage;

/** How a picture is taken. Settings do not change: every method gives new ones. */
public final class RenderSettings implements Cloneable {
  static final int[] GREEN = {48, 92, 24};
  static final int[] RED = {36, 22, 150};
  static final int[] BLACK = {34, 34, 32};

  /** Scale at the board. */
  private double pxPerMm;

  /** Defocus, standard deviation, px. */
  private double blurPx = 0.8;

  /** Length of motion blur along x, px. */
  private double motionPx;

  /** Standard deviation of each channel at mid grey, grey levels (mostly shot noise). */
  private double noise = 2;

  /** Loss of light in the corner, share. */
  private double vignette = 0.08;

  /** 0 for none. */
  private int jpegQuality;

  /** Infinite for a telecentric view. */
  private double cameraDistanceMm = Double.POSITIVE_INFINITY;

  /** Distortion, or null. */
  private CameraModel lens;

  /** Of the device's axes: x stretched and y shrunk by so much, ratio. */
  private double scaleDifference;

  /** Of the device's axes: each leans towards the other by so much, ratio. */
  private double squareness;

  /** Camera off the vertical about the panel's y. */
  private double tiltDeg;

  /** The panel in the picture, counter-clockwise. */
  private double turnDeg;

  /** Seen from behind. */
  private boolean mirrored;

  /** Horizontal direction towards the lamp, degrees. */
  private double light = 35;

  /** Darkness of shadows, 0 none to 1. */
  private double shadow = 0.45;

  /** Strength of all surface texture, 1 usual. */
  private double texture = 1;

  /** Ground around the panel. */
  private double marginMm = 3;

  /**
   * Raster cells to a pixel, each way. Blur after pixels would leave a pattern locked to the pixels
   * that moves edges by up to 0.03 px; a cell of half a pixel leaves a tenth of that.
   */
  private int fine = 2;

  /** What the fiducials look like. */
  private MarkShape marks = MarkShape.ROUND;

  /** Bare lands, paste or solder. */
  private Stage stage = Stage.PASTE;

  /** Blue, green, red of the solder mask. */
  private int[] mask = GREEN;

  /** Of everything random. */
  private long seed = 1;

  private RenderSettings(double pxPerMm) {
    this.pxPerMm = pxPerMm;
  }

  public static RenderSettings at(double pxPerMm) {
    return new RenderSettings(pxPerMm);
  }

  public RenderSettings blur(double px) {
    RenderSettings c = copy();
    c.blurPx = px;
    return c;
  }

  RenderSettings motion(double px) {
    RenderSettings c = copy();
    c.motionPx = px;
    return c;
  }

  public RenderSettings noise(double sd) {
    RenderSettings c = copy();
    c.noise = sd;
    return c;
  }

  public RenderSettings jpeg(int quality) {
    RenderSettings c = copy();
    c.jpegQuality = quality;
    return c;
  }

  RenderSettings distance(double mm) {
    RenderSettings c = copy();
    c.cameraDistanceMm = mm;
    return c;
  }

  RenderSettings lens(CameraModel model) {
    RenderSettings c = copy();
    c.lens = model;
    return c;
  }

  RenderSettings axes(double difference, double lean) {
    RenderSettings c = copy();
    c.scaleDifference = difference;
    c.squareness = lean;
    return c;
  }

  RenderSettings tilt(double deg) {
    RenderSettings c = copy();
    c.tiltDeg = deg;
    return c;
  }

  public RenderSettings turn(double deg) {
    RenderSettings c = copy();
    c.turnDeg = deg;
    return c;
  }

  RenderSettings fromBehind() {
    RenderSettings c = copy();
    c.mirrored = true;
    return c;
  }

  RenderSettings marks(MarkShape shape) {
    RenderSettings c = copy();
    c.marks = shape;
    return c;
  }

  public RenderSettings light(double deg, double darkness) {
    RenderSettings c = copy();
    c.light = deg;
    c.shadow = darkness;
    return c;
  }

  /** Plain surfaces: no texture, no shadow, no vignetting, bare board below the parts. */
  RenderSettings plain() {
    RenderSettings c = copy();
    c.vignette = 0;
    c.shadow = 0;
    c.texture = 0;
    return c;
  }

  RenderSettings mask(int[] colour) {
    RenderSettings c = copy();
    c.mask = colour;
    return c;
  }

  RenderSettings stage(Stage s) {
    RenderSettings c = copy();
    c.stage = s;
    return c;
  }

  RenderSettings margin(double mm) {
    RenderSettings c = copy();
    c.marginMm = mm;
    return c;
  }

  RenderSettings fine(int cells) {
    RenderSettings c = copy();
    c.fine = cells;
    return c;
  }

  public RenderSettings seed(long s) {
    RenderSettings c = copy();
    c.seed = s;
    return c;
  }

  private RenderSettings copy() {
    try {
      return (RenderSettings) clone();
    } catch (CloneNotSupportedException e) {
      throw new AssertionError(e);
    }
  }

  double pxPerMm() {
    return pxPerMm;
  }

  double blurPx() {
    return blurPx;
  }

  double motionPx() {
    return motionPx;
  }

  public double noise() {
    return noise;
  }

  double vignette() {
    return vignette;
  }

  int jpegQuality() {
    return jpegQuality;
  }

  double cameraDistanceMm() {
    return cameraDistanceMm;
  }

  CameraModel lens() {
    return lens;
  }

  double scaleDifference() {
    return scaleDifference;
  }

  double squareness() {
    return squareness;
  }

  double tiltDeg() {
    return tiltDeg;
  }

  double turnDeg() {
    return turnDeg;
  }

  boolean mirrored() {
    return mirrored;
  }

  public double light() {
    return light;
  }

  double shadow() {
    return shadow;
  }

  double texture() {
    return texture;
  }

  double marginMm() {
    return marginMm;
  }

  int fine() {
    return fine;
  }

  MarkShape marks() {
    return marks;
  }

  Stage stage() {
    return stage;
  }

  int[] mask() {
    return mask;
  }

  public long seed() {
    return seed;
  }
}
