package org.padtrue.fit;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.SyntheticPanel;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.quantity.Angles;

/** A synthetic article, recorded to a micrometre, in which single records are spoiled. */
final class SpoiledArticle {
  private final List<Measured> rows = new ArrayList<>();
  private final boolean poses;

  private SpoiledArticle(SyntheticPanel p, boolean poses) {
    this.poses = poses;
    for (Measured m : p.draw().article("a").measured()) {
      rows.add(with(m, rounded(m.dxMm()), rounded(m.dyMm()), m.dRotationDeg()));
    }
  }

  /** Poses of a panel shifted by (62, -38) um and turned by 0.03 degrees. */
  static SpoiledArticle poses(long seed) {
    SyntheticPanel p = panel(seed);
    p.shiftX = 0.062;
    p.shiftY = -0.038;
    return new SpoiledArticle(p, true);
  }

  /** Deviations of a panel shifted by so much that a slip in them can be seen. */
  static SpoiledArticle deviations(long seed) {
    SyntheticPanel p = panel(seed);
    p.shiftX = 0.412;
    p.shiftY = -0.163;
    return new SpoiledArticle(p, false);
  }

  private static SyntheticPanel panel(long seed) {
    SyntheticPanel p = new SyntheticPanel(seed);
    p.perBoard = 80;
    p.rotationDeg = 0.03;
    return p;
  }

  private static double rounded(double v) {
    return Math.rint(v * 1000) / 1000;
  }

  private static Measured with(Measured m, double dx, double dy, double dr) {
    return new Measured(
        m.panel(),
        m.board(),
        m.placement(),
        m.nominal(),
        dx,
        dy,
        dr,
        m.uMm(),
        m.uRotationDeg(),
        m.levels(),
        m.order(),
        m.note(),
        m.line());
  }

  int size() {
    return rows.size();
  }

  Measured row(int i) {
    return rows.get(i);
  }

  /** What stands in the file: the pose, or the deviation. */
  double x(int i) {
    Measured m = rows.get(i);
    return rounded(m.dxMm() + (poses ? m.nominal().xMm() : 0));
  }

  double y(int i) {
    Measured m = rows.get(i);
    return rounded(m.dyMm() + (poses ? m.nominal().yMm() : 0));
  }

  /** Writes other values into the file. */
  SpoiledArticle record(int i, double x, double y) {
    Measured m = rows.get(i);
    double nx = poses ? m.nominal().xMm() : 0;
    double ny = poses ? m.nominal().yMm() : 0;
    rows.set(i, with(m, x - nx, y - ny, m.dRotationDeg()));
    return this;
  }

  SpoiledArticle turn(int i, double deg) {
    Measured m = rows.get(i);
    rows.set(i, with(m, m.dxMm(), m.dyMm(), Angles.wrap(m.dRotationDeg() + deg)));
    return this;
  }

  /** The records of two placements exchanged, rotation and all. */
  SpoiledArticle exchange(int i, int j) {
    double xi = x(i);
    double yi = y(i);
    double ri = rows.get(i).nominal().rotationDeg() + rows.get(i).dRotationDeg();
    double rj = rows.get(j).nominal().rotationDeg() + rows.get(j).dRotationDeg();
    record(i, x(j), y(j));
    record(j, xi, yi);
    setRotation(i, rj);
    setRotation(j, ri);
    return this;
  }

  private void setRotation(int i, double recorded) {
    Measured m = rows.get(i);
    rows.set(i, with(m, m.dxMm(), m.dyMm(), Angles.wrap(recorded - m.nominal().rotationDeg())));
  }

  ScreeningResult screen() {
    int[] symmetry = new int[rows.size()];
    java.util.Arrays.fill(symmetry, 1);
    return Screening.screen(new DeviationTable(rows, Double.NaN, Double.NaN), symmetry, poses);
  }
}
