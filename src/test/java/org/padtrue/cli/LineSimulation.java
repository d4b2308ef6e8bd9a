package org.padtrue.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;

/**
 * A line with files: places what a placement file says, with known errors, and writes what a camera
 * sees. Its mapping between the file's axes and the panel is its own, so that a sign that is wrong
 * in the program cannot cancel here. Lengths mm, angles degrees.
 */
final class LineSimulation {
  boolean bottom;
  boolean fromBottom;
  boolean yDown;
  boolean clockwise;
  boolean wholePanel;
  int boards = 1;
  double pitch = 50;
  double shiftX;
  double shiftY;
  double turnDeg;
  double scatter = 0.002;
  double rotationScatter = 0.01;
  double nozzle2X;
  String machine = "";
  final Map<String, double[]> offset = new LinkedHashMap<>();
  private final Random random;
  private final List<Part> parts = new ArrayList<>();

  /** What the design wants, seen from the placed side, y up, counter-clockwise, board frame. */
  record Part(String ref, String type, double x, double y, double turn) {}

  LineSimulation(long seed, int count, String... types) {
    random = new Random(seed);
    for (int i = 0; i < count; i++) {
      parts.add(
          new Part(
              "R" + (i + 1),
              types[i % types.length],
              round(40 * random.nextDouble()),
              round(30 * random.nextDouble()),
              90 * ((i / types.length) % 4) + (i % 7 == 0 ? 30 : 0)));
    }
  }

  private static double round(double v) {
    return Math.rint(100 * v) / 100;
  }

  private double signX() {
    return bottom && !fromBottom ? -1 : 1;
  }

  private double signY() {
    return yDown ? -1 : 1;
  }

  /** Through the board a turn looks the other way round, and a clockwise file counts it so. */
  private double signTurn() {
    return (clockwise ? -1 : 1) * (bottom && !fromBottom ? -1 : 1);
  }

  String job(String name, String placements) {
    return String.format(
        Locale.ROOT,
        "{\"name\": \"%s\", \"side\": \"%s\", \"placements\": \"%s\", \"units\": \"mm\", \"axes\":"
            + " {\"y\": \"%s\", \"rotation\": \"%s\", \"bottomX\": \"%s\"}%s%s}",
        name,
        bottom ? "bottom" : "top",
        placements,
        yDown ? "down" : "up",
        clockwise ? "clockwise" : "counterclockwise",
        fromBottom ? "asSeenFromBottom" : "asSeenFromTop",
        boards > 1 && !wholePanel
            ? ", \"panel\": {\"columns\": "
                + boards
                + ", \"rows\": 1, \"boards\": [{\"column\": 1, \"row\": 1, \"x\": 0, \"y\": 0},"
                + " {\"column\": "
                + boards
                + ", \"row\": 1, \"x\": "
                + pitch * (boards - 1)
                + ", \"y\": 0}]}"
            : "",
        machine);
  }

  /** The placement file; a row of the other side must be left alone by everything. */
  String placements() {
    StringBuilder b = new StringBuilder("# units: mm\r\nRef,Part,X,Y,Rotation,Side,Nozzle\r\n");
    for (int k = 0; k < (wholePanel ? boards : 1); k++) {
      for (Part p : parts) {
        b.append(
            String.format(
                Locale.ROOT,
                "%s,%s,%.2f,%.2f,%.1f,%s,%s\r\n",
                p.ref,
                p.type,
                signX() * (p.x + k * pitch),
                signY() * p.y,
                signTurn() * p.turn,
                bottom ? "B" : "T",
                nozzle(p)));
      }
    }
    return b.append("X1,other,3.0,4.0,90,").append(bottom ? "T" : "B").append(",N1\r\n").toString();
  }

  private String nozzle(Part p) {
    return "N" + (1 + parts.indexOf(p) / 2 % 2);
  }

  /**
   * What a camera sees of a panel that was placed by a file, as an article of deviations from the
   * design.
   *
   * @param file text of the placement file that the machine has
   * @param share how much of what the file changed the machine takes over: 1 all of it; -1 as if
   *     every sign were wrong
   */
  String article(String file, double share) {
    StringBuilder b = new StringBuilder("ref,column,row,dx,dy,drotation,nozzle\n");
    String[] lines = file.split("\r\n");
    double phi = Math.toRadians(turnDeg);
    for (int k = 0; k < boards; k++) {
      for (int i = 0; i < parts.size(); i++) {
        Part p = parts.get(i);
        double[] said = said(lines[2 + i + (wholePanel ? k * parts.size() : 0)]);
        double x = p.x + k * pitch;
        double addX = said[0] - (wholePanel ? x : p.x);
        double addY = said[1] - p.y;
        double addTurn = Math.IEEEremainder(said[2] - p.turn, 360);
        double t = Math.toRadians(p.turn);
        double[] o = offset.getOrDefault(p.type, new double[3]);
        double ox = o[0] + (nozzle(p).equals("N2") ? nozzle2X : 0);
        double dx = shiftX + Math.cos(t) * ox - Math.sin(t) * o[1];
        double dy = shiftY + Math.sin(t) * ox + Math.cos(t) * o[1];
        dx += (Math.cos(phi) - 1) * x - Math.sin(phi) * p.y;
        dy += Math.sin(phi) * x + (Math.cos(phi) - 1) * p.y;
        b.append(
            String.format(
                Locale.ROOT,
                "%s,%d,1,%.6f,%.6f,%.5f,%s\n",
                p.ref,
                k + 1,
                dx + share * addX + scatter * random.nextGaussian(),
                dy + share * addY + scatter * random.nextGaussian(),
                turnDeg + o[2] + share * addTurn + rotationScatter * random.nextGaussian(),
                nozzle(p)));
      }
    }
    return b.toString();
  }

  /** A row as the design's frame has it. */
  private double[] said(String line) {
    String[] c = line.split(",");
    return new double[] {
      signX() * Double.parseDouble(c[2]),
      signY() * Double.parseDouble(c[3]),
      signTurn() * Double.parseDouble(c[4])
    };
  }

  static Path write(Path file, String text) {
    try {
      return Files.write(file, text.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
