package org.padtrue.imaging.reader;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PixelSampler;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.imaging.taught.TaughtGrid;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.imaging.taught.TaughtReader;
import org.padtrue.imaging.taught.TaughtWindow;
import org.padtrue.panel.Pose;

/**
 * Lets the sample's like in its own picture say what belongs to the part: print, rims of lands and
 * shadows stay behind when a part stands a little elsewhere or is turned, and marking differs from
 * part to part. Such pixels lose weight.
 */
public final class Siblings {
  /** So many at least, and no more. */
  private static final int LEAST = 3;

  private static final int MOST = 12;

  /** Share of the contrast by which the like may usually differ at a pixel of the part. */
  private static final double USUAL = 0.1;

  private final Picture picture;
  private final PanelToPicture map;

  public Siblings(Picture picture, PanelToPicture map) {
    this.picture = picture;
    this.map = map;
  }

  /** The look with weights by what its like shows; the look itself where there are too few. */
  public TaughtLook agreed(TaughtLook look, Sites.Site sample, List<Sites.Site> sites) {
    TaughtReader reader = new TaughtReader(picture, map, PoseReader.REACH_MM);
    List<Sites.Site> like =
        sites.stream()
            .filter(s -> s != sample && s.type().name().equals(look.part()))
            .limit(MOST)
            .toList();
    List<double[]> differences =
        like.parallelStream()
            .map(s -> reader.read(s.type(), look, s.nominal()))
            .filter(p -> p.pose() != null)
            .map(p -> difference(look, sample, p.pose()))
            .filter(d -> d.length > 0)
            .toList();
    return differences.size() < LEAST ? look : weighed(look, differences);
  }

  private static TaughtLook weighed(TaughtLook look, List<double[]> differences) {
    double usual = USUAL * TaughtGrid.of(look, 1 / look.pxPerMm()).contrast;
    int n = look.widthPx() * look.heightPx();
    int[] weights = new int[n];
    double[] v = new double[differences.size()];
    for (int k = 0; k < n; k++) {
      for (int i = 0; i < v.length; i++) {
        v[i] = differences.get(i)[k];
      }
      Arrays.sort(v);
      double q = v[v.length / 2] / usual;
      int before = look.at(k % look.widthPx(), k / look.widthPx(), 3);
      int least = before >= TaughtLook.OWN ? TaughtLook.OWN : Math.min(before, 1);
      weights[k] = least + (int) Math.round((before - least) / (1 + q * q));
    }
    return look.weighing(weights);
  }

  /** Colour differences between look and part, pixel by pixel, gain and offset taken out. */
  private double[] difference(TaughtLook look, Sites.Site sample, Pose at) {
    int w = look.widthPx();
    int h = look.heightPx();
    double reach = Math.hypot(w, h) + 12;
    double[] q = map.at(at.xMm(), at.yMm());
    TaughtWindow seen =
        TaughtWindow.of(
            new PixelSampler(picture.plane(q[0] - reach, q[1] - reach, q[0] + reach, q[1] + reach)),
            map,
            at,
            TaughtReader.heightMm(sample.type()),
            w,
            h,
            look.originXPx(),
            look.originYPx(),
            1 / look.pxPerMm());
    double[] out = new double[w * h];
    for (int c = 0; c < 3; c++) {
      double[] line = line(look, seen.values[c], c);
      for (int k = 0; k < out.length; k++) {
        double d = seen.values[c][k] - line[0] * look.at(k % w, k / w, c) - line[1];
        out[k] += d * d;
      }
    }
    for (int k = 0; k < out.length; k++) {
      out[k] = Math.sqrt(out[k]);
      if (look.at(k % w, k / w, 3) > 0 && !Double.isFinite(out[k])) {
        return new double[0];
      }
    }
    return out;
  }

  /** Gain and offset of a channel over the part. */
  private static double[] line(TaughtLook look, double[] seen, int c) {
    List<double[]> pairs = new ArrayList<>();
    for (int k = 0; k < seen.length; k++) {
      int i = k % look.widthPx();
      int j = k / look.widthPx();
      if (look.at(i, j, 3) > 0 && Double.isFinite(seen[k])) {
        pairs.add(new double[] {look.at(i, j, c), seen[k]});
      }
    }
    double n = Math.max(1, pairs.size());
    double mt = pairs.stream().mapToDouble(p -> p[0]).sum() / n;
    double ms = pairs.stream().mapToDouble(p -> p[1]).sum() / n;
    double tt = 1e-9;
    double ts = 0;
    for (double[] p : pairs) {
      tt += (p[0] - mt) * (p[0] - mt);
      ts += (p[0] - mt) * (p[1] - ms);
    }
    double gain = ts / tt;
    return new double[] {gain, ms - gain * mt};
  }
}
