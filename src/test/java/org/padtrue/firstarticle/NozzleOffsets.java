package org.padtrue.firstarticle;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.quantity.Angles;

/** Offsets of nozzle N2 along x, planted into an article: in the panel frame, the part frame. */
record NozzleOffsets(double panelMm, double partMm) {

  Article into(Article a) {
    return add(
        a,
        m -> on(m) * (panelMm + partMm * Angles.cosDeg(m.nominal().rotationDeg())),
        m -> on(m) * partMm * Angles.sinDeg(m.nominal().rotationDeg()),
        m -> 0);
  }

  private static double on(Measured m) {
    return "N2".equals(m.levels().get(Factor.NOZZLE)) ? 1 : 0;
  }

  /** The article with something added to every deviation. */
  static Article add(
      Article a,
      ToDoubleFunction<Measured> dx,
      ToDoubleFunction<Measured> dy,
      ToDoubleFunction<Measured> dr) {
    List<Measured> rows = new ArrayList<>();
    for (Measured m : a.measured()) {
      rows.add(
          new Measured(
              m.panel(),
              m.board(),
              m.placement(),
              m.nominal(),
              m.dxMm() + dx.applyAsDouble(m),
              m.dyMm() + dy.applyAsDouble(m),
              m.dRotationDeg() + dr.applyAsDouble(m),
              m.uMm(),
              m.uRotationDeg(),
              m.levels(),
              m.order(),
              m.note(),
              m.line()));
    }
    return new Article(a.file(), rows, List.of(), false, false, OptionalDouble.empty(), List.of());
  }
}
