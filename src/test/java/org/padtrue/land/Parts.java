package org.padtrue.land;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Tolerance;

/** Part types for tests, with round numbers. */
public final class Parts {
  private Parts() {}

  /** The chip of the part file example: 1.6 x 0.8, terminations 0.3 long, lands 0.9 x 0.9. */
  public static PartType chip() {
    return part(
        "R0603",
        JointKind.CHIP,
        2,
        List.of(new Rect(-0.65, 0, 0.3, 0.8), new Rect(0.65, 0, 0.3, 0.8)),
        List.of(new Rect(-0.75, 0, 0.9, 0.9), new Rect(0.75, 0, 0.9, 0.9)),
        null);
  }

  /** A chip body L x W with lands exactly as wide, reaching 0.5 beyond and 0.5 under. */
  static PartType chipOnEqualLands(double length, double width) {
    double term = length / 5;
    double x = length / 2 - term / 2;
    return part(
        "chip",
        JointKind.CHIP,
        2,
        List.of(new Rect(-x, 0, term, width), new Rect(x, 0, term, width)),
        List.of(new Rect(-x, 0, term + 1, width), new Rect(x, 0, term + 1, width)),
        null);
  }

  /** Two columns of leads, 1.27 pitch: feet 0.8 x 0.4 on lands 1.5 x 0.6. */
  public static PartType soic(int leads) {
    List<Rect> feet = new ArrayList<>();
    List<Rect> lands = new ArrayList<>();
    int side = leads / 2;
    for (int i = 0; i < leads; i++) {
      double y = 1.27 * ((side - 1) / 2.0 - i % side);
      int sign = i < side ? -1 : 1;
      feet.add(new Rect(sign * 2.6, y, 0.8, 0.4));
      lands.add(new Rect(sign * 2.6, y, 1.5, 0.6));
    }
    return part("SOIC", JointKind.GULL_WING, 1, feet, lands, null);
  }

  /** Balls of 0.5 on a square grid of 0.8, lands of 0.4. */
  public static PartType balls(int perSide) {
    List<Rect> balls = new ArrayList<>();
    List<Rect> lands = new ArrayList<>();
    for (int i = 0; i < perSide * perSide; i++) {
      double x = 0.8 * (i % perSide - (perSide - 1) / 2.0);
      double y = 0.8 * (i / perSide - (perSide - 1) / 2.0);
      balls.add(new Rect(x, y, 0.5, 0.5));
      lands.add(new Rect(x, y, 0.4, 0.4));
    }
    return part("BGA", JointKind.BALL, 1, balls, lands, null);
  }

  public static PartType withTolerance(double x, double y, double rotation) {
    return part("T", JointKind.CHIP, 1, List.of(), List.of(), new Tolerance(x, y, rotation));
  }

  public static PartType box(String name, double length, double width, double zMin, double zMax) {
    return new PartType(
        name,
        JointKind.OTHER,
        1,
        false,
        null,
        Double.NaN,
        List.of(),
        List.of(),
        new Envelope(length, width, zMin, zMax),
        null);
  }

  static PartType part(
      String name,
      JointKind kind,
      int symmetry,
      List<Rect> terminations,
      List<Rect> lands,
      @Nullable Tolerance tolerance) {
    return new PartType(
        name, kind, symmetry, false, null, Double.NaN, terminations, lands, null, tolerance);
  }
}
