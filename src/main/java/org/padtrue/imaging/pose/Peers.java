package org.padtrue.imaging.pose;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.numeric.Order;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/** Holds readings against those of the same type and against their neighbours. */
public final class Peers {
  private static final int ENOUGH = 5;

  /** Less than this, mm, is no sign of faint edges, however sure its like are. */
  private static final double FAINT_MM = 0.025;

  /** A share of the outline, such as one side in shadow, that may be lost by chance. */
  private static final double STANDS_OUT = 0.3;

  private Peers() {}

  /** The readings, those that stand out from their like marked doubtful. */
  public static List<PlacementReading> judge(List<PlacementReading> all) {
    Map<String, List<PlacementReading>> types = new HashMap<>();
    for (PlacementReading r : all) {
      if (r.status() == ReadingStatus.FOUND) {
        types.computeIfAbsent(r.placement().part(), k -> new ArrayList<>()).add(r);
      }
    }
    List<PlacementReading> out = new ArrayList<>();
    for (PlacementReading r : all) {
      List<PlacementReading> like = types.getOrDefault(r.placement().part(), List.of());
      out.add(r.status() == ReadingStatus.FOUND ? judge(r, alongside(r, like), all) : r);
    }
    return out;
  }

  /** Light from one side hides an edge of parts that lie one way: these are its like, if enough. */
  private static List<PlacementReading> alongside(PlacementReading r, List<PlacementReading> like) {
    List<PlacementReading> same =
        like.stream()
            .filter(
                o ->
                    Math.abs(Angles.wrap(o.nominal().rotationDeg() - r.nominal().rotationDeg(), 2))
                        < 20)
            .toList();
    return same.size() >= ENOUGH ? same : like;
  }

  private static PlacementReading judge(
      PlacementReading r, List<PlacementReading> like, List<PlacementReading> all) {
    if (like.size() >= ENOUGH) {
      double score = median(like.stream().mapToDouble(PlacementReading::score).toArray());
      double spread =
          1.4826 * median(like.stream().mapToDouble(o -> Math.abs(o.score() - score)).toArray());
      double u = median(like.stream().mapToDouble(PlacementReading::uMm).toArray());
      if (r.score() < score - Math.max(STANDS_OUT, 4 * spread)) {
        return r.with(ReadingStatus.DOUBTFUL, "its outline shows less than that of its like");
      }
      if (r.uMm() > 4 * u && r.uMm() > FAINT_MM) {
        return r.with(ReadingStatus.DOUBTFUL, "its edges are fainter than those of its like");
      }
    }
    Pose p = java.util.Objects.requireNonNull(r.pose());
    double off = Math.hypot(p.xMm() - r.nominal().xMm(), p.yMm() - r.nominal().yMm());
    for (PlacementReading o : all) {
      Pose q = o.pose();
      if (o == r || q == null || off < 0.15) {
        continue;
      }
      double apart = Math.hypot(p.xMm() - q.xMm(), p.yMm() - q.yMm());
      double nominal =
          Math.hypot(r.nominal().xMm() - o.nominal().xMm(), r.nominal().yMm() - o.nominal().yMm());
      if (apart < 0.4 * nominal) {
        return r.with(
            ReadingStatus.DOUBTFUL, "it seems to lie where " + o.placement().ref() + " is");
      }
    }
    return r;
  }

  private static double median(double[] v) {
    return Order.select(v, v.length / 2);
  }
}
