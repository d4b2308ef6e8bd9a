package org.padtrue.demo;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The part types of the sample as a parts file. Invented parts with outlines of the usual sizes;
 * lengths mm, angles degrees.
 */
final class PartSheet {
  private final List<String> parts = new ArrayList<>();

  static String json() {
    PartSheet s = new PartSheet();
    s.chips();
    s.leaded();
    s.noLeads();
    return "{\"parts\": [\n" + String.join(",\n", s.parts) + "\n]}\n";
  }

  private void chips() {
    chip("R0603", 2, true, box(1.6, 0.8, 0.45), 0.30, 0.80, 0.90, 0.90, "");
    chip("C0603", 2, true, box(1.6, 0.8, 0.80), 0.35, 0.80, 0.90, 0.90, "");
    chip("C0805", 2, true, box(2.0, 1.25, 1.25), 0.50, 0.95, 1.00, 1.35, "");
    chip("R1206", 2, true, box(3.2, 1.6, 0.55), 0.50, 1.50, 1.10, 1.70, "");
    // The light has to meet its window, which is tighter than the joint.
    chip(
        "LED0805", 1, true, box(2.0, 1.25, 0.80), 0.40, 0.95, 1.00, 1.35, tolerance(0.12, 0.12, 3));
    chip("L4018", 2, false, box(4.0, 4.0, 1.80), 1.10, 1.55, 1.60, 3.60, "");
  }

  private void leaded() {
    double[][] sot = {{-0.95, -1.05}, {0.95, -1.05}, {0, 1.05}};
    part(
        "SOT23",
        "gullWing",
        1,
        true,
        box(2.9, 1.3, 1.0),
        pads(sot, 0.42, 0.50),
        pads(sot, 0.65, 1.10),
        envelope(2.9, 2.6, 1.0),
        "");
    double[][] sod = {{-1.70, 0}, {1.70, 0}};
    part(
        "SOD123",
        "gullWing",
        1,
        true,
        box(2.7, 1.6, 1.1),
        pads(sod, 0.50, 0.60),
        pads(sod, 1.10, 0.95),
        envelope(3.9, 1.6, 1.1),
        "");
    double[][] soic = rows(4, 1.27, 2.75);
    part(
        "SOIC8",
        "gullWing",
        1,
        true,
        box(4.9, 3.9, 1.5),
        pads(soic, 0.42, 0.60),
        pads(soic, 0.62, 1.50),
        envelope(4.9, 6.1, 1.5),
        "");
    double[][] header = rows(5, 1.27, 2.20);
    // The envelope is the pick-up cap: wider and taller than the connector that stays.
    part(
        "HDR10",
        "gullWing",
        1,
        false,
        box(6.4, 3.4, 4.3),
        pads(header, 0.40, 1.00),
        pads(header, 0.75, 1.90),
        envelope(9.0, 7.0, 7.2),
        tolerance(0.15, 0.20, 2));
  }

  private void noLeads() {
    double[][] crystal = {{-1.1, -0.8}, {1.1, -0.8}, {1.1, 0.8}, {-1.1, 0.8}};
    part(
        "X3225",
        "noLead",
        2,
        true,
        box(3.2, 2.5, 0.7),
        pads(crystal, 0.90, 0.75),
        pads(crystal, 1.30, 1.10),
        envelope(3.2, 2.5, 0.7),
        "");
    part(
        "QFN32",
        "noLead",
        1,
        true,
        box(5, 5, 0.85),
        quad(2.30, 0.40, 0.25, 3.45),
        quad(2.42, 0.80, 0.30, 3.45),
        envelope(5, 5, 0.85),
        "");
  }

  private void chip(
      String name,
      int symmetry,
      boolean selfCentres,
      double[] body,
      double end,
      double landX,
      double landLength,
      double landWidth,
      String tolerance) {
    double x = (body[0] - end) / 2;
    part(
        name,
        "chip",
        symmetry,
        selfCentres,
        body,
        pads(new double[][] {{-x, 0}, {x, 0}}, end, body[1]),
        pads(new double[][] {{-landX, 0}, {landX, 0}}, landLength, landWidth),
        envelope(body[0], body[1], body[2]),
        tolerance);
  }

  private void part(
      String name,
      String kind,
      int symmetry,
      boolean selfCentres,
      double[] body,
      List<String> terminations,
      List<String> lands,
      String envelope,
      String tolerance) {
    parts.add(
        text("{\"name\": \"%s\", \"kind\": \"%s\", \"symmetry\": %d, ", name, kind, symmetry)
            + "\"selfCentres\": "
            + selfCentres
            + text(
                ",%n \"body\": {\"length\": %s, \"width\": %s, \"height\": %s},%n",
                number(body[0]), number(body[1]), number(body[2]))
            + " \"terminations\": [\n  "
            + String.join(",\n  ", terminations)
            + "],\n \"lands\": [\n  "
            + String.join(",\n  ", lands)
            + "],\n "
            + envelope
            + (tolerance.isEmpty() ? "" : ",\n " + tolerance)
            + "}");
  }

  private static double[] box(double length, double width, double height) {
    return new double[] {length, width, height};
  }

  private static List<String> pads(double[][] at, double length, double width) {
    List<String> out = new ArrayList<>();
    for (double[] p : at) {
      out.add(pad(p[0], p[1], length, width));
    }
    return out;
  }

  private static String pad(double x, double y, double length, double width) {
    return text(
        "{\"x\": %s, \"y\": %s, \"length\": %s, \"width\": %s}",
        number(x), number(y), number(length), number(width));
  }

  /** Two rows of leads along x, counter-clockwise from the lower left. */
  private static double[][] rows(int perRow, double pitch, double y) {
    double[][] at = new double[2 * perRow][];
    for (int i = 0; i < perRow; i++) {
      double x = (i - (perRow - 1) / 2.0) * pitch;
      at[i] = new double[] {x, -y};
      at[2 * perRow - 1 - i] = new double[] {x, y};
    }
    return at;
  }

  /** Eight terminals on each of four sides, pitch 0.5, and the pad in the middle. */
  private static List<String> quad(double at, double length, double width, double middle) {
    List<String> out = new ArrayList<>();
    for (int side = 0; side < 4; side++) {
      for (int i = 0; i < 8; i++) {
        double along = (i - 3.5) * 0.5;
        switch (side) {
          case 0 -> out.add(pad(-at, -along, length, width));
          case 1 -> out.add(pad(along, -at, width, length));
          case 2 -> out.add(pad(at, along, length, width));
          default -> out.add(pad(-along, at, width, length));
        }
      }
    }
    out.add(pad(0, 0, middle, middle));
    return out;
  }

  private static String envelope(double length, double width, double zMax) {
    return text(
        "\"envelope\": {\"length\": %s, \"width\": %s, \"zMin\": 0, \"zMax\": %s}",
        number(length), number(width), number(zMax));
  }

  private static String tolerance(double x, double y, double rotation) {
    return text(
        "\"tolerance\": {\"x\": %s, \"y\": %s, \"rotation\": %s}",
        number(x), number(y), number(rotation));
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values).replace("\r\n", "\n");
  }

  private static String number(double v) {
    return new java.math.BigDecimal(v)
        .setScale(4, java.math.RoundingMode.HALF_EVEN)
        .stripTrailingZeros()
        .toPlainString();
  }
}
