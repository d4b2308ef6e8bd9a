package org.padtrue.report.plot.ink;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import org.padtrue.drift.series.SeriesPoint;

/**
 * Time as the x axis of a chart: days from the midnight (UTC) before the first point.
 *
 * @param origin that midnight, seconds since 1970
 * @param range from the first to the last point, with a little air
 */
public record TimeAxis(long origin, Range range) {
  private static final double DAY = 86_400;
  private static final double AIR = 0.02;
  private static final DateTimeFormatter DATE =
      DateTimeFormatter.ofPattern("MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final DateTimeFormatter HOUR =
      DateTimeFormatter.ofPattern("MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

  public static TimeAxis of(List<SeriesPoint> points) {
    long first = points.get(0).at().getEpochSecond();
    long last = points.get(points.size() - 1).at().getEpochSecond();
    long origin = Math.floorDiv(first, (long) DAY) * (long) DAY;
    double from = (first - origin) / DAY;
    double to = Math.max((last - origin) / DAY, from + 0.05);
    double air = AIR * (to - from);
    return new TimeAxis(origin, new Range(from - air, to + air));
  }

  public double at(Instant t) {
    return (t.toEpochMilli() / 1000.0 - origin) / DAY;
  }

  /** What the axis is called. */
  public String title() {
    return "time (UTC), from "
        + DateTimeFormatter.ISO_LOCAL_DATE.format(
            Instant.ofEpochSecond(origin).atZone(ZoneOffset.UTC));
  }

  /** Labels the days; XChart needs every label to differ from its neighbours, or never ends. */
  public void label(ChartFrame f) {
    f.styler()
        .setxAxisTickLabelsFormattingFunction(
            v -> {
              Instant t = Instant.ofEpochSecond(origin + Math.round(v * DAY));
              return v == Math.rint(v) ? DATE.format(t) : HOUR.format(t);
            });
    f.styler().setXAxisTickMarkSpacingHint(range.length() < 8 ? 110 : 70);
  }
}
