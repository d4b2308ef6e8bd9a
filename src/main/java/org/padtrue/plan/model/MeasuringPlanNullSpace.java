package org.padtrue.plan.model;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.SemidefiniteCholesky;
import org.padtrue.numeric.SymmetricMatrices;

/**
 * Directions in which the unknowns can move without any reading of any candidate changing: what
 * cannot be told apart whatever is measured.
 *
 * <p>Some belong to the model and are no loss: raising the common offset and lowering all types
 * alike changes nothing, and is what common means. The others are aliases.
 *
 * @param basis sparse vectors that span them, own model directions included
 * @param aliases those that a person has to know, shortest first
 */
public record MeasuringPlanNullSpace(List<double[]> basis, List<double[]> aliases) {
  private static final double ZERO = 1e-6;

  public static MeasuringPlanNullSpace of(MeasuringPlanModel model) {
    double[][] gram = model.gram();
    double[][] null0 = new SemidefiniteCholesky(gram).nullSpace();
    normalise(null0);
    int[] order = preferred(model.columns());
    List<double[]> basis = SymmetricMatrices.echelon(null0, order, ZERO);
    List<double[]> span = new ArrayList<>();
    basis.forEach(v -> extend(span, v));
    List<double[]> known = new ArrayList<>();
    for (double[] t : ownDirections(model.columns())) {
      if (rest(t, span) == null) {
        extend(known, t);
      }
    }
    return new MeasuringPlanNullSpace(basis, aliases(basis, known));
  }

  /** Pairs are named each; longer ones only when they say something new. */
  private static List<double[]> aliases(List<double[]> basis, List<double[]> known) {
    List<double[]> sorted = new ArrayList<>(basis);
    sorted.sort(Comparator.comparingInt(MeasuringPlanNullSpace::support));
    List<double[]> own = List.copyOf(known);
    List<double[]> found = new ArrayList<>();
    List<double[]> seen = new ArrayList<>(known);
    for (double[] v : sorted) {
      boolean isNew = rest(v, seen) != null;
      if (isNew || (support(v) <= 2 && rest(v, own) != null)) {
        found.add(v);
      }
      extend(seen, v);
    }
    return found;
  }

  static int support(double[] v) {
    return (int) IntStream.range(0, v.length).filter(i -> v[i] != 0).count();
  }

  /** Pivots are sought from the last factor to the panel terms, so that aliases come out short. */
  private static int[] preferred(List<MeasuringPlanColumn> columns) {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < columns.size(); i++) {
      order.add(i);
    }
    order.sort(
        Comparator.comparing((Integer i) -> columns.get(i).factor() != MeasuringPlanFactor.COMMON)
            .thenComparing(i -> columns.get(i).factor(), Comparator.reverseOrder()));
    return order.stream().mapToInt(Integer::intValue).toArray();
  }

  /** For each factor and axis: parent up by one, all levels down by one. */
  private static List<double[]> ownDirections(List<MeasuringPlanColumn> columns) {
    Map<String, double[]> by = new LinkedHashMap<>();
    for (int i = 0; i < columns.size(); i++) {
      MeasuringPlanColumn c = columns.get(i);
      if (c.parent() >= 0) {
        double[] v =
            by.computeIfAbsent(c.factor() + " " + c.parent(), k -> new double[columns.size()]);
        v[c.parent()] = 1;
        v[i] = -1;
      }
    }
    return new ArrayList<>(by.values());
  }

  private static void normalise(double[][] rows) {
    for (double[] r : rows) {
      double max = 0;
      for (double x : r) {
        max = Math.max(max, Math.abs(x));
      }
      for (int i = 0; i < r.length; i++) {
        r[i] /= max;
      }
    }
  }

  /** What is left of v outside the span of orthonormal vectors, or null when nothing is. */
  private static double @Nullable [] rest(double[] v, List<double[]> orthonormal) {
    double[] r = v.clone();
    double size = norm(v);
    for (int pass = 0; pass < 2; pass++) {
      for (double[] q : orthonormal) {
        double f = dot(r, q);
        for (int i = 0; i < r.length; i++) {
          r[i] -= f * q[i];
        }
      }
    }
    return norm(r) > ZERO * size ? r : null;
  }

  private static void extend(List<double[]> orthonormal, double[] v) {
    double[] r = rest(v, Collections.unmodifiableList(orthonormal));
    if (r != null) {
      double n = norm(r);
      for (int i = 0; i < r.length; i++) {
        r[i] /= n;
      }
      orthonormal.add(r);
    }
  }

  private static double norm(double[] v) {
    return Math.sqrt(dot(v, v));
  }

  private static double dot(double[] a, double[] b) {
    double s = 0;
    for (int i = 0; i < a.length; i++) {
      s += a[i] * b[i];
    }
    return s;
  }
}
