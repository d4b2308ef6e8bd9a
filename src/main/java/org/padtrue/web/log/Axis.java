package org.padtrue.web.log;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.web.server.ShownNumbers;

/**
 * One axis of a plot: values from {@code low} to {@code high} lie between {@code from} and {@code
 * to} in the plot's own units.
 */
public record Axis(double low, double high, double from, double to) {
  private static final double[] DAYS = {1, 2, 3, 5, 7, 14, 28, 56, 91, 182, 365, 730, 1461};
  private static final double DAY = 86_400;
  private static final DateTimeFormatter DATE =
      DateTimeFormatter.ofPattern("MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final DateTimeFormatter MONTH =
      DateTimeFormatter.ofPattern("yyyy-MM", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final DateTimeFormatter HOUR =
      DateTimeFormatter.ofPattern("dd, HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

  /** A tick: place in the plot, and its label. */
  public record Tick(String at, String label) {}

  /** An axis with a little air around its values. */
  static Axis of(List<Double> values, double from, double to) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (double v : values) {
      if (Double.isFinite(v)) {
        low = Math.min(low, v);
        high = Math.max(high, v);
      }
    }
    if (low > high) {
      return new Axis(-1, 1, from, to);
    }
    double air = high > low ? 0.06 * (high - low) : Math.max(1e-6, 0.1 * Math.abs(high));
    return new Axis(low - air, high + air, from, to);
  }

  double at(double v) {
    return from + (v - low) / (high - low) * (to - from);
  }

  /** The place of a value as text, to a tenth. */
  String text(double v) {
    return place(at(v));
  }

  /** A place in a plot, to a tenth. */
  static String place(double v) {
    return ShownNumbers.plain(Math.rint(10 * v) / 10);
  }

  /** Ticks at 1, 2, 5 times a power of ten. */
  List<Tick> ticks(int about) {
    double raw = (high - low) / about;
    double power = Math.pow(10, Math.floor(Math.log10(raw)));
    double m = raw / power;
    double step = (m > 5 ? 10 : m > 2 ? 5 : m > 1 ? 2 : 1) * power;
    int decimals = (int) Math.max(0, Math.min(9, -Math.floor(Math.log10(step))));
    List<Tick> all = new ArrayList<>();
    for (double k = Math.ceil(low / step); k * step <= high; k++) {
      all.add(new Tick(text(k * step), ShownNumbers.number(k * step, decimals)));
    }
    return all;
  }

  /** Ticks of an axis in seconds since 1970: days, weeks, months or hours, UTC. */
  List<Tick> times(int about) {
    double days = (high - low) / DAY / about;
    double step = DAY / 4;
    DateTimeFormatter f = HOUR;
    if (days > 0.4) {
      step = DAY * DAYS[DAYS.length - 1];
      for (double d : DAYS) {
        if (d >= days) {
          step = DAY * d;
          break;
        }
      }
      f = step > 80 * DAY ? MONTH : DATE;
    } else if (days < 0.1) {
      step = days < 0.03 ? 600 * Math.ceil(days * DAY / 600) : DAY / 12;
    }
    List<Tick> all = new ArrayList<>();
    for (double k = Math.ceil(low / step); k * step <= high; k++) {
      all.add(new Tick(text(k * step), f.format(Instant.ofEpochSecond((long) (k * step)))));
    }
    return all;
  }
}
