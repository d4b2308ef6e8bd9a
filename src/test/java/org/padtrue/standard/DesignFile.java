package org.padtrue.standard;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.padtrue.panel.Pose;

/**
 * A board as its design file has it (s-expressions, version 20211014): y down, rotations
 * counter-clockwise as seen from the top, pads relative to the footprint and already mirrored on
 * the bottom. Poses and pads are handed out with y up.
 */
final class DesignFile {
  private static final Pattern PART =
      Pattern.compile(
          "\\(footprint \"mixed:([^\"]+)\" \\(layer \"([FB])\\.Cu\"\\).*?"
              + "\\(at (\\S+) (\\S+?)(?: (\\S+?))?\\)\\s+\\(attr.*?"
              + "\\(fp_text reference \"([^\"]+)\".*?\\(fp_text value \"((?:[^\"\\\\]|\\\\.)*)\"",
          Pattern.DOTALL);
  private static final Pattern PAD =
      Pattern.compile("\\(pad \"([^\"]*)\" \\w+ \\w+ \\(at (\\S+) (\\S+?)[ )]");

  /** A part: its place and turn as the file has them, and its pads, first of each name, mm. */
  record Part(
      String ref,
      String footprint,
      String value,
      boolean bottom,
      Pose pose,
      Map<String, double[]> local,
      Map<String, double[]> pads) {}

  private DesignFile() {}

  static Map<String, Part> read(Path file) throws IOException {
    Map<String, Part> parts = new LinkedHashMap<>();
    for (String s : Files.readString(file).split("\n(?=  \\(footprint )")) {
      Matcher m = PART.matcher(s);
      if (m.find()) {
        double turn = m.group(5) == null ? 0 : Double.parseDouble(m.group(5));
        Pose pose = new Pose(number(m, 3), -number(m, 4), turn);
        Map<String, double[]> local = new LinkedHashMap<>();
        Map<String, double[]> pads = new LinkedHashMap<>();
        Matcher p = PAD.matcher(s);
        while (p.find()) {
          double[] at = {number(p, 2), -number(p, 3)};
          local.putIfAbsent(p.group(1), at);
          pads.putIfAbsent(p.group(1), placed(at, pose));
        }
        String value = m.group(7).replace("\\\"", "\"");
        boolean bottom = m.group(2).equals("B");
        parts.put(m.group(6), new Part(m.group(6), m.group(1), value, bottom, pose, local, pads));
      }
    }
    return parts;
  }

  private static double number(Matcher m, int group) {
    return Double.parseDouble(m.group(group));
  }

  /** A point of a part at its pose. */
  static double[] placed(double[] at, Pose pose) {
    double t = Math.toRadians(pose.rotationDeg());
    return new double[] {
      pose.xMm() + Math.cos(t) * at[0] - Math.sin(t) * at[1],
      pose.yMm() + Math.sin(t) * at[0] + Math.cos(t) * at[1]
    };
  }
}
