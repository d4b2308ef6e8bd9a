package org.padtrue.check;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.decide.EnteredTrims;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Factor;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.term.TermFamily;

/**
 * One term of the model: its columns, its trim, what the first article said of it. A level that is
 * trimmed in the plane but not in rotation, or the other way round, comes as two: what was not
 * trimmed stands right behind as a term of its own, so that it does not colour the finding.
 *
 * @param name as in check.json
 * @param columns columns for x, y and rotation; -1 where it has none
 * @param trim what was to be added on each; 0 where nothing was
 * @param promised old estimate plus trim; NaN where not known
 * @param frame in which frame it acts
 * @param level first column of its level; -1 when it acts on every placement
 * @param turn whole turn that was to be added, degrees; 0 for none
 * @param zeroOrientation how the type was turned before
 * @param trimmed true when there is a trim to check; others may have changed by themselves
 */
record TrimCheckItem(
    String name,
    int[] columns,
    double[] trim,
    double[] promised,
    Frame frame,
    int level,
    int turn,
    int zeroOrientation,
    boolean trimmed) {

  /** The frame of x and y; NONE where a wrong frame makes no sense. */
  enum Frame {
    PART,
    PANEL,
    NONE
  }

  static List<TrimCheckItem> of(TrimCheckBefore b, TrimCheckModel model, BoardArray array) {
    List<TrimCheckItem> items = new ArrayList<>();
    BatchTrim t = b.batchTrim();
    TransformValues v = mean(b.transforms());
    int s = TrimCheckModel.SHIFT;
    items.add(
        plane(
            TermFamily.SHIFT.key(), s, values(t.shift()), xy(v.shiftX(), v.shiftY()), Frame.PANEL));
    items.add(
        angle(TermFamily.ROTATION.key(), TrimCheckModel.TURN, value(t.rotation()), v.rotation()));
    items.add(scale(t.scale(), v));
    double[] steps =
        EnteredTrims.of(t, List.of(), array, java.util.EnumSet.of(TrimKind.ARRAY)).arraySteps();
    ArrayError a = b.array();
    int at = TrimCheckModel.ARRAY;
    Xy column = a == null ? Xy.ZERO : a.perColumn();
    Xy row = a == null ? Xy.ZERO : a.perRow();
    items.add(
        plane(
            TermFamily.ARRAY.key() + "Column",
            at,
            xy(steps[0], steps[1]),
            xy(column.x(), column.y()),
            Frame.NONE));
    items.add(
        plane(
            TermFamily.ARRAY.key() + "Row",
            at + 2,
            xy(steps[2], steps[3]),
            xy(row.x(), row.y()),
            Frame.NONE));
    FirstArticleResult.Common c = b.common();
    Xy m = c == null ? Xy.ZERO : c.value();
    items.add(
        plane(
            TermFamily.COMMON.key(),
            TrimCheckModel.COMMON,
            values(t.common()),
            xy(m.x(), m.y()),
            Frame.PART));
    FirstArticleResult.RotationZero z = b.rotationZero();
    items.add(
        angle(
            TermFamily.ROTATION_ZERO.key(),
            TrimCheckModel.ZERO,
            value(t.rotationZero()),
            z == null ? Double.NaN : z.value()));
    boolean commonTrimmed = t.common().decision() == Decision.TRIM;
    double zero = z == null || t.rotationZero().decision() == Decision.TRIM ? 0 : z.value();
    for (int i = 0; i < b.groups().size(); i++) {
      int base = TrimCheckModel.LEVELS + 3 * i;
      Xyr shared = new Xyr(commonTrimmed ? 0 : m.x(), commonTrimmed ? 0 : m.y(), zero);
      TrimCheckItem level = level(b.groups(), i, base, model, shared);
      boolean plane = level.trim[0] != 0 || level.trim[1] != 0;
      if (plane == (level.trim[2] != 0)) {
        items.add(level);
      } else {
        items.add(level.only(plane));
        items.add(level.only(!plane).untrimmed());
      }
    }
    return items;
  }

  /** The plane of this level, or its rotation. */
  private TrimCheckItem only(boolean plane) {
    int[] c = columns.clone();
    if (plane) {
      c[2] = -1;
    } else {
      c[0] = -1;
      c[1] = -1;
    }
    return new TrimCheckItem(name, c, trim, promised, frame, level, turn, zeroOrientation, trimmed);
  }

  private TrimCheckItem untrimmed() {
    return new TrimCheckItem(name, columns, new double[3], promised, frame, level, 0, 0, false);
  }

  /** True for a term of the panel of a family. */
  boolean is(TermFamily family) {
    return level < 0
        && (family == TermFamily.ARRAY ? name.startsWith(family.key()) : name.equals(family.key()));
  }

  /** True for the part of a level that stands behind another part of it. */
  boolean follows(TrimCheckItem other) {
    return level >= 0 && level == other.level;
  }

  private static double[] xy(double x, double y) {
    return new double[] {x, y, Double.NaN};
  }

  private static double[] values(BatchTrim.Shift s) {
    return s.decision() == Decision.TRIM
        ? new double[] {s.value().x(), s.value().y(), 0}
        : new double[3];
  }

  private static double value(BatchTrim.Angle a) {
    return a.decision() == Decision.TRIM ? a.value() : 0;
  }

  private static TrimCheckItem plane(
      String name, int column, double[] trim, double[] old, Frame frame) {
    double[] t = {trim[0], trim[1], 0};
    return item(name, new int[] {column, column + 1, -1}, t, old, frame, -1);
  }

  private static TrimCheckItem angle(String name, int column, double trim, double old) {
    return item(
        name,
        new int[] {-1, -1, column},
        new double[] {0, 0, trim},
        new double[] {Double.NaN, Double.NaN, old},
        Frame.NONE,
        -1);
  }

  private static TrimCheckItem scale(BatchTrim.Scale s, TransformValues v) {
    boolean trim = s.decision() == Decision.TRIM;
    int at = TrimCheckModel.SCALE;
    return item(
        TermFamily.SCALE.key(),
        new int[] {at, at + 1, at + 2},
        trim ? new double[] {s.xPpm(), s.yPpm(), s.squarenessMrad()} : new double[3],
        new double[] {v.scaleXPpm(), v.scaleYPpm(), v.squarenessMrad()},
        Frame.NONE,
        -1);
  }

  /** Where what all share stays, a type's place is its own offset and the shared one. */
  private static TrimCheckItem level(
      List<GroupResult> groups, int i, int at, TrimCheckModel model, Xyr shared) {
    GroupResult g = groups.get(i);
    String frame = GroupResult.source(g, groups).substring(g.factor().key().length());
    boolean trim = g.trim().decision() == Decision.TRIM;
    Xyr t = trim ? g.trim().value() : Xyr.ZERO;
    boolean part = g.factor() == Factor.PART;
    Xyr o = g.offset();
    TrimCheckItem own =
        item(
            g.named() + frame,
            new int[] {at, at + 1, at + 2},
            new double[] {known(t.x()), known(t.y()), known(t.rotation())},
            new double[] {
              o.x() + (part ? shared.x() : 0),
              o.y() + (part ? shared.y() : 0),
              o.rotation() + (part ? shared.rotation() : 0)
            },
            model.inPartFrame(at) ? Frame.PART : Frame.PANEL,
            at);
    return new TrimCheckItem(
        own.name,
        own.columns,
        own.trim,
        own.promised,
        own.frame,
        at,
        trim ? g.trim().turn() : 0,
        g.zeroOrientation(),
        own.trimmed);
  }

  private static TrimCheckItem item(
      String name, int[] columns, double[] trim, double[] old, Frame frame, int level) {
    double[] promised = new double[3];
    boolean trimmed = false;
    for (int k = 0; k < 3; k++) {
      promised[k] = old[k] + trim[k];
      trimmed |= trim[k] != 0;
    }
    return new TrimCheckItem(name, columns, trim, promised, frame, level, 0, 0, trimmed);
  }

  static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  /** Mean over the panels; NaN for what the reference hides. */
  static TransformValues mean(List<TransformValues> all) {
    double[] s = new double[6];
    for (TransformValues v : all) {
      double n = all.size();
      s[0] += v.shiftX() / n;
      s[1] += v.shiftY() / n;
      s[2] += v.rotation() / n;
      s[3] += v.scaleXPpm() / n;
      s[4] += v.scaleYPpm() / n;
      s[5] += v.squarenessMrad() / n;
    }
    return new TransformValues(s[0], s[1], s[2], s[3], s[4], s[5]);
  }

  /** True when a placement belongs to it. */
  boolean has(TrimCheckModel.Place p) {
    if (level < 0) {
      return true;
    }
    for (int l : p.levels()) {
      if (l == level) {
        return true;
      }
    }
    return false;
  }
}
