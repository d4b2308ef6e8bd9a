package org.padtrue.imaging;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Rect;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureSampleMaker;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/**
 * A folder with a job, close-ups of its parts and of one fiducial, and their list; the camera is
 * turned against the panel, and stands on whole pixels of one large rendered picture.
 */
public final class CloseUpMaker {
  /** Scale and direction that the list does not say. */
  public static final double PX_PER_MM = 41.3;

  public static final double TURN_DEG = 2.4;
  private static final int HALF = 95;
  private static final List<PartType> TYPES =
      List.of(TestPanels.R0603, TestPanels.R0402, TestPanels.C0603, TestPanels.R0603);

  /** Where the parts truly are, by ref. */
  public final Map<String, Pose> truth = new TreeMap<>();

  private final Path folder;

  public CloseUpMaker(Path folder) {
    this.folder = folder;
  }

  /**
   * Writes job.json, parts.json, placements.csv, pictures and shots.csv.
   *
   * @param fromPlaces from how many places the fiducial is taken
   */
  public void write(int fromPlaces) throws IOException {
    StringBuilder placements = new StringBuilder("ref,part,x,y,rotation\n");
    List<Placement> all = new java.util.ArrayList<>();
    for (int i = 0; i < TYPES.size(); i++) {
      Placement p =
          TestPanels.place(
              "U" + (i + 1), TYPES.get(i), 5 + 4.5 * (i % 2), 4 + 4.5 * (i / 2), 90 * i);
      all.add(p);
      placements.append(
          String.format(
              Locale.ROOT,
              "%s,%s,%.3f,%.3f,%.0f%n",
              p.ref(),
              p.part(),
              p.pose().xMm(),
              p.pose().yMm(),
              p.pose().rotationDeg()));
    }
    Files.writeString(folder.resolve("placements.csv"), placements);
    Files.copy(
        PictureSampleMaker.FOLDER.resolve("parts.json"),
        folder.resolve("parts.json"),
        java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    Files.writeString(
        folder.resolve("job.json"),
        """
        {"name": "close-ups", "placements": "placements.csv", "parts": "parts.json",
         "stage": "paste",
         "panel": {"columns": 1, "rows": 1, "boards": [{"column": 1, "row": 1, "x": 0, "y": 0}],
                   "fiducials": [{"name": "F1", "x": 1, "y": 1.5, "diameter": 1}]}}
        """);
    Job job =
        TestPanels.job(
            all,
            List.of(new Fiducial("F1", 1, 1.5, 1, Fiducial.Scope.PANEL)),
            TYPES.toArray(PartType[]::new));
    Map<String, Pose> poses = new LinkedHashMap<>();
    for (Placement p : all) {
      Pose q = p.pose();
      Pose t = new Pose(q.xMm() + 0.06, q.yMm() - 0.04, q.rotationDeg() + 1.2);
      truth.put(p.ref(), t);
      poses.put("1/1/" + p.ref(), t);
    }
    RenderSettings s = RenderSettings.at(PX_PER_MM).turn(TURN_DEG).noise(2).margin(4).seed(4);
    PanelRenderer.Rendered r = PanelRenderer.render(job, poses, s);
    StringBuilder list = new StringBuilder("file,panel,column,row,ref,x,y\n");
    try (Picture p = r.picture()) {
      for (Placement q : all) {
        shot(p, r.truth(), q.ref(), q.ref(), q.pose().xMm() + 0.1, q.pose().yMm(), list);
      }
      double[][] places = {{0.9, 1.4}, {1.8, 1.5}, {1.1, 2.4}};
      for (int i = 0; i < fromPlaces; i++) {
        shot(p, r.truth(), "F1", "F1-" + i, places[i][0], places[i][1], list);
      }
    }
    Files.writeString(folder.resolve("shots.csv"), list);
  }

  private void shot(
      Picture p, PanelToPicture map, String ref, String file, double x, double y, StringBuilder to)
      throws IOException {
    double[] q = map.at(x, y);
    int cx = (int) Math.round(q[0]);
    int cy = (int) Math.round(q[1]);
    double[] camera = map.toPanel(cx, cy);
    try (Mat crop =
        p.mat().apply(new Rect(cx - HALF, cy - HALF, 2 * HALF + 1, 2 * HALF + 1)).clone()) {
      Files.write(folder.resolve(file + ".png"), PanelRenderer.encode(crop, 0));
    }
    to.append(
        String.format(
            Locale.ROOT, "%s.png,P1,1,1,%s,%.5f,%.5f%n", file, ref, camera[0], camera[1]));
  }
}
