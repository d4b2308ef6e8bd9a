package org.padtrue.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;

/**
 * A line whose library counts the rotation of some part types from another zero, and whose trims
 * are typed in as {@code analysis.json} says them, by arithmetic of its own. Lengths mm, angles
 * degrees.
 */
final class TurnedLine {
  /** Planted: turn of the whole type, then offset along the part's x, y, and in rotation. */
  record Type(String name, int count, int symmetry, int turn, double x, double y, double rot) {}

  static final List<Type> TYPES =
      List.of(
          new Type("R0603", 12, 2, 0, 0, 0, 0),
          new Type("C0402", 10, 2, 180, 0.035, -0.02, 0.4),
          new Type("SOT23", 9, 1, 90, -0.045, 0.05, 0.9),
          new Type("SOD123", 8, 1, 180, 0, 0, 0),
          new Type("L0805", 8, 2, 90, 0.02, 0.03, 0),
          new Type("QFN32", 6, 1, 270, 0, 0, -0.6),
          new Type("MELF", 7, 4, 90, 0, 0, 0));

  /** Length and width: how far a rotation carries decides whether it is worth typing. */
  private static final Map<String, double[]> BODIES =
      Map.of(
          "R0603", new double[] {1.6, 0.8},
          "C0402", new double[] {1, 0.5},
          "SOT23", new double[] {2.9, 1.3},
          "SOD123", new double[] {2.7, 1.6},
          "L0805", new double[] {2, 1.25},
          "QFN32", new double[] {5, 5},
          "MELF", new double[] {3.5, 1.4});

  private static final double SCATTER = 0.010;
  private static final double ROTATION_SCATTER = 0.10;

  private record Part(String ref, Type type, double x, double y, double theta) {}

  private final List<Part> parts = new ArrayList<>();

  /** What is in force by type: x, y, rotation and turn that were added. */
  private final Map<String, double[]> entered = new LinkedHashMap<>();

  TurnedLine() {
    int i = 0;
    for (Type t : TYPES) {
      for (int k = 0; k < t.count; k++, i++) {
        // a grid walked with a step that shares no factor with it spreads every type
        int at = 7 * i % 60;
        parts.add(
            new Part("U" + (i + 1), t, 6 + 8 * (at % 10), 6 + 9 * (at / 10), 90 * ((i + k) % 4)));
      }
    }
  }

  Path write(Path dir) {
    StringBuilder csv = new StringBuilder("ref,part,x,y,rotation\n");
    for (Part p : parts) {
      csv.append(
          String.format(
              Locale.ROOT, "%s,%s,%.2f,%.2f,%.0f\n", p.ref, p.type.name, p.x, p.y, p.theta));
    }
    LineSimulation.write(dir.resolve("placements.csv"), csv.toString());
    StringBuilder types = new StringBuilder();
    for (Type t : TYPES) {
      types.append(types.length() == 0 ? "" : ", ");
      types.append("{\"name\": \"").append(t.name).append("\", \"symmetry\": ").append(t.symmetry);
      double[] body = BODIES.get(t.name);
      types.append(
          String.format(
              Locale.ROOT, ", \"body\": {\"length\": %.2f, \"width\": %.2f}", body[0], body[1]));
      types.append(", \"tolerance\": {\"x\": 0.15, \"y\": 0.15, \"rotation\": 4}}");
    }
    LineSimulation.write(dir.resolve("parts.json"), "{\"parts\": [" + types + "]}");
    return LineSimulation.write(
        dir.resolve("job.json"),
        "{\"name\": \"turned\", \"placements\": \"placements.csv\", \"parts\": \"parts.json\","
            + " \"machine\": {\"resolution\": 0.001, \"rotationResolution\": 0.01,"
            + " \"panelRepeatability\": {\"x\": 0.006, \"y\": 0.006, \"rotation\": 0.004}}}");
  }

  /** The turn that a type shows with what is in force, as a camera tells it. */
  static double shown(Type t, double degrees) {
    return Math.IEEEremainder(degrees, 360.0 / t.symmetry);
  }

  /** An article of deviations of what is placed with what is in force. */
  Path article(Path file, long seed) {
    Random random = new Random(seed);
    double sx = 0.006 * random.nextGaussian();
    double sy = 0.006 * random.nextGaussian();
    StringBuilder csv = new StringBuilder("ref,dx,dy,drotation\n");
    for (Part p : parts) {
      double[] e = entered.getOrDefault(p.type.name, new double[4]);
      double t = Math.toRadians(p.theta);
      double ox = p.type.x + e[0];
      double oy = p.type.y + e[1];
      double turn = p.type.rot + e[2] + ROTATION_SCATTER * random.nextGaussian();
      csv.append(
          String.format(
              Locale.ROOT,
              "%s,%.5f,%.5f,%.4f\n",
              p.ref,
              sx + Math.cos(t) * ox - Math.sin(t) * oy + SCATTER * random.nextGaussian(),
              sy + Math.sin(t) * ox + Math.cos(t) * oy + SCATTER * random.nextGaussian(),
              shown(p.type, p.type.turn + e[3] + turn)));
    }
    return LineSimulation.write(file, csv.toString());
  }

  /**
   * Types in what an analysis gives for part types.
   *
   * @param turns how often each type's turn is entered; once where nothing is said
   */
  void enter(Path analysis, Map<String, Integer> turns) throws IOException {
    for (JsonNode g : new ObjectMapper().readTree(analysis.toFile()).path("groups")) {
      JsonNode t = g.path("trim");
      if (g.path("factor").asText().equals("part") && t.path("decision").asText().equals("trim")) {
        String level = g.path("level").asText();
        double[] e = entered.computeIfAbsent(level, k -> new double[4]);
        e[0] += t.path("x").asDouble();
        e[1] += t.path("y").asDouble();
        double rotation = t.path("rotation").asDouble();
        // files of earlier versions have turn and rest in one
        double turn = t.has("turn") ? t.path("turn").asInt() : 90 * Math.rint(rotation / 90);
        e[2] += t.has("turn") ? rotation : rotation - turn;
        e[3] += turns.getOrDefault(level, 1) * turn;
      }
    }
  }

  /** Rows that the placement file has of some types. */
  Set<String> refs(String type) {
    Set<String> refs = new java.util.TreeSet<>();
    parts.stream().filter(p -> p.type.name.equals(type)).forEach(p -> refs.add(p.ref));
    return refs;
  }
}
