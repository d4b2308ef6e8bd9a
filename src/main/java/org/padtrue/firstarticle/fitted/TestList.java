package org.padtrue.firstarticle.fitted;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.result.FamilyTest;
import org.padtrue.mixed.BatchRegistration;
import org.padtrue.mixed.FactorEffect;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.mixed.PanelFamily;
import org.padtrue.mixed.RotationFit;
import org.padtrue.mixed.Terms;
import org.padtrue.mixed.reml.VarianceTest;
import org.padtrue.mixed.reml.Wald;
import org.padtrue.numeric.BenjaminiHochberg;
import org.padtrue.numeric.Tails;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.panel.term.TermFamily;

/**
 * Tests by families of terms, Benjamini-Hochberg at 5 % over the families.
 *
 * <p>A family that the model leaves out is tested by adding it; it can pass only when it is in.
 */
public final class TestList {
  private static final double LEVEL = 0.05;

  /** Statistic with its tail probability; squared standardised length for shrinking. */
  record Entry(
      String family, double statistic, String kind, double p, double t2, boolean inModel) {}

  private boolean shiftAlone;
  private final Map<String, Entry> entries = new LinkedHashMap<>();
  private final Map<String, Boolean> passes = new LinkedHashMap<>();

  public static TestList of(Fits f, boolean registered) {
    TestList l = new TestList();
    OffsetFit fit = f.position();
    Terms t = fit.terms();
    if (registered) {
      l.shift(f);
      l.rotation(f, t);
    }
    if (f.scaleVisible()) {
      l.scale(fit, t);
      l.array(fit, t);
    }
    if (t.common()) {
      l.wald(TermFamily.COMMON, fit.commonTest(), Double.NaN);
    } else if (!Double.isNaN(fit.commonP())) {
      l.add(new Entry(TermFamily.COMMON.key(), Double.NaN, "F", fit.commonP(), 0, false));
    }
    for (FactorEffect e : fit.effects()) {
      l.add(variance(key(e.source(), OffsetAxis.X), e.testX()));
      l.add(variance(key(e.source(), OffsetAxis.Y), e.testY()));
    }
    RotationFit r = f.rotation();
    if (r != null) {
      double se2 = rotationZeroVariance(f, r);
      double t2 = r.zero() * r.zero() / se2;
      l.add(
          new Entry(TermFamily.ROTATION_ZERO.key(), t2, "F", Tails.f(t2, 1, r.zeroDf()), t2, true));
      for (int k = 0; k < r.factors().size(); k++) {
        l.add(variance(key(r.factors().get(k).key(), OffsetAxis.ROTATION), r.test(k)));
      }
    }
    l.control();
    return l;
  }

  /**
   * The panel's own rotation is taken off the response, so its estimation error adds, degrees^2.
   */
  public static double rotationZeroVariance(Fits f, RotationFit r) {
    double v = r.zeroSe() * r.zeroSe();
    double n = f.panels().size();
    for (var p : f.panels()) {
      v += p.rotationSeDeg() * p.rotationSeDeg() / (n * n);
    }
    return v;
  }

  private static Entry variance(String family, VarianceTest t) {
    return new Entry(family, t.ratio(), "likelihood ratio", t.p(), t.ratio(), true);
  }

  private void add(Entry e) {
    entries.put(e.family(), e);
  }

  private void wald(TermFamily family, Wald w, double nestedP) {
    double p = worse(w.p(), nestedP);
    add(new Entry(family.key(), w.f(), "F", p, w.f() * w.df1(), true));
  }

  /** A Wald test in a chosen model is a little eager; the nested test beside it is not. */
  private static double worse(double p, double nested) {
    return Double.isNaN(nested) ? p : Math.max(p, nested);
  }

  private void shift(Fits f) {
    BatchRegistration x = f.shiftX();
    BatchRegistration y = f.shiftY();
    shiftAlone = x.basis() == BatchRegistration.Basis.USUAL;
    double xy = 0;
    for (var p : f.panels()) {
      xy += p.centroidCov()[1] / (f.panels().size() * (double) f.panels().size());
    }
    Wald w =
        OffsetFit.wald(
            new double[] {x.mean(), y.mean()},
            new double[][] {{x.variance(), xy}, {xy, y.variance()}},
            Math.min(x.df(), y.df()));
    wald(TermFamily.SHIFT, w, Double.NaN);
  }

  private void rotation(Fits f, Terms t) {
    if (t.family() == PanelFamily.SHIFT) {
      double p = f.position().rotationNestedP();
      if (!Double.isNaN(p)) {
        add(new Entry(TermFamily.ROTATION.key(), Double.NaN, "F", p, 0, false));
      }
      return;
    }
    BatchRegistration r = f.turn();
    double t2 = r.mean() * r.mean() / r.variance();
    double p = worse(Tails.f(t2, 1, r.df()), f.position().rotationNestedP());
    add(new Entry(TermFamily.ROTATION.key(), t2, "F", p, t2, true));
  }

  private void scale(OffsetFit fit, Terms t) {
    if (t.family().compareTo(PanelFamily.SIMILARITY) >= 0) {
      wald(TermFamily.SCALE, fit.scaleTest(), fit.scaleNestedP());
    } else if (!Double.isNaN(fit.scaleNestedP())) {
      add(new Entry(TermFamily.SCALE.key(), Double.NaN, "F", fit.scaleNestedP(), 0, false));
    }
  }

  private void array(OffsetFit fit, Terms t) {
    if (t.array()) {
      wald(TermFamily.ARRAY, fit.arrayTest(), fit.arrayNestedP());
    } else if (!Double.isNaN(fit.arrayNestedP())) {
      add(new Entry(TermFamily.ARRAY.key(), Double.NaN, "F", fit.arrayNestedP(), 0, false));
    }
  }

  private void control() {
    List<Entry> all = new ArrayList<>(entries.values());
    Entry alone = shiftAlone ? entries.get(TermFamily.SHIFT.key()) : null;
    if (alone != null) {
      // How well panels repeat is a usual value, no estimate: a test at a level would be as good as
      // that value. Akaike's criterion asks which of the two predicts the next panel better.
      all.remove(alone);
      passes.put(TermFamily.SHIFT.key(), alone.t2() > 2 * 2 && alone.inModel());
    }
    boolean[] pass = BenjaminiHochberg.passes(all.stream().mapToDouble(Entry::p).toArray(), LEVEL);
    for (int i = 0; i < pass.length; i++) {
      passes.put(all.get(i).family(), pass[i] && all.get(i).inModel());
    }
  }

  /** Name of the test of a component of a factor's offsets: "nozzle in the panel frame x". */
  private static String key(String source, OffsetAxis axis) {
    return source + " " + axis.key();
  }

  private boolean passes(String family) {
    return passes.getOrDefault(family, false);
  }

  public boolean passes(TermFamily family) {
    return passes(family.key());
  }

  /** Whether the offsets of a component of a factor stand out along an axis. */
  public boolean passes(String source, OffsetAxis axis) {
    return passes(key(source, axis));
  }

  public boolean has(TermFamily family) {
    return entries.containsKey(family.key());
  }

  public double p(TermFamily family) {
    Entry e = entries.get(family.key());
    return e == null ? Double.NaN : e.p();
  }

  public double t2(TermFamily family) {
    Entry e = entries.get(family.key());
    return e == null ? 0 : e.t2();
  }

  public List<FamilyTest> lines() {
    List<FamilyTest> l = new ArrayList<>();
    for (Entry e : entries.values()) {
      l.add(new FamilyTest(e.family(), e.statistic(), e.kind(), e.p(), passes(e.family())));
    }
    return l;
  }
}
