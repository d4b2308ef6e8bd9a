package org.padtrue.imaging;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureSampleMaker;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/**
 * A small panel on a device that is out by about 0.3 mm over it: an even bend (decentring terms of
 * a lens), unequal scales, axes that are not square.
 */
public final class BentDevice {
  static final double SCALE_DIFFERENCE = 0.003;
  static final double SQUARENESS = -0.002;
  private static final double PX_PER_MM = 16;

  private final Job job;
  private final Map<String, Pose> truth;
  private final boolean square;

  /** With all errors. */
  BentDevice() {
    this(false);
  }

  /**
   * @param evenOnly only the even bend, which two pictures turned by 180 degrees tell
   */
  public BentDevice(boolean evenOnly) {
    this.square = evenOnly;
    List<Placement> p = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      p.add(
          TestPanels.place(
              "R" + (i + 1),
              i % 3 == 0 ? TestPanels.C0603 : TestPanels.R0603,
              3 + 7.6 * (i % 5) + 0.3 * (i / 5),
              3 + 7 * (i / 5) + (i % 2),
              90 * ((i + i / 5) % 2)));
    }
    job =
        TestPanels.job(
            p,
            List.of(
                TestPanels.fiducial("F1", 0, 0),
                TestPanels.fiducial("F2", 38, 0.5),
                TestPanels.fiducial("F3", 0.5, 28)),
            TestPanels.R0603,
            TestPanels.C0603);
    truth = TestPanels.scattered(job, 0.03, 0.5, 77);
  }

  Job job() {
    return job;
  }

  /** True poses by column/row/ref. */
  public Map<String, Pose> truth() {
    return truth;
  }

  /** The panel as the device sees it, turned. */
  Picture picture(double turnDeg, long seed) {
    return rendered(turnDeg, seed).picture();
  }

  private PanelRenderer.Rendered rendered(double turnDeg, long seed) {
    RenderSettings s = RenderSettings.at(PX_PER_MM).noise(2).turn(turnDeg).seed(seed);
    if (!square) {
      s = s.axes(SCALE_DIFFERENCE, SQUARENESS);
    }
    double[] b = PanelRenderer.bounds(job, s.marginMm());
    double c = Math.abs(Math.cos(Math.toRadians(turnDeg)));
    double n = Math.abs(Math.sin(Math.toRadians(turnDeg)));
    int w = (int) Math.ceil(((b[2] - b[0]) * c + (b[3] - b[1]) * n) * PX_PER_MM);
    int h = (int) Math.ceil(((b[2] - b[0]) * n + (b[3] - b[1]) * c) * PX_PER_MM);
    // The bend belongs to the device, about its own middle, however the picture is cut.
    CameraModel bend =
        new CameraModel(
            w, h, 950, 950, (w - 1) / 2.0, (h - 1) / 2.0, 0, 0, -0.004, 0.008, 0, 0, 0, 0);
    return PanelRenderer.render(job, truth, s.lens(bend));
  }

  /** Writes job.json with its files, scan0.png, scan180.png, and next.png, another picture. */
  public void write(Path folder) throws IOException {
    StringBuilder t = new StringBuilder("ref,part,x,y,rotation\n");
    for (Placement p : job.placements()) {
      Pose q = p.pose();
      t.append(
          String.format(
              Locale.ROOT,
              "%s,%s,%.3f,%.3f,%.0f%n",
              p.ref(),
              p.part(),
              q.xMm(),
              q.yMm(),
              q.rotationDeg()));
    }
    Files.writeString(folder.resolve("placements.csv"), t);
    Files.copy(
        PictureSampleMaker.FOLDER.resolve("parts.json"),
        folder.resolve("parts.json"),
        StandardCopyOption.REPLACE_EXISTING);
    Files.writeString(
        folder.resolve("job.json"),
        """
        {"name": "bent", "placements": "placements.csv", "parts": "parts.json", "stage": "paste",
         "panel": {"columns": 1, "rows": 1, "boards": [{"column": 1, "row": 1, "x": 0, "y": 0}],
                   "fiducials": [{"name": "F1", "x": 0, "y": 0, "diameter": 1},
                                 {"name": "F2", "x": 38, "y": 0.5, "diameter": 1},
                                 {"name": "F3", "x": 0.5, "y": 28, "diameter": 1}]}}
        """);
    write(folder.resolve("scan0.png"), rendered(0, 1));
    write(folder.resolve("scan180.png"), rendered(180, 2));
    write(folder.resolve("next.png"), rendered(0, 3));
  }

  private static void write(Path to, PanelRenderer.Rendered r) throws IOException {
    r.picture().close();
    Files.write(to, r.png());
  }
}
