package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/** Invented parts that no rectangle describes: an angle, a pill with round ends, a hook. */
public final class OddShapes {
  /** An angle of which the part type says nothing but its lands. */
  public static final PartType ANGLE =
      new PartType(
          "ANGLE",
          JointKind.OTHER,
          1,
          false,
          null,
          Double.NaN,
          List.of(),
          List.of(new Rect(-0.9, -1.2, 1.4, 1.0), new Rect(1.3, 0.9, 1.0, 1.4)),
          null,
          null);

  /** A pill whose body is only a box around it. */
  public static final PartType PILL =
      new PartType(
          "PILL",
          JointKind.OTHER,
          2,
          false,
          new Rect(0, 0, 3.2, 1.8),
          0.6,
          List.of(),
          List.of(new Rect(-1.5, 0, 0.9, 1.2), new Rect(1.5, 0, 0.9, 1.2)),
          null,
          null);

  private OddShapes() {}

  static boolean has(PartType t) {
    return t.name().equals("ANGLE") || t.name().equals("PILL");
  }

  /** The body: corners, part frame, mm. */
  static double[][] body(PartType t) {
    if (t.name().equals("ANGLE")) {
      return new double[][] {
        {-1.6, -1.5}, {1.6, -1.5}, {1.6, 1.5}, {0.4, 1.5}, {0.4, -0.4}, {-1.6, -0.4}
      };
    }
    List<double[]> p = new ArrayList<>();
    for (int i = 0; i <= 24; i++) {
      double a = -Math.PI / 2 + Math.PI * i / 24;
      p.add(new double[] {0.7 + 0.9 * Math.cos(a), 0.9 * Math.sin(a)});
    }
    for (int i = 0; i <= 24; i++) {
      double a = Math.PI / 2 + Math.PI * i / 24;
      p.add(new double[] {-0.7 + 0.9 * Math.cos(a), 0.9 * Math.sin(a)});
    }
    return p.toArray(new double[0][]);
  }

  /** Bright metal on top of the body. */
  static List<Rect> metal(PartType t) {
    return t.name().equals("ANGLE")
        ? List.of(new Rect(-1.2, -0.95, 0.6, 0.8), new Rect(1.0, 1.1, 0.9, 0.5))
        : List.of(new Rect(-0.9, 0, 0.25, 1.3), new Rect(0.9, 0, 0.25, 1.3));
  }
}
