package org.padtrue.web.result;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.panel.Placement;
import org.padtrue.panel.TrimKind;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.bench.WhatIf;
import org.padtrue.web.server.ShownNumbers;

/** Makes the form for trying things out, and what came of it. */
final class WhatIfViews {
  private WhatIfViews() {}

  static WhatIfView of(WhatIf what, FirstArticleResult decided, FirstArticleResult tried) {
    Map<String, String> labels = new LinkedHashMap<>();
    for (TrimLine t : decided.trims()) {
      labels.merge(
          WhatIf.key(t),
          t.where(),
          (a, b) -> t.kind().equals(TrimKind.SCALE.key()) ? a + " and " + b : "board array");
    }
    List<WhatIfView.Switch> switches = new ArrayList<>();
    labels.forEach(
        (key, label) -> switches.add(new WhatIfView.Switch(key, label, !what.off().contains(key))));
    TreeSet<String> parts = new TreeSet<>();
    for (Placement p : decided.job().placements()) {
      parts.add(p.part());
    }
    return new WhatIfView(
        !what.isNothing(),
        what.sentences(),
        what.isNothing() ? List.of() : compare(decided, tried),
        switches,
        String.join(" ", what.out()),
        what.acceptanceClass(),
        List.copyOf(parts),
        what.part(),
        ShownNumbers.plain(what.toleranceMm()));
  }

  private static List<WhatIfView.Compared> compare(FirstArticleResult a, FirstArticleResult b) {
    List<WhatIfView.Compared> c = new ArrayList<>();
    c.add(
        new WhatIfView.Compared(
            "next panel, trims entered, expected RMS",
            um(a.prediction().nextTrimmed()),
            um(b.prediction().nextTrimmed())));
    c.add(
        new WhatIfView.Compared(
            "of those measured, outside with the trims",
            Integer.toString(a.acceptance().outsideAfterTrim()),
            Integer.toString(b.acceptance().outsideAfterTrim())));
    c.add(
        new WhatIfView.Compared(
            "expected outside on the next panel, trims entered",
            ResultWords.expectedOutsideAfterTrim(a.acceptance()),
            ResultWords.expectedOutsideAfterTrim(b.acceptance())));
    c.add(
        new WhatIfView.Compared(
            "things to change",
            Integer.toString(a.trims().size()),
            Integer.toString(b.trims().size())));
    return c;
  }

  private static String um(double mm) {
    return ShownNumbers.number(mm * 1000, 1) + " \u00b5m";
  }
}
