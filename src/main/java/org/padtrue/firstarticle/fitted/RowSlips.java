package org.padtrue.firstarticle.fitted;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.fit.Finding;
import org.padtrue.numeric.Order;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.quantity.Angles;

/**
 * Names gross errors that only the whole job tells: a part that was measured in place of its
 * neighbour, and a row of the placement list that is wrong, so that all boards are off alike.
 */
final class RowSlips {
  /** A measured place this near a neighbour's is that neighbour (common practice). */
  private static final double NEAR_MM = 0.15;

  /** Its own place has to be farther off, or it may simply be shifted. */
  private static final double AWAY = 4;

  private static final double ALIKE_MM = 0.1;
  private static final int LEAST_BOARDS = 2;
  private static final double CELL_MM = 1;

  private final Job job;
  private final DeviationTable t;
  private final @Nullable Finding[] findings;
  private final double tolMm;
  private final double[] centre;

  private RowSlips(Job job, DeviationTable t, @Nullable Finding[] findings, double scaleMm) {
    this.job = job;
    this.t = t;
    this.findings = findings;
    tolMm = Math.max(NEAR_MM, Double.isNaN(scaleMm) ? 0 : 5 * scaleMm);
    centre = new double[] {median(t.dx()), median(t.dy())};
  }

  /** Gives better names to findings, in place. */
  static void name(Job job, DeviationTable t, @Nullable Finding[] findings, double scaleMm) {
    boolean any = false;
    for (Finding f : findings) {
      any |= f != null;
    }
    if (any) {
      RowSlips s = new RowSlips(job, t, findings, scaleMm);
      s.neighbours();
      s.list();
    }
  }

  private static double median(double[] v) {
    return Order.select(v.clone(), v.length / 2);
  }

  private static boolean position(@Nullable Finding f) {
    return f != null
        && switch (f.kind()) {
          case QUARTER_TURN, HALF_TURN -> false;
          default -> true;
        };
  }

  /** A placement of the panel. */
  private record Site(BoardIndex board, Placement placement, double x, double y) {
    public String id() {
      return board + "/" + placement.ref();
    }
  }

  private static long cell(double x, double y, int i, int j) {
    long a = (long) Math.floor(x / CELL_MM) + i;
    long b = (long) Math.floor(y / CELL_MM) + j;
    return a * 10_000_019 + b;
  }

  private void neighbours() {
    Map<Long, List<Site>> sites = null;
    for (int i = 0; i < findings.length; i++) {
      Finding f = findings[i];
      // A part's distance read in um is a likely deviation, whatever it is; that a neighbour stands
      // right there is not chance.
      if (f == null || f.kind() != Finding.Kind.GROSS && f.kind() != Finding.Kind.WRONG_UNIT) {
        continue;
      }
      sites = sites == null ? sites() : sites;
      Measured m = t.rows().get(i);
      double x = m.nominal().xMm() + m.dxMm() - centre[0];
      double y = m.nominal().yMm() + m.dyMm() - centre[1];
      if (Math.hypot(m.dxMm() - centre[0], m.dyMm() - centre[1]) < AWAY * tolMm) {
        continue;
      }
      Site near = nearest(sites, x, y);
      if (near != null && !near.id().equals(m.id())) {
        findings[i] =
            new Finding(
                Finding.Kind.NEIGHBOUR,
                String.format(
                    Locale.ROOT,
                    "%s is recorded %.3f mm off, where its neighbour %s stands: it looks measured"
                        + " on that one",
                    m.id(),
                    Math.hypot(m.dxMm(), m.dyMm()),
                    near.id()));
      }
    }
  }

  private Map<Long, List<Site>> sites() {
    Map<Long, List<Site>> sites = new HashMap<>();
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose n = p.pose().seenFrom(b.origin());
        sites
            .computeIfAbsent(cell(n.xMm(), n.yMm(), 0, 0), k -> new ArrayList<>())
            .add(new Site(b.index(), p, n.xMm(), n.yMm()));
      }
    }
    return sites;
  }

  /** The only placement near a place, or null where there is none or more than one. */
  private @Nullable Site nearest(Map<Long, List<Site>> sites, double x, double y) {
    Site best = null;
    int near = 0;
    for (int i = -1; i <= 1; i++) {
      for (int j = -1; j <= 1; j++) {
        for (Site s : sites.getOrDefault(cell(x, y, i, j), List.of())) {
          if (Math.hypot(s.x - x, s.y - y) < tolMm) {
            best = s;
            near++;
          }
        }
      }
    }
    return near == 1 ? best : null;
  }

  /** Refs of which every measured board is off, and all alike in the board's own frame. */
  private void list() {
    Map<String, List<Integer>> rows = new LinkedHashMap<>();
    for (int i = 0; i < findings.length; i++) {
      if (position(findings[i])) {
        rows.computeIfAbsent(t.rows().get(i).placement().ref(), k -> new ArrayList<>()).add(i);
      }
    }
    Map<String, Integer> measured = new HashMap<>();
    for (Measured m : t.rows()) {
      if (rows.containsKey(m.placement().ref())) {
        measured.merge(m.placement().ref(), 1, Integer::sum);
      }
    }
    rows.forEach(
        (ref, all) -> {
          if (all.size() == measured.getOrDefault(ref, 0) && boards(all) >= LEAST_BOARDS) {
            listed(ref, all);
          }
        });
  }

  private long boards(List<Integer> rows) {
    return rows.stream().map(i -> t.rows().get(i).board()).distinct().count();
  }

  private void listed(String ref, List<Integer> rows) {
    double sx = 0;
    double sy = 0;
    List<double[]> off = new ArrayList<>();
    for (int i : rows) {
      double[] d = inBoard(t.rows().get(i));
      off.add(d);
      sx += d[0] / rows.size();
      sy += d[1] / rows.size();
    }
    for (double[] d : off) {
      if (Math.hypot(d[0] - sx, d[1] - sy) > Math.max(ALIKE_MM, tolMm)) {
        return;
      }
    }
    Measured first = t.rows().get(rows.get(0));
    String sentence =
        String.format(
            Locale.ROOT,
            "%s is off by x %+.3f, y %+.3f mm on all %d boards measured alike: its row in the"
                + " placement list%s looks wrong",
            ref,
            sx,
            sy,
            boards(rows),
            first.placement().line() > 0 ? " (line " + first.placement().line() + ")" : "");
    for (int i : rows) {
      findings[i] = new Finding(Finding.Kind.WRONG_IN_LIST, sentence);
    }
  }

  /** Deviation less the panel's own, in the frame of the board. */
  private double[] inBoard(Measured m) {
    double dx = m.dxMm() - centre[0];
    double dy = m.dyMm() - centre[1];
    double turned = job.array().find(m.board()).map(b -> b.origin().rotationDeg()).orElse(0.0);
    double c = Angles.cosDeg(turned);
    double s = Angles.sinDeg(turned);
    return new double[] {c * dx + s * dy, -s * dx + c * dy};
  }
}
