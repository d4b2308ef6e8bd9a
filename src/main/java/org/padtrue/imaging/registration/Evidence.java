package org.padtrue.imaging.registration;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * Quick look whether parts stand where a map would have them: the two terminations farthest apart
 * (or the body) differ from the ground around the part and look alike. Good enough to rank maps.
 */
public final class Evidence {
  /** Points to look at for one placement, panel frame. */
  private record Probe(double[][] ends, double[][] ring) {}

  /** Points around a placement. */
  private static final int RING = 10;

  /** Ten values in order by 29 comparisons (Waksman 1969, in Knuth, TAOCP 3, 5.3.4). */
  private static final int[] NETWORK = {
    4, 9, 3, 8, 2, 7, 1, 6, 0, 5, 1, 4, 6, 9, 0, 3, 5, 8, 0, 2, 3, 6, 7, 9, 0, 1, 2, 4, 5, 7, 8, 9,
    1, 2, 4, 6, 7, 8, 3, 5, 2, 5, 6, 8, 1, 3, 4, 7, 2, 3, 6, 7, 3, 4, 5, 6, 4, 5
  };

  private static final int FIRST = 5;
  private static final int MANY = 10;

  private final List<Probe> probes = new ArrayList<>();

  public Evidence(List<Sites.Site> sites, int count) {
    for (Sites.Site s : Sites.sample(sites, count)) {
      probes.add(probe(s.type(), s.nominal()));
    }
  }

  boolean empty() {
    return probes.isEmpty();
  }

  /**
   * What one fiducial more at its place is worth beside what the parts show: a lot where few parts
   * can be asked, since of a million maps some suit a handful of parts by chance.
   */
  double worthOfAFiducial() {
    return Math.max(0.08, 1.5 / Math.max(1, probes.size()));
  }

  /** Parts enough to speak for or against a map by themselves. */
  boolean many() {
    return probes.size() >= MANY;
  }

  /** 0 for nothing at all, about 0.5 and more where the parts are. */
  public double of(Picture p, PanelToPicture map) {
    double sum = 0;
    Look look = new Look(p, map);
    for (Probe q : probes) {
      sum += look.at(q);
    }
    return probes.isEmpty() ? 0 : sum / probes.size();
  }

  /**
   * The same, given up early where the first few placements look like nothing: {@code least} is
   * what their mean must reach; else negative infinity.
   */
  double ofAtLeast(Picture p, PanelToPicture map, double least) {
    double sum = 0;
    Look look = new Look(p, map);
    for (int i = 0; i < probes.size(); i++) {
      sum += look.at(probes.get(i));
      if (i + 1 == FIRST && sum < least * FIRST) {
        return Double.NEGATIVE_INFINITY;
      }
    }
    return probes.isEmpty() ? 0 : sum / probes.size();
  }

  private static Probe probe(PartType t, Pose at) {
    Outline o = Outline.of(t);
    Rect first = t.body() != null ? t.body() : t.terminations().get(0);
    Rect second = first;
    double far = -1;
    List<Rect> ends = t.terminations();
    for (int i = 0; i < Math.min(24, ends.size()); i++) {
      for (int k = i + 1; k < ends.size(); k++) {
        double d =
            Math.hypot(
                ends.get(i).xMm() - ends.get(k).xMm(), ends.get(i).yMm() - ends.get(k).yMm());
        if (d > far + 1e-9) {
          far = d;
          first = ends.get(i);
          second = ends.get(k);
        }
      }
    }
    double[][] e = {
      place(at, first.xMm(), first.yMm()), place(at, second.xMm(), second.yMm()), place(at, 0, 0)
    };
    double[][] ring = new double[RING][];
    for (int i = 0; i < ring.length; i++) {
      double a = 2 * Math.PI * (i + 0.5) / ring.length;
      double c = Math.cos(a);
      double s = Math.sin(a);
      double k =
          1
              / Math.max(
                  Math.abs(c) / (o.halfLengthMm() + 0.45), Math.abs(s) / (o.halfWidthMm() + 0.4));
      ring[i] = place(at, k * c, k * s);
    }
    return new Probe(e, ring);
  }

  private static double[] place(Pose at, double x, double y) {
    double c = Angles.cosDeg(at.rotationDeg());
    double s = Angles.sinDeg(at.rotationDeg());
    return new double[] {at.xMm() + c * x - s * y, at.yMm() + s * x + c * y};
  }

  /** One placement's pixels; one of these for each thread, since millions of maps are asked. */
  private static final class Look {
    private final Picture picture;
    private final PanelToPicture map;
    private final double[] at = new double[2];
    private final int[][] ends = new int[3][3];
    private final int[][] ring = new int[3][RING];

    Look(Picture picture, PanelToPicture map) {
      this.picture = picture;
      this.map = map;
    }

    double at(Probe q) {
      for (int i = 0; i < 3; i++) {
        map.at(q.ends[i][0], q.ends[i][1], at);
        if (!picture.holds(at[0], at[1])) {
          return 0;
        }
        int bgr = picture.nearest(at[0], at[1]);
        for (int c = 0; c < 3; c++) {
          ends[c][i] = bgr >> 8 * c & 0xFF;
        }
      }
      for (int i = 0; i < RING; i++) {
        map.at(q.ring[i][0], q.ring[i][1], at);
        int bgr = picture.nearest(at[0], at[1]);
        for (int c = 0; c < 3; c++) {
          ring[c][i] = bgr >> 8 * c & 0xFF;
        }
      }
      double alike = 0;
      double stand = 0;
      double spread = 0;
      for (int c = 0; c < 3; c++) {
        int[] e = ends[c];
        sort(ring[c]);
        int ground = ring[c][RING / 2];
        spread += ring[c][RING * 3 / 4] - ring[c][RING / 4];
        alike += Math.abs(e[0] - e[1]);
        stand += Math.max(Math.abs((e[0] + e[1]) / 2.0 - ground), 0.5 * Math.abs(e[2] - ground));
      }
      return Math.min(1, stand / 180)
          - 0.4 * Math.min(1, alike / 180)
          - 0.3 * Math.min(1, spread / 180);
    }
  }

  /** Sorts ten values without branches: with them half of the time goes into wrong guesses. */
  static void sort(int[] v) {
    for (int k = 0; k < NETWORK.length; k += 2) {
      int a = v[NETWORK[k]];
      int b = v[NETWORK[k + 1]];
      v[NETWORK[k]] = Math.min(a, b);
      v[NETWORK[k + 1]] = Math.max(a, b);
    }
  }
}
