package org.padtrue.mixed;

import java.util.ArrayList;
import java.util.List;

/**
 * The linear map from a family's own parameters to the full fixed columns, at a point of
 * linearisation.
 *
 * <p>Linear part of panel p: A_p = R(phi_p) U, U = [[1 + kx, -(1 + ky) sin q], [0, (1 + ky) cos
 * q]]: phi is the direction of the image of +x, 1 + kx and 1 + ky the lengths of the images of +x
 * and +y, q the angle between them minus 90 degrees. Scale and squareness are the machine's, hence
 * shared by the panels of a batch. Gauss-Newton over (phi, kx, ky, q) makes rigid and similarity
 * exact.
 *
 * @param terms which terms
 * @param c one row per parameter: coefficients on the full columns
 * @param offset coefficients that are taken off the response
 * @param layout where each parameter is
 */
record FamilyMap(Terms terms, double[][] c, double[] offset, Layout layout) {

  /**
   * Index of the first parameter of each kind, -1 when absent.
   *
   * @param rotation first panel's rotation
   * @param scale kappa (similarity) or kx, ky, q (affine)
   * @param column step per column (x, y)
   * @param row step per row (x, y)
   * @param common common offset (x, y)
   * @param settling settling (x, y)
   * @param size number of parameters; shifts come first, two per panel
   */
  record Layout(int rotation, int scale, int column, int row, int common, int settling, int size) {}

  /** Nonlinear parameters: rotation of each panel, kx, ky, q (radians). */
  record Shape(double[] phi, double kx, double ky, double q) {
    static Shape none(int panels) {
      return new Shape(new double[panels], 0, 0, 0);
    }

    double[] linear(int p) {
      double c = Math.cos(phi[p]);
      double s = Math.sin(phi[p]);
      double a = 1 + kx;
      double b = 1 + ky;
      double sq = Math.sin(q);
      double cq = Math.cos(q);
      return new double[] {c * a, -c * b * sq - s * b * cq, s * a, -s * b * sq + c * b * cq};
    }
  }

  static FamilyMap at(
      PositionColumns cols, Terms terms, boolean hasColumns, boolean hasRows, Shape shape) {
    int panels = cols.panels;
    List<double[]> c = new ArrayList<>();
    double[] offset = new double[cols.fixed];
    double r = cols.radius;
    for (int p = 0; p < panels; p++) {
      for (int e = 0; e < 2; e++) {
        c.add(unit(cols, PositionColumns.PER_PANEL * p + e));
      }
    }
    int rotation = -1;
    int scale = -1;
    if (terms.family() != PanelFamily.SHIFT) {
      rotation = c.size();
      for (int p = 0; p < panels; p++) {
        double[] a = shape.linear(p);
        int at = PositionColumns.PER_PANEL * p + 2;
        offset[at] = r * (a[0] - 1);
        offset[at + 1] = r * a[1];
        offset[at + 2] = r * a[2];
        offset[at + 3] = r * (a[3] - 1);
        // d/dphi of R(phi) U is J R(phi) U.
        double[] v = new double[cols.fixed];
        v[at] = -r * a[2];
        v[at + 1] = -r * a[3];
        v[at + 2] = r * a[0];
        v[at + 3] = r * a[1];
        c.add(v);
      }
    }
    if (terms.family().shared() > 0) {
      scale = c.size();
      addScale(cols, terms, shape, c);
    }
    int column = -1;
    int row = -1;
    if (terms.array()) {
      if (hasColumns) {
        column = c.size();
        c.add(unit(cols, cols.arrayAt));
        c.add(unit(cols, cols.arrayAt + 1));
      }
      if (hasRows) {
        row = c.size();
        c.add(unit(cols, cols.arrayAt + 2));
        c.add(unit(cols, cols.arrayAt + 3));
      }
    }
    int common = -1;
    if (terms.common()) {
      common = c.size();
      c.add(unit(cols, cols.commonAt));
      c.add(unit(cols, cols.commonAt + 1));
    }
    int settling = -1;
    if (terms.settling()) {
      settling = c.size();
      c.add(unit(cols, cols.settlingAt));
      c.add(unit(cols, cols.settlingAt + 1));
    }
    return new FamilyMap(
        terms,
        c.toArray(new double[0][]),
        offset,
        new Layout(rotation, scale, column, row, common, settling, c.size()));
  }

  private static void addScale(PositionColumns cols, Terms terms, Shape s, List<double[]> c) {
    double r = cols.radius;
    double[] kx = new double[cols.fixed];
    double[] ky = new double[cols.fixed];
    double[] q = new double[cols.fixed];
    for (int p = 0; p < cols.panels; p++) {
      int at = PositionColumns.PER_PANEL * p + 2;
      double cp = Math.cos(s.phi()[p]);
      double sp = Math.sin(s.phi()[p]);
      double sq = Math.sin(s.q());
      double cq = Math.cos(s.q());
      kx[at] = r * cp;
      kx[at + 2] = r * sp;
      ky[at + 1] = r * (-cp * sq - sp * cq);
      ky[at + 3] = r * (-sp * sq + cp * cq);
      q[at + 1] = r * (1 + s.ky()) * (-cp * cq + sp * sq);
      q[at + 3] = r * (1 + s.ky()) * (-sp * cq - cp * sq);
    }
    if (terms.family() == PanelFamily.SIMILARITY) {
      double[] k = new double[cols.fixed];
      for (int i = 0; i < k.length; i++) {
        k[i] = kx[i] + ky[i];
      }
      c.add(k);
      return;
    }
    c.add(kx);
    c.add(ky);
    c.add(q);
  }

  private static double[] unit(PositionColumns cols, int i) {
    double[] v = new double[cols.fixed];
    v[i] = 1;
    return v;
  }

  /** The shape after a Gauss-Newton step with fitted parameters. */
  Shape step(Shape s, double[] b, int panels) {
    if (layout.rotation() < 0) {
      return s;
    }
    double[] phi = s.phi().clone();
    for (int p = 0; p < panels; p++) {
      phi[p] += b[layout.rotation() + p];
    }
    int k = layout.scale();
    if (k < 0) {
      return new Shape(phi, s.kx(), s.ky(), s.q());
    }
    if (terms.family() == PanelFamily.SIMILARITY) {
      return new Shape(phi, s.kx() + b[k], s.ky() + b[k], 0);
    }
    return new Shape(phi, s.kx() + b[k], s.ky() + b[k + 1], s.q() + b[k + 2]);
  }
}
