package org.padtrue.check;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;

/**
 * A machine with the trims of an analysis in force, some of them entered wrongly. The arithmetic of
 * this class is its own: what a trim does to a placement is written out here once more.
 */
final class TrimMistakes {
  /** What was done with a trim. */
  enum Done {
    RIGHT(TrimCheckFinding.HELD),
    NOT_AT_ALL(TrimCheckFinding.NOT_ENTERED),
    WRONG_SIGN(TrimCheckFinding.WRONG_SIGN),
    TWICE(TrimCheckFinding.ENTERED_TWICE),
    /** A part-frame trim not turned, a panel-frame one turned with the part. */
    WRONG_FRAME(TrimCheckFinding.WRONG_FRAME),
    /** A part-frame trim turned the other way. */
    TURNED_BACK(TrimCheckFinding.WRONG_FRAME);

    private final TrimCheckFinding finding;

    Done(TrimCheckFinding finding) {
      this.finding = finding;
    }

    /** What a check should call it. */
    TrimCheckFinding finding() {
      return finding;
    }
  }

  private final FirstArticleResult r;
  private final Map<String, Done> done = new HashMap<>();

  TrimMistakes(FirstArticleResult r) {
    this.r = r;
  }

  TrimMistakes with(String term, Done what) {
    done.put(term, what);
    return this;
  }

  private Done done(String term) {
    return done.getOrDefault(term, Done.RIGHT);
  }

  private double times(String term) {
    return switch (done(term)) {
      case NOT_AT_ALL -> 0;
      case WRONG_SIGN -> -1;
      case TWICE -> 2;
      default -> 1;
    };
  }

  /** An article as the machine would place it with these entries. */
  Article enter(Article a) {
    List<Measured> rows = new ArrayList<>();
    for (Measured m : a.measured()) {
      double[] t = trim(m);
      rows.add(
          new Measured(
              m.panel(),
              m.board(),
              m.placement(),
              m.nominal(),
              m.dxMm() + t[0],
              m.dyMm() + t[1],
              m.dRotationDeg() + t[2],
              m.uMm(),
              m.uRotationDeg(),
              m.levels(),
              m.order(),
              m.note(),
              m.line()));
    }
    return new Article(
        a.file(), rows, a.fiducials(), a.poses(), a.partsRegistered(), a.temperatureC(), a.notes());
  }

  private double[] trim(Measured m) {
    double[] t = new double[3];
    double x = m.nominal().xMm();
    double y = m.nominal().yMm();
    double theta = Math.toRadians(m.nominal().rotationDeg());
    BatchTrim b = r.batchTrim();
    if (b.shift().decision() == Decision.TRIM) {
      double sx = b.shift().value().x();
      double sy = b.shift().value().y();
      if (done("shift") == Done.WRONG_FRAME) {
        turn(t, sx, sy, theta);
      } else {
        t[0] += times("shift") * sx;
        t[1] += times("shift") * sy;
      }
    }
    if (b.rotation().decision() == Decision.TRIM) {
      double phi = Math.toRadians(times("rotation") * b.rotation().value());
      t[0] += (Math.cos(phi) - 1) * x - Math.sin(phi) * y;
      t[1] += Math.sin(phi) * x + (Math.cos(phi) - 1) * y;
      t[2] += times("rotation") * b.rotation().value();
    }
    if (b.scale().decision() == Decision.TRIM) {
      double k = times("scale");
      t[0] += k * (1e-6 * b.scale().xPpm() * x - 1e-3 * b.scale().squarenessMrad() * y);
      t[1] += k * 1e-6 * b.scale().yPpm() * y;
    }
    for (BatchTrim.BoardOrigin o : b.array().boards()) {
      array(t, o, m);
    }
    if (b.common().decision() == Decision.TRIM) {
      part(t, "common", b.common().value().x(), b.common().value().y(), theta);
    }
    if (b.rotationZero().decision() == Decision.TRIM) {
      t[2] += times("rotationZero") * b.rotationZero().value();
    }
    for (GroupResult g : r.groups()) {
      String name = g.factor() + " " + g.level();
      boolean its =
          g.factor() == Factor.PART
              ? g.level().equals(m.placement().part())
              : g.factor() == Factor.NOZZLE && g.level().equals(m.levels().get(Factor.NOZZLE));
      if (its && g.trim().decision() == Decision.TRIM) {
        part(t, name, g.trim().value().x(), g.trim().value().y(), theta);
        t[2] += times(name) * (g.trim().value().rotation() + g.trim().turn());
      }
    }
    return t;
  }

  /**
   * What a new origin of a corner board does to a placement: boards listed by these tests are 1/1,
   * the last of the first column and the last of all, so each step is a share of two moves.
   */
  private void array(double[] t, BatchTrim.BoardOrigin o, Measured m) {
    int columns = r.job().array().columns();
    int rows = r.job().array().rows();
    BatchTrim.BoardOrigin up = origin(1, rows);
    BatchTrim.BoardOrigin far = origin(columns, rows);
    double row = (m.board().row() - 1) / Math.max(1.0, rows - 1);
    double column = (m.board().column() - 1) / Math.max(1.0, columns - 1);
    if (o.equals(far)) {
      double[] d = moved(far);
      double[] e = moved(up);
      t[0] += column * (d[0] - e[0]) + row * e[0];
      t[1] += column * (d[1] - e[1]) + row * e[1];
    }
  }

  private BatchTrim.BoardOrigin origin(int column, int row) {
    return r.batchTrim().array().boards().stream()
        .filter(x -> x.board().column() == column && x.board().row() == row)
        .findFirst()
        .orElseThrow();
  }

  private double[] moved(BatchTrim.BoardOrigin o) {
    var was = r.job().array().find(o.board()).orElseThrow().origin();
    return new double[] {o.x() - was.xMm(), o.y() - was.yMm()};
  }

  private void part(double[] t, String name, double x, double y, double theta) {
    switch (done(name)) {
      case WRONG_FRAME -> {
        t[0] += x;
        t[1] += y;
      }
      case TURNED_BACK -> turn(t, x, y, -theta);
      default -> turn(t, times(name) * x, times(name) * y, theta);
    }
  }

  private static void turn(double[] t, double x, double y, double theta) {
    t[0] += Math.cos(theta) * x - Math.sin(theta) * y;
    t[1] += Math.sin(theta) * x + Math.cos(theta) * y;
  }
}
