package org.padtrue.report.plot;

import java.awt.Color;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.history.ArticleEntry;
import org.padtrue.log.DriftStudy;
import org.padtrue.panel.Factor;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.ChartRows;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Labels;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;

/**
 * Types and nozzles by shift: how far each stands from its base, one square for each shift.
 *
 * @param axis x or y
 * @param shifts names of the columns, day and shift, in order of time
 * @param rows names of the rows
 * @param off by row and column: mean off its base, micrometres; NaN where nothing was measured
 * @param clear by row and column: more than two standard errors off
 */
@SuppressWarnings("ArrayRecordComponent") // made and drawn here
record ShiftMap(
    String axis, List<String> shifts, List<String> rows, double[][] off, boolean[][] clear) {
  private static final int WIDTH = 980;
  private static final int MOST_ROWS = 24;
  private static final int MOST_SHIFTS = 60;
  private static final double CLEAR = 2;
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);

  static ShiftMap of(DriftStudy s, OffsetAxis axis) {
    Map<String, String> shiftOf = new HashMap<>();
    Map<String, Integer> columns = new LinkedHashMap<>();
    for (ArticleEntry e : s.articles()) {
      String name = (DAY.format(e.measuredAt()) + " " + e.conditions().shift()).strip();
      shiftOf.put(Long.toString(e.id()), name);
      columns.putIfAbsent(name, columns.size());
    }
    int drop = Math.max(0, columns.size() - MOST_SHIFTS);
    List<String> shifts = new ArrayList<>(columns.keySet()).subList(drop, columns.size());
    List<SeriesDrift> series =
        s.drift().series().stream()
            .filter(d -> d.series().axis() == axis && d.base() != null)
            .filter(d -> d.series().factor() == Factor.PART || d.series().factor() == Factor.NOZZLE)
            .filter(d -> !d.series().isDifference())
            .limit(MOST_ROWS)
            .toList();
    double[][] off = new double[series.size()][shifts.size()];
    boolean[][] clear = new boolean[series.size()][shifts.size()];
    for (int r = 0; r < series.size(); r++) {
      fill(series.get(r), shiftOf, shifts, off[r], clear[r]);
    }
    List<String> rows =
        series.stream()
            .map(
                d ->
                    (d.series().factor() == Factor.PART ? "" : Factor.NOZZLE.key() + " ")
                        + Labels.cut(d.series().level(), 18))
            .toList();
    return new ShiftMap(axis.key(), shifts, rows, off, clear);
  }

  private static void fill(
      SeriesDrift d,
      Map<String, String> shiftOf,
      List<String> shifts,
      double[] off,
      boolean[] clear) {
    double[] w = new double[off.length];
    var base = d.base();
    if (base == null) {
      return;
    }
    for (SeriesPoint p : d.series().points()) {
      int c = shifts.indexOf(shiftOf.getOrDefault(p.article(), ""));
      double sigma = base.sigma(p.standardError());
      if (c >= 0 && sigma > 0) {
        w[c] += 1 / (sigma * sigma);
        off[c] += (p.state() - base.centre()) / (sigma * sigma);
      }
    }
    for (int c = 0; c < off.length; c++) {
      off[c] = w[c] > 0 ? 1000 * off[c] / w[c] : Double.NaN;
      clear[c] = Math.abs(off[c]) > CLEAR * 1000 / Math.sqrt(w[c]);
    }
  }

  boolean worthDrawing() {
    return rows.size() > 1 && shifts.size() > 1;
  }

  ChartFrame frame() {
    Range x = new Range(-0.5, shifts.size() - 0.5);
    double most = 1;
    for (double[] r : off) {
      for (double v : r) {
        most = Math.max(most, Double.isNaN(v) ? 0 : Math.abs(v));
      }
    }
    double full = Range.roundUp(most);
    ChartFrame f =
        ChartRows.frame(
            WIDTH,
            "Part types and nozzles by working shift, " + axis + " (turns with the part)",
            "working shift",
            x,
            rows);
    f.styler().setPlotGridVerticalLinesVisible(false);
    f.styler()
        .setxAxisTickLabelsFormattingFunction(
            v -> {
              int i = (int) Math.round(v);
              return i >= 0 && i < shifts.size() ? shifts.get(i) : Integer.toString(i);
            });
    // ticks at whole numbers only: XChart never ends where two labels are alike
    f.styler().setXAxisTickMarkSpacingHint(Math.max(90, WIDTH / shifts.size() + 1));
    String range = String.format(Locale.ROOT, "%.0f \u00b5m", full);
    f.key("below the base, full at " + range, Ink.Mark.SQUARE, Palette.BLUE);
    f.key("above the base", Ink.Mark.SQUARE, Palette.ORANGE);
    f.draw(ink -> squares(ink, full));
    return f;
  }

  private void squares(Ink ink, double full) {
    for (int r = 0; r < rows.size(); r++) {
      double at = ChartRows.place(r, rows.size());
      for (int c = 0; c < shifts.size(); c++) {
        double v = off[r][c];
        if (Double.isNaN(v)) {
          continue;
        }
        Color hue = v > 0 ? Palette.ORANGE : Palette.BLUE;
        double share = Math.min(1, Math.abs(v) / full);
        int alpha = (int) Math.round((clear[r][c] ? 60 + 195 * share : 55 * share));
        ink.block(c - 0.44, at - 0.42, c + 0.44, at + 0.42, Palette.faint(hue, alpha));
      }
    }
  }
}
