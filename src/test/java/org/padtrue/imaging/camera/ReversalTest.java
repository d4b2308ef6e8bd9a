package org.padtrue.imaging.camera;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.padtrue.imaging.map.DeviceBend;

/**
 * Error separation on simulated readings: a device error of about 0.3 mm over the panel, a panel
 * whose own points are off by 0.05 mm, reading noise 4 um.
 */
class ReversalTest {
  private static final double HALF = 50;
  private static final double U = 0.004;

  /** The planted device: even (quadratic) bend, scale difference, squareness, a cubic term. */
  private static final DeviceBend DEVICE =
      new DeviceBend(
          new double[] {0.05, 0.03, 0.12, -0.05, 0.08, 0.04, 0, 0, 0},
          new double[] {0.03, -0.05, -0.06, 0.1, 0.05, 0, 0, 0, -0.03},
          HALF * Math.sqrt(2),
          20,
          0,
          0);

  @Test
  void turnedBy180TheEvenBendIsKnownAndTheRestIsSaidNotToBe() {
    ReversalResult r = solve(1, 0, 180);
    int within = 0;
    int even = 0;
    for (ReversalResult.Term t : r.terms()) {
      double planted = planted(t.name());
      if (t.name().matches("[xy]: (xx|xy|yy)")) {
        assertEquals(planted, t.valueMm(), 4 * t.uMm(), t.name());
        within += Math.abs(planted - t.valueMm()) < 2 * t.uMm() ? 1 : 0;
        even++;
      } else {
        assertTrue(Double.isNaN(t.valueMm()), t + " cannot be known from 0 and 180");
      }
    }
    assertEquals(6, even);
    assertTrue(within >= 5, "within 2 u: " + within + " of 6");
    assertTrue(
        r.notes().stream().anyMatch(n -> n.startsWith("not separable with these turns:")),
        r.notes().toString());
  }

  @Test
  void turnedBy90TooScaleDifferenceAndSquarenessAreKnown() {
    ReversalResult r = solve(2, 0, 90, 180, 270);
    for (ReversalResult.Term t : r.terms()) {
      if (t.name().equals("common scale")) {
        assertTrue(Double.isNaN(t.valueMm()), "common scale is never known: " + t);
      } else if (t.name().matches("[xy]: (xx|xy|yy)|scale difference|squareness")) {
        assertEquals(planted(t.name()), t.valueMm(), 4 * t.uMm(), t.name());
        assertTrue(t.uMm() < 0.01, t + " is known well");
      }
    }
    System.out.printf(
        "reversal 0+90+180+270: device %.3f mm, left %.4f mm%n", r.deviceMm(), r.residualMm());
    assertEquals(U, r.residualMm(), 0.35 * U);
  }

  /**
   * Pooled over forty simulated devices the errors over stated uncertainties have an RMS near 1.
   */
  @Test
  void statedUncertaintiesAreHonest() {
    double s = 0;
    int n = 0;
    for (int seed = 10; seed < 50; seed++) {
      for (ReversalResult.Term t : solve(seed, 0, 180).terms()) {
        if (!Double.isNaN(t.valueMm())) {
          s += Math.pow((t.valueMm() - planted(t.name())) / t.uMm(), 2);
          n++;
        }
      }
    }
    double rms = Math.sqrt(s / n);
    System.out.printf("reversal: z RMS %.2f over %d terms%n", rms, n);
    // 240 terms, six of a run correlated: the RMS of a true 1 lies within 0.8 to 1.2.
    assertEquals(1, rms, 0.2);
  }

  private static double planted(String name) {
    return switch (name) {
      case "scale difference" -> (DEVICE.cx()[0] - DEVICE.cy()[1]) / 2;
      case "squareness" -> (DEVICE.cx()[1] + DEVICE.cy()[0]) / 2;
      default -> {
        double[] c = name.startsWith("x") ? DEVICE.cx() : DEVICE.cy();
        for (int i = 0; i < DeviceBend.TERMS; i++) {
          if (DeviceBend.NAMES[i].equals(name.substring(3))) {
            yield c[i];
          }
        }
        yield 0;
      }
    };
  }

  private static ReversalResult solve(long seed, int... turns) {
    Random random = new Random(seed);
    Map<String, double[]> nominal = new HashMap<>();
    Map<String, double[]> panel = new HashMap<>();
    for (int i = 0; i < 120; i++) {
      double x = (random.nextDouble() * 2 - 1) * HALF;
      double y = (random.nextDouble() * 2 - 1) * HALF;
      nominal.put("R" + i, new double[] {x, y});
      panel.put(
          "R" + i,
          new double[] {x + 0.05 * random.nextGaussian(), y + 0.05 * random.nextGaussian()});
    }
    // The corner fixes the scale length of the terms.
    nominal.put("C", new double[] {HALF, HALF});
    panel.put("C", new double[] {HALF, HALF});
    List<Reversal.View> views = new ArrayList<>();
    for (int turn : turns) {
      double a = Math.toRadians(turn + 0.3 * random.nextGaussian());
      double tx = random.nextGaussian();
      double ty = random.nextGaussian();
      Map<String, double[]> seen = new HashMap<>();
      for (String name : nominal.keySet().stream().sorted().toList()) {
        double[] p = panel.get(name);
        double x = Math.cos(a) * p[0] - Math.sin(a) * p[1] + tx;
        double y = Math.sin(a) * p[0] + Math.cos(a) * p[1] + ty;
        double[] e = DEVICE.error(x, y);
        seen.put(
            name,
            new double[] {
              x + e[0] + U * random.nextGaussian(), y + e[1] + U * random.nextGaussian(), U
            });
      }
      views.add(new Reversal.View(turn, seen));
    }
    return rescaled(Reversal.solve(views, nominal, 20));
  }

  /** Terms at the scale length of the planted device. */
  private static ReversalResult rescaled(ReversalResult r) {
    double f = DEVICE.scaleMm() / r.bend().scaleMm();
    List<ReversalResult.Term> terms = new ArrayList<>();
    for (ReversalResult.Term t : r.terms()) {
      int power = t.name().contains(":") ? t.name().length() - 3 : 1;
      double k = Math.pow(f, power);
      terms.add(new ReversalResult.Term(t.name(), t.valueMm() * k, t.uMm() * k));
    }
    return new ReversalResult(r.bend(), terms, r.deviceMm(), r.residualMm(), r.notes());
  }
}
