package org.padtrue.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Job;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Measurement;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.panel.Stage;

/** An invented article of any size: one board, 12 part types, known shift, turn and offsets. */
final class LargeArticle {
  private static final int TYPES = 12;

  private LargeArticle() {}

  static Job job(int size) {
    Random random = new Random(1);
    List<Placement> placements = new ArrayList<>(size);
    for (int i = 0; i < size; i++) {
      placements.add(
          new Placement(
              "R" + (i + 1),
              "T" + random.nextInt(TYPES),
              new Pose(
                  Math.rint(random.nextDouble() * 400_000) / 1000,
                  Math.rint(random.nextDouble() * 300_000) / 1000,
                  90 * random.nextInt(4)),
              Levels.NONE,
              Double.NaN,
              i + 2));
    }
    return new Job(
        "large",
        Side.TOP,
        Stage.PASTE,
        placements,
        List.of(),
        Map.of(),
        BoardArray.single(),
        List.of(),
        2,
        Machine.withDefaults(),
        Measurement.withDefaults(),
        List.of());
  }

  /** Writes what was measured, as a user's file holds it. */
  static Path write(Job job) {
    Random random = new Random(2);
    StringBuilder text = new StringBuilder("ref,dx,dy,drotation\n");
    for (Placement p : job.placements()) {
      int type = Integer.parseInt(p.part().substring(1));
      double c = Math.cos(Math.toRadians(p.pose().rotationDeg()));
      double s = Math.sin(Math.toRadians(p.pose().rotationDeg()));
      double ox = 0.005 * (type - 6);
      double oy = 0.004 * (type % 5 - 2);
      text.append(
          String.format(
              Locale.ROOT,
              "%s,%.3f,%.3f,%.2f%n",
              p.ref(),
              0.05 - 5e-4 * p.pose().yMm() + c * ox - s * oy + 0.02 * random.nextGaussian(),
              -0.03 + 5e-4 * p.pose().xMm() + s * ox + c * oy + 0.02 * random.nextGaussian(),
              0.03 + 0.2 * random.nextGaussian()));
    }
    try {
      Path file = Files.createTempFile("padtrue-bench", ".csv");
      file.toFile().deleteOnExit();
      return Files.writeString(file, text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
