package org.padtrue.apply;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.TrimKind;
import org.padtrue.report.json.StoredAnalysis;

/**
 * An analysis with its trims as they were entered in the machine: others than proposed, or not at
 * all. What was not entered is a term without a trim: it is expected to stay as it was.
 */
public final class AsEntered {
  private final StoredAnalysis proposed;
  private final List<EnteredLine> lines;
  private final StoredAnalysis analysis;

  /**
   * Puts what was entered in place of what was proposed.
   *
   * @param proposed the analysis
   * @param lines one for every line of its trim sheet, in the same order; none: all as proposed
   */
  public AsEntered(StoredAnalysis proposed, List<EnteredLine> lines) {
    if (!lines.isEmpty() && lines.size() != proposed.trims().size()) {
      throw new IllegalArgumentException(
          lines.size() + " lines; expected " + proposed.trims().size());
    }
    this.proposed = proposed;
    this.lines = List.copyOf(lines);
    this.analysis = differences().isEmpty() ? proposed : changed();
  }

  /** The analysis whose trims are those entered. */
  public StoredAnalysis analysis() {
    return analysis;
  }

  /** What was entered otherwise than proposed, one sentence each. */
  public List<String> differences() {
    List<String> all = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      TrimLine t = proposed.trims().get(i);
      EnteredLine e = lines.get(i);
      if (!e.is(t)) {
        all.add(
            e.entered()
                ? t.where() + " was entered otherwise than proposed: " + words(t, e)
                : t.where() + " was not entered, so it is expected to be as it was");
      }
    }
    return all;
  }

  private static String words(TrimLine t, EnteredLine e) {
    boolean ppm = t.unit().startsWith("ppm");
    List<String> s = new ArrayList<>();
    add(s, "x", ppm ? e.x() : 1e3 * e.x(), ppm ? "ppm" : "um");
    add(s, "y", ppm ? e.y() : 1e3 * e.y(), ppm ? "ppm" : "um");
    add(s, "rotation", e.rotation(), "deg");
    add(s, "squareness", e.squareness(), "mrad");
    if (e.turn() != 0) {
      s.add("turn " + e.turn() + " deg");
    }
    return String.join(", ", s);
  }

  private static void add(List<String> s, String name, double v, String unit) {
    if (!Double.isNaN(v)) {
      boolean whole = unit.equals("um") || unit.equals("ppm");
      String digits = whole ? "%s %+.1f %s" : "%s %+.3f %s";
      s.add(v == 0 ? name + " 0" : String.format(Locale.ROOT, digits, name, v, unit));
    }
  }

  private StoredAnalysis changed() {
    BatchTrim b = proposed.batchTrim();
    List<GroupResult> groups = new ArrayList<>(proposed.groups());
    for (int i = 0; i < lines.size(); i++) {
      TrimLine t = proposed.trims().get(i);
      EnteredLine e = lines.get(i);
      TrimKind kind = TrimKind.parse(t.kind()).orElse(TrimKind.PLACEMENT);
      switch (kind) {
        case REGISTRATION -> b = registration(b, e);
        case SCALE -> b = scale(b, t, e);
        case ARRAY -> b = array(b, t, e);
        case COMMON ->
            b =
                new BatchTrim(
                    b.shift(),
                    b.rotation(),
                    b.scale(),
                    b.array(),
                    shift(b.common(), e),
                    b.rotationZero());
        case ROTATION_ZERO ->
            b =
                new BatchTrim(
                    b.shift(),
                    b.rotation(),
                    b.scale(),
                    b.array(),
                    b.common(),
                    angle(b.rotationZero(), e.rotation()));
        default -> groups.replaceAll(g -> isOf(g, t) ? level(g, e) : g);
      }
    }
    return new StoredAnalysis(
        proposed.file(),
        proposed.hash(),
        proposed.job(),
        proposed.articles(),
        proposed.stage(),
        proposed.reference(),
        proposed.panels(),
        proposed.common(),
        proposed.rotationZero(),
        groups,
        b,
        proposed.trims(),
        proposed.variances(),
        proposed.scatter(),
        proposed.placements(),
        proposed.excluded(),
        proposed.notes());
  }

  private static boolean isOf(GroupResult g, TrimLine t) {
    return g.trim().decision() == Decision.TRIM
        && g.factor().key().equals(t.kind())
        && g.named().words().equals(t.where())
        && g.frame().equals(t.frame());
  }

  private static GroupResult level(GroupResult g, EnteredLine e) {
    Xyr v = new Xyr(known(e.x()), known(e.y()), known(e.rotation()));
    return new GroupResult(
        g.factor(),
        g.level(),
        g.frame(),
        g.count(),
        g.rotations(),
        g.zeroOrientation(),
        g.offset(),
        g.standardErrors(),
        g.degreesOfFreedom(),
        g.combined(),
        g.combinedStandardErrors(),
        g.leastSquares(),
        g.ownTransform(),
        e.entered()
            ? new TrimValue(v, e.turn(), Decision.TRIM, g.trim().reason())
            : new TrimValue(Xyr.ZERO, 0, Decision.LEAVE, g.trim().reason()));
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  private static BatchTrim.Shift shift(BatchTrim.Shift s, EnteredLine e) {
    Xy v = new Xy(known(e.x()), known(e.y()));
    return new BatchTrim.Shift(v, v.equals(Xy.ZERO) ? Decision.LEAVE : Decision.TRIM, s.reason());
  }

  private static BatchTrim.Angle angle(BatchTrim.Angle a, double v) {
    double known = known(v);
    return new BatchTrim.Angle(known, known == 0 ? Decision.LEAVE : Decision.TRIM, a.reason());
  }

  private static BatchTrim registration(BatchTrim b, EnteredLine e) {
    return new BatchTrim(
        shift(b.shift(), e),
        angle(b.rotation(), e.rotation()),
        b.scale(),
        b.array(),
        b.common(),
        b.rotationZero());
  }

  /** Axis scale and squareness stand on lines of their own. */
  private static BatchTrim scale(BatchTrim b, TrimLine t, EnteredLine e) {
    BatchTrim.Scale s = b.scale();
    boolean axes = t.where().equals(TrimLine.AXIS_SCALE);
    double x = axes ? known(e.x()) : s.xPpm();
    double y = axes ? known(e.y()) : s.yPpm();
    double q = axes ? s.squarenessMrad() : known(e.squareness());
    Decision d = x == 0 && y == 0 && q == 0 ? Decision.LEAVE : Decision.TRIM;
    return new BatchTrim(
        b.shift(),
        b.rotation(),
        new BatchTrim.Scale(x, y, q, d, s.reason()),
        b.array(),
        b.common(),
        b.rotationZero());
  }

  /** A board that was to be moved by one amount was moved by another. */
  private static BatchTrim array(BatchTrim b, TrimLine t, EnteredLine e) {
    List<BatchTrim.BoardOrigin> boards = new ArrayList<>();
    for (BatchTrim.BoardOrigin o : b.array().boards()) {
      boolean mine = t.where().equals(TrimLine.originOf(o.board()));
      boards.add(
          mine
              ? new BatchTrim.BoardOrigin(
                  o.board(), o.x() - t.addX() + e.x(), o.y() - t.addY() + e.y())
              : o);
    }
    return new BatchTrim(
        b.shift(),
        b.rotation(),
        b.scale(),
        new BatchTrim.ArrayTrim(boards, b.array().decision(), b.array().reason()),
        b.common(),
        b.rotationZero());
  }
}
