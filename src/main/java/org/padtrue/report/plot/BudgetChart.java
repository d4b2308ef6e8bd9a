package org.padtrue.report.plot;

import java.util.List;
import org.padtrue.firstarticle.result.BudgetLine;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.ChartRows;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Labels;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;
import org.padtrue.report.words.KeyWords;

/** Where the variation comes from: mean square of every term, as measured and with the trims. */
final class BudgetChart {
  private static final int WIDTH = 980;
  private static final double MM2 = 1e6;

  private BudgetChart() {}

  static ChartFrame frame(List<BudgetLine> budget) {
    List<String> names =
        budget.stream()
            .map(b -> Labels.cut(KeyWords.source(b.source()), 28) + (b.removable() ? "" : " *"))
            .toList();
    double most =
        budget.stream()
            .mapToDouble(b -> MM2 * Math.max(safe(b.meanSquare()), safe(b.meanSquareAfterTrim())))
            .max()
            .orElse(1);
    double least =
        budget.stream()
            .mapToDouble(b -> MM2 * Math.min(safe(b.meanSquare()), safe(b.meanSquareAfterTrim())))
            .min()
            .orElse(0);
    double high = Math.max(1, most);
    Range x = new Range(Math.min(0, 1.35 * least), 1.22 * high);
    ChartFrame f =
        ChartRows.frame(
            WIDTH,
            "Where the variation comes from",
            "mean square (\u00b5m\u00b2); * no offset removes it",
            x,
            names);
    f.key("as measured (upper)", Ink.Mark.SQUARE, Palette.ORANGE);
    f.key("with the trims (lower)", Ink.Mark.SQUARE, Palette.AFTER);
    f.draw(ink -> bars(ink, budget));
    return f;
  }

  private static void bars(Ink ink, List<BudgetLine> budget) {
    ink.line(0, ink.yRange().low(), 0, ink.yRange().high(), Palette.OUTLINE, Palette.LINE);
    for (int i = 0; i < budget.size(); i++) {
      BudgetLine b = budget.get(i);
      double at = ChartRows.place(i, budget.size());
      double before = MM2 * safe(b.meanSquare());
      double after = MM2 * safe(b.meanSquareAfterTrim());
      ink.block(0, at + 0.04, before, at + 0.36, Palette.ORANGE);
      ink.block(0, at - 0.36, after, at - 0.04, Palette.AFTER);
      double end = Math.max(0, Math.max(before, after));
      ink.text(
          Labels.tenth(before) + " \u2192 " + Labels.tenth(after),
          ink.x(end) + 8,
          ink.y(at),
          Ink.Anchor.LEFT,
          Palette.SMALL,
          Palette.INK);
    }
  }

  private static double safe(double v) {
    return Double.isFinite(v) ? v : 0;
  }
}
