package org.padtrue.imaging.reader;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.padtrue.imaging.PanelRenderer;
import org.padtrue.imaging.RenderSettings;
import org.padtrue.imaging.TestPanels;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.PartPose;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;

/** Pictures of few pixels to the mm against the renderer's truth. */
class FineReaderTest {
  private static final Job JOB = TestPanels.mixed();

  /** The same parts in the same pictures, as they are and enlarged. */
  @Test
  void enlargingMakesCoarsePicturesTellMore() {
    double[] plain = new double[2];
    double[] fine = new double[2];
    int within = 0;
    int found = 0;
    int all = 0;
    for (int seed = 31; seed < 34; seed++) {
      Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.7, seed);
      RenderSettings s = RenderSettings.at(13).noise(3).seed(seed);
      PanelToPicture map = PanelRenderer.truth(JOB, s).from(0, 0, Double.POSITIVE_INFINITY);
      try (Picture p = PanelRenderer.render(JOB, truth, s).picture()) {
        PoseReader before = new PoseReader(p, map, PoseReader.REACH_MM);
        FineReader reader = new FineReader(p, map, 13);
        for (Sites.Site site : Sites.of(JOB)) {
          Pose t = truth.get(site.board() + "/" + site.placement().ref());
          PartPose a = before.read(site.type(), site.nominal(), 0.8);
          PartPose b = reader.read(site.type(), null, site.nominal(), 0.8);
          all++;
          if (b.status() == ReadingStatus.FOUND) {
            found++;
            within += off(b, t) < 2 * Math.sqrt(2) * b.uMm() ? 1 : 0;
            if (a.status() == ReadingStatus.FOUND) {
              add(plain, off(a, t));
              add(fine, off(b, t));
            }
          }
        }
      }
    }
    double was = Math.sqrt(plain[0] / plain[1]);
    double is = Math.sqrt(fine[0] / fine[1]);
    String said =
        String.format(
            Locale.ROOT,
            "13 px/mm: %d of %d found, both %.0f times; RMS of distances %.1f um, enlarged %.1f um;"
                + " %.2f within 2 u",
            found,
            all,
            fine[1],
            1000 * was,
            1000 * is,
            within / (double) found);
    System.out.println(said);
    assertTrue(found >= 0.9 * all, said);
    assertTrue(is < 0.9 * was, said);
    assertTrue(within >= 0.85 * found, said);
  }

  /** Enlarging moves no point: a window's map says the same place, a lens included. */
  @Test
  void aWindowShowsEachPointWhereItWas() {
    CameraModel lens =
        new CameraModel(800, 600, 900, 905, 401, 297, -0.12, 0.03, 1e-3, -5e-4, 0, 0, 0, 0);
    PanelToPicture map =
        new PanelToPicture(new double[] {12, 0.3, 40, 0.2, -12, 500, 0, 0, 1}, lens);
    PanelToPicture window = map.enlarged(2, 37, 51);
    for (double[] mm : new double[][] {{3, 5}, {20.5, 31.25}, {44, 2}}) {
      double[] p = map.at(mm[0], mm[1], 0.6);
      double[] q = window.at(mm[0], mm[1], 0.6);
      // Pixels are counted from their middles: a pixel's left edge is at -0.5 in both.
      assertEquals(2 * (p[0] - 37 + 0.5) - 0.5, q[0], 1e-9);
      assertEquals(2 * (p[1] - 51 + 0.5) - 0.5, q[1], 1e-9);
    }
  }

  private static double off(PartPose p, Pose t) {
    Pose q = java.util.Objects.requireNonNull(p.pose());
    return Math.hypot(q.xMm() - t.xMm(), q.yMm() - t.yMm());
  }

  private static void add(double[] sum, double off) {
    sum[0] += off * off;
    sum[1]++;
  }
}
