package org.padtrue.report.record;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.land.PartFrame;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Tolerance;

/**
 * Numbers every placement's characteristics: x, y, rotation; deviations along the part's own axes
 * where a tolerance stands in a frame that is not along the panel's; land fit where lands limit it.
 */
final class Characteristics {
  private static final double PARALLEL_DEG = 1e-6;
  private static final double UNLIMITED = Double.POSITIVE_INFINITY;

  private final Job job;
  private final Measuring measuring;
  private final Identification identification;
  private final Map<String, Excluded> excluded = new HashMap<>();
  private final Map<String, Integer> turned;
  private final Map<CharacteristicKind, List<Integer>> tools = new HashMap<>();
  private final List<Characteristic> all = new ArrayList<>();

  private Characteristics(
      Job job, RecordSource source, Measuring measuring, Identification identification) {
    this.job = job;
    this.measuring = measuring;
    this.identification = identification;
    turned = source.turned();
    source.excluded().forEach(e -> excluded.put(e.panel() + " " + e.board() + "/" + e.ref(), e));
    List<MeasuringTool> named = identification.tools();
    for (CharacteristicKind k : CharacteristicKind.values()) {
      tools.put(
          k,
          IntStream.range(0, named.size())
              .filter(i -> named.get(i).gave(k))
              .mapToObj(i -> i + 1)
              .toList());
    }
  }

  static List<Characteristic> of(
      Job job, RecordSource source, Measuring measuring, Identification identification) {
    Characteristics c = new Characteristics(job, source, measuring, identification);
    source.placements().forEach(c::placement);
    return c.all;
  }

  private void placement(PlacementResult p) {
    PartType type = job.partType(p.part());
    Tolerance t = type.tolerance();
    double theta = p.nominal().rotationDeg();
    boolean along = parallel(theta);
    boolean across = along && !parallel(theta, 180);
    double x = t == null ? UNLIMITED : limit(across ? t.yMm() : t.xMm());
    double y = t == null ? UNLIMITED : limit(across ? t.xMm() : t.yMm());
    double mm = measuring.expandedMm();
    double dx = p.deviation().x();
    double dy = p.deviation().y();
    add(p, CharacteristicKind.X, p.nominal().xMm(), along ? x : UNLIMITED, dx, mm);
    add(p, CharacteristicKind.Y, p.nominal().yMm(), along ? y : UNLIMITED, dy, mm);
    add(
        p,
        CharacteristicKind.ROTATION,
        theta,
        t == null ? UNLIMITED : limit(t.rotationDeg()),
        p.deviation().rotation(),
        measuring.expandedDeg());
    if (t != null && !along) {
      add(p, CharacteristicKind.PART_X, 0, x, PartFrame.x(dx, dy, theta), mm);
      add(p, CharacteristicKind.PART_Y, 0, y, PartFrame.y(dx, dy, theta), mm);
    }
    if (byLandFit(type)) {
      landFit(p, type);
    }
  }

  /** A tolerance overrides the geometry. */
  private static boolean byLandFit(PartType type) {
    return type.tolerance() == null && !type.notJudged();
  }

  private static boolean parallel(double theta) {
    return parallel(theta, 90);
  }

  private static boolean parallel(double theta, double step) {
    return Math.abs(Math.IEEEremainder(theta, step)) < PARALLEL_DEG;
  }

  private static double limit(double tolerance) {
    return Double.isNaN(tolerance) ? UNLIMITED : tolerance;
  }

  private void add(
      PlacementResult p,
      CharacteristicKind kind,
      double nominal,
      double tolerance,
      double deviation,
      double expanded) {
    boolean limited = tolerance != UNLIMITED;
    all.add(
        characteristic(
            p,
            kind,
            nominal,
            limited ? nominal - tolerance : Double.NaN,
            limited ? nominal + tolerance : Double.NaN,
            nominal + deviation,
            deviation,
            expanded,
            tolerance - Math.abs(deviation)));
  }

  /** The analysis gives no room for a slip of the record, nor without a measurement. */
  private void landFit(PlacementResult p, PartType type) {
    double room = p.margin();
    all.add(
        characteristic(
            p,
            CharacteristicKind.LAND_FIT,
            Double.NaN,
            0,
            Double.NaN,
            room,
            Double.NaN,
            measuring.expandedLandFitMm(lever(type)),
            room));
  }

  private static double lever(PartType type) {
    double most = 0;
    for (Rect r : type.terminations()) {
      double x = Math.abs(r.xMm()) + r.lengthMm() / 2;
      double y = Math.abs(r.yMm()) + r.widthMm() / 2;
      most = Math.max(most, Math.hypot(x, y));
    }
    return most;
  }

  private Characteristic characteristic(
      PlacementResult p,
      CharacteristicKind kind,
      double nominal,
      double lower,
      double upper,
      double result,
      double deviation,
      double expanded,
      double distance) {
    Excluded e = excluded.get(p.panel() + " " + p.id());
    Conformity conformity =
        conformity(e, kind, result, distance, expanded, byLandFit(job.partType(p.part())));
    return new Characteristic(
        all.size() + 1,
        p.panel(),
        p.board(),
        p.ref(),
        p.part(),
        kind,
        text(identification.designators(), p),
        nominal,
        lower,
        upper,
        result,
        deviation,
        Double.isNaN(result) ? Double.NaN : expanded,
        conformity,
        tools.getOrDefault(kind, List.of()),
        text(identification.nonconformances(), p),
        OutReason.of(
            job,
            p,
            kind,
            conformity,
            e,
            turned.getOrDefault(p.part(), 0),
            deviation,
            (upper - lower) / 2));
  }

  private Conformity conformity(
      @Nullable Excluded e,
      CharacteristicKind kind,
      double result,
      double distance,
      double expanded,
      boolean landFit) {
    if (e != null && !e.fault()) {
      return Conformity.SLIP;
    }
    if (Double.isNaN(result)) {
      return Conformity.NOT_MEASURED;
    }
    boolean turned = e != null && e.kind().endsWith("Turn");
    if (turned && kind == CharacteristicKind.ROTATION) {
      return Conformity.OUTSIDE;
    }
    Conformity c = measuring.rule().decide(distance, expanded);
    return c == Conformity.NO_LIMIT && landFit ? Conformity.BY_LAND_FIT : c;
  }

  private static String text(List<PlacementText> texts, PlacementResult p) {
    String board = p.board().toString();
    return texts.stream()
        .filter(t -> t.about(board, p.ref()))
        .map(PlacementText::text)
        .findFirst()
        .orElse("");
  }
}
