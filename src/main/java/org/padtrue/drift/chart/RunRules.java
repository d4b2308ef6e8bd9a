package org.padtrue.drift.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * Run rules on standardised points (Nelson 1984, J. Quality Technology 16(4), rules 1 to 8; Western
 * Electric 1956, four rules). They speak often: with the four rules an in-control chart calls every
 * 91.75 points on average (Champ and Woodall 1987). They are shown beside the charts, never counted
 * among the signals whose false alarms the family controls.
 */
public final class RunRules {
  private RunRules() {}

  /**
   * A rule that a point completes.
   *
   * @param rule 1 to 8, Nelson's numbers
   * @param index index of the point that completes it
   * @param sentence what was seen
   */
  public record Hit(int rule, int index, String sentence) {}

  /**
   * Nelson's eight rules.
   *
   * @param z (value - centre) / sigma of each point
   */
  public static List<Hit> nelson(double[] z) {
    List<Hit> hits = new ArrayList<>();
    for (int i = 0; i < z.length; i++) {
      for (int rule = 1; rule <= 8; rule++) {
        if (completes(rule, z, i)) {
          hits.add(new Hit(rule, i, sentence(rule)));
        }
      }
    }
    return hits;
  }

  /**
   * The four rules of the Western Electric handbook: 1 beyond 3 sigma, 2 of 3 beyond 2, 4 of 5
   * beyond 1, 8 in a row on one side.
   *
   * @return true where a point completes any of them
   */
  public static boolean[] westernElectric(double[] z) {
    boolean[] hit = new boolean[z.length];
    for (int i = 0; i < z.length; i++) {
      hit[i] =
          Math.abs(z[i]) > 3 || beyond(z, i, 3, 2, 2) || beyond(z, i, 5, 4, 1) || sameSide(z, i, 8);
    }
    return hit;
  }

  private static boolean completes(int rule, double[] z, int i) {
    return switch (rule) {
      case 1 -> Math.abs(z[i]) > 3;
      case 2 -> sameSide(z, i, 9);
      case 3 -> monotone(z, i, 6);
      case 4 -> alternating(z, i, 14);
      case 5 -> beyond(z, i, 3, 2, 2);
      case 6 -> beyond(z, i, 5, 4, 1);
      case 7 -> allWithin(z, i, 15);
      case 8 -> allBeyond(z, i, 8);
      default -> throw new IllegalArgumentException("rule = " + rule + "; expected 1 to 8");
    };
  }

  private static String sentence(int rule) {
    return switch (rule) {
      case 1 -> "one point beyond 3 sigma";
      case 2 -> "9 points in a row on one side of the centre";
      case 3 -> "6 points in a row rising or falling";
      case 4 -> "14 points in a row going up and down in turn";
      case 5 -> "2 of 3 points beyond 2 sigma on one side";
      case 6 -> "4 of 5 points beyond 1 sigma on one side";
      case 7 -> "15 points in a row within 1 sigma";
      default -> "8 points in a row beyond 1 sigma, either side";
    };
  }

  private static boolean sameSide(double[] z, int i, int run) {
    if (i + 1 < run) {
      return false;
    }
    for (int j = i - run + 1; j <= i; j++) {
      if (z[j] * z[i] <= 0) {
        return false;
      }
    }
    return true;
  }

  private static boolean monotone(double[] z, int i, int run) {
    if (i + 1 < run) {
      return false;
    }
    double sign = Math.signum(z[i] - z[i - 1]);
    for (int j = i - run + 2; j <= i; j++) {
      if (sign == 0 || Math.signum(z[j] - z[j - 1]) != sign) {
        return false;
      }
    }
    return true;
  }

  private static boolean alternating(double[] z, int i, int run) {
    if (i + 1 < run) {
      return false;
    }
    for (int j = i - run + 3; j <= i; j++) {
      if ((z[j] - z[j - 1]) * (z[j - 1] - z[j - 2]) >= 0) {
        return false;
      }
    }
    return true;
  }

  // The point itself must be among those beyond, or an old pair would call again.
  private static boolean beyond(double[] z, int i, int of, int need, double sigma) {
    double side = Math.signum(z[i]);
    if (side * z[i] <= sigma) {
      return false;
    }
    int count = 0;
    for (int j = Math.max(0, i - of + 1); j <= i; j++) {
      if (side * z[j] > sigma) {
        count++;
      }
    }
    return count >= need;
  }

  private static boolean allWithin(double[] z, int i, int run) {
    if (i + 1 < run) {
      return false;
    }
    for (int j = i - run + 1; j <= i; j++) {
      if (Math.abs(z[j]) >= 1) {
        return false;
      }
    }
    return true;
  }

  private static boolean allBeyond(double[] z, int i, int run) {
    if (i + 1 < run) {
      return false;
    }
    for (int j = i - run + 1; j <= i; j++) {
      if (Math.abs(z[j]) <= 1) {
        return false;
      }
    }
    return true;
  }
}
