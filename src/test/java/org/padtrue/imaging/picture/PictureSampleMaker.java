package org.padtrue.imaging.picture;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import org.padtrue.imaging.PanelRenderer;
import org.padtrue.imaging.RenderSettings;
import org.padtrue.load.job.JobLoader;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Draws the picture of {@code samples/pictures} from its job, and others like it. Run {@link #main}
 * after a change here or in the renderer, and look at the picture.
 */
public final class PictureSampleMaker {
  /** Job, placements and part types, written by hand. */
  public static final Path FOLDER = Path.of("samples", "pictures");

  /** Registration at the panel origin, mm and degrees. */
  public static final Pose REGISTRATION = new Pose(0.055, -0.035, 0.06);

  /** What part types are off by, in their own frame. */
  public static final Map<String, Pose> OFFSETS =
      Map.of("R0603", new Pose(-0.05, 0.04, 0), "SOIC-8", new Pose(0, 0, 0.8));

  /** Scatter of a placement. */
  public static final double SCATTER_MM = 0.012;

  /** Scatter of a rotation. */
  public static final double SCATTER_DEG = 0.2;

  /** The missing placement: its lands are bare. */
  public static final String MISSING = "2/1/R3";

  private static final long SEED = 20260305L;

  private PictureSampleMaker() {}

  /** Draws the sample's picture again. */
  public static void main(String[] args) throws IOException {
    draw(SEED, FOLDER.resolve("panel.jpg"));
  }

  /**
   * Draws the sample's panel with another scatter.
   *
   * @param seed of scatter, texture and noise
   * @param to JPEG to write
   * @return true poses by column/row/ref
   */
  public static Map<String, Pose> draw(long seed, Path to) throws IOException {
    Job job = JobLoader.load(FOLDER.resolve("job.json")).orThrow();
    Map<String, Pose> truth = planted(job, seed);
    truth.remove(MISSING);
    RenderSettings s = RenderSettings.at(20).noise(2.5).turn(1.7).jpeg(90).seed(seed);
    PanelRenderer.Rendered r = PanelRenderer.render(job, truth, s);
    r.picture().close();
    Files.write(to, r.png());
    return truth;
  }

  /** True poses: nominal, offset of the type, registration, scatter. */
  static Map<String, Pose> planted(Job job, long seed) {
    Random random = new Random(seed);
    Map<String, Pose> out = new LinkedHashMap<>();
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose own = OFFSETS.getOrDefault(p.part(), new Pose(0, 0, 0));
        Pose q = own.seenFrom(p.pose().seenFrom(b.origin())).seenFrom(REGISTRATION);
        out.put(
            b.index() + "/" + p.ref(),
            new Pose(
                q.xMm() + SCATTER_MM * random.nextGaussian(),
                q.yMm() + SCATTER_MM * random.nextGaussian(),
                Angles.wrap(q.rotationDeg() + SCATTER_DEG * random.nextGaussian())));
      }
    }
    return out;
  }
}
