package org.padtrue.imaging.picture;

/**
 * A window of a picture as plain numbers.
 *
 * @param x0 left column in the picture
 * @param y0 top row
 * @param width px
 * @param height px
 * @param values blue, green, red of each pixel, row by row, 0 to 255
 */
public record Plane(int x0, int y0, int width, int height, byte[] values) {

  public boolean holds(int x, int y) {
    return x >= x0 && y >= y0 && x < x0 + width && y < y0 + height;
  }
}
