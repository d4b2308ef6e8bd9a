package org.padtrue.load.standard;

/** Bounds that grow with points, mm. */
public final class StandardBox {
  private double minX = Double.POSITIVE_INFINITY;
  private double minY = Double.POSITIVE_INFINITY;
  private double maxX = Double.NEGATIVE_INFINITY;
  private double maxY = Double.NEGATIVE_INFINITY;

  /** Takes a point in. */
  public void add(double x, double y) {
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x);
    maxY = Math.max(maxY, y);
  }

  /** Takes another box in. */
  public void add(StandardBox other) {
    minX = Math.min(minX, other.minX);
    minY = Math.min(minY, other.minY);
    maxX = Math.max(maxX, other.maxX);
    maxY = Math.max(maxY, other.maxY);
  }

  /** True when it has no extent. */
  public boolean isEmpty() {
    return !(maxX > minX && maxY > minY);
  }

  /** Length along x, mm. */
  public double length() {
    return maxX - minX;
  }

  /** Width along y, mm. */
  public double width() {
    return maxY - minY;
  }

  /** Middle, mm. */
  public double midX() {
    return (minX + maxX) / 2;
  }

  /** Middle, mm. */
  public double midY() {
    return (minY + maxY) / 2;
  }

  /** True when a point lies inside, or less than a margin outside. */
  public boolean near(double x, double y, double margin) {
    return x >= minX - margin && x <= maxX + margin && y >= minY - margin && y <= maxY + margin;
  }
}
