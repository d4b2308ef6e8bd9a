package org.padtrue.firstarticle.fitted;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.FiducialFit;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.fit.PlanarFit;
import org.padtrue.fit.PlanarTransform;
import org.padtrue.mixed.PanelEstimate;
import org.padtrue.numeric.UndeterminedException;
import org.padtrue.panel.Job;
import org.padtrue.panel.article.MeasuredFiducial;

/** The fiducials' own fit, compared with the parts' fit; one that is off is named. */
public final class FiducialCheck {
  /** Standard uncertainty of a fiducial when the article states none, mm (common practice). */
  private static final double DEFAULT_U = 0.010;

  private FiducialCheck() {}

  public static @Nullable FiducialFit of(
      Job job, String panel, List<MeasuredFiducial> all, PanelEstimate parts) {
    List<MeasuredFiducial> f = all.stream().filter(m -> m.panel().equals(panel)).toList();
    int n = f.size();
    if (n == 0) {
      return null;
    }
    double u = DEFAULT_U;
    if (!Double.isNaN(job.measurement().uncertaintyMm())) {
      u = job.measurement().uncertaintyMm();
    }
    PlanarTransform t = fit(f, n >= 2 ? PlanarFit.Family.RIGID : PlanarFit.Family.SHIFT);
    boolean[] suspect = new boolean[n];
    if (n >= 4) {
      // The one whose removal helps most, if it is then off by more than three uncertainties.
      int worst = worst(f, t);
      List<MeasuredFiducial> rest = new ArrayList<>(f);
      MeasuredFiducial w = rest.remove(worst);
      PlanarTransform without = fit(rest, PlanarFit.Family.RIGID);
      suspect[worst] = residual(w, without) > 3 * uncertainty(w, u) * 1.5;
      if (suspect[worst]) {
        t = without;
      }
    }
    List<FiducialFit.Line> lines = new ArrayList<>();
    StringBuilder off = new StringBuilder();
    for (int i = 0; i < n; i++) {
      MeasuredFiducial m = f.get(i);
      double rx = m.nominalXMm() + m.dxMm() - t.x(m.nominalXMm(), m.nominalYMm());
      double ry = m.nominalYMm() + m.dyMm() - t.y(m.nominalXMm(), m.nominalYMm());
      boolean bad = suspect[i] || n == 3 && Math.hypot(rx, ry) > 3 * uncertainty(m, u);
      lines.add(
          new FiducialFit.Line(
              m.fiducial().name(), new Xy(m.dxMm(), m.dyMm()), new Xy(rx, ry), bad));
      if (bad) {
        off.append(off.length() == 0 ? "" : ", ").append(m.fiducial().name());
      }
    }
    TransformValues values =
        new TransformValues(
            t.txMm(),
            t.tyMm(),
            n >= 2 ? t.rotationDeg() : Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN);
    return new FiducialFit(n, values, lines, sentence(t, n, parts, off.toString()));
  }

  private static String sentence(PlanarTransform t, int n, PanelEstimate parts, String off) {
    String s =
        String.format(
            Locale.ROOT,
            "the fiducials sit at x %+.0f, y %+.0f um%s, the parts at x %+.0f, y %+.0f um, %+.3f"
                + " deg (at the panel origin, measured minus nominal)",
            t.txMm() * 1e3,
            t.tyMm() * 1e3,
            n >= 2 ? String.format(Locale.ROOT, ", %+.3f deg", t.rotationDeg()) : "",
            parts.shiftXMm() * 1e3,
            parts.shiftYMm() * 1e3,
            parts.rotationDeg());
    return off.isEmpty() ? s : s + "; off by more than three standard uncertainties: " + off;
  }

  private static double uncertainty(MeasuredFiducial m, double u) {
    return Double.isNaN(m.uMm()) ? u : m.uMm();
  }

  private static double residual(MeasuredFiducial m, PlanarTransform t) {
    return Math.hypot(
        m.nominalXMm() + m.dxMm() - t.x(m.nominalXMm(), m.nominalYMm()),
        m.nominalYMm() + m.dyMm() - t.y(m.nominalXMm(), m.nominalYMm()));
  }

  private static int worst(List<MeasuredFiducial> f, PlanarTransform all) {
    int worst = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < f.size(); i++) {
      List<MeasuredFiducial> rest = new ArrayList<>(f);
      rest.remove(i);
      PlanarTransform t = fit(rest, PlanarFit.Family.RIGID);
      double s = 0;
      for (MeasuredFiducial m : rest) {
        double r = residual(m, t);
        s += r * r;
      }
      if (s < least) {
        least = s;
        worst = i;
      }
    }
    return worst;
  }

  private static PlanarTransform fit(List<MeasuredFiducial> f, PlanarFit.Family family) {
    int n = f.size();
    double[] x = new double[n];
    double[] y = new double[n];
    double[] u = new double[n];
    double[] v = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = f.get(i).nominalXMm();
      y[i] = f.get(i).nominalYMm();
      u[i] = x[i] + f.get(i).dxMm();
      v[i] = y[i] + f.get(i).dyMm();
    }
    try {
      return PlanarFit.fit(family, x, y, u, v).transform();
    } catch (UndeterminedException e) {
      return PlanarFit.fit(PlanarFit.Family.SHIFT, x, y, u, v).transform();
    }
  }
}
