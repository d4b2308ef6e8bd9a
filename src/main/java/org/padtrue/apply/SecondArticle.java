package org.padtrue.apply;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.json.StoredAnalysis;

/** Whether an article is another one than those that were analysed. */
public final class SecondArticle {
  private static final double SAME = 1e-7;

  /** Fewer may agree by chance where readings are coarse. */
  private static final int FEWEST = 3;

  private SecondArticle() {}

  public static void require(StoredAnalysis analysis, List<Article> second) {
    Set<String> first = new HashSet<>();
    for (PlacementResult p : analysis.placements()) {
      if (!Double.isNaN(p.deviation().x())) {
        first.add(key(p.board() + "/" + p.ref(), p.deviation().x(), p.deviation().y()));
      }
    }
    for (Article a : second) {
      int same = 0;
      for (Measured m : a.measured()) {
        String key = key(m.board() + "/" + m.placement().ref(), m.dxMm(), m.dyMm());
        same += first.contains(key) ? 1 : 0;
      }
      if (same >= FEWEST && same == a.measured().size()) {
        throw new InputException(
            Problem.of(
                a.file(),
                "every reading is one that was analysed ("
                    + String.join(", ", analysis.articles())
                    + "), so this is no second article",
                "give the article of a panel that was placed with the trims entered"));
      }
    }
  }

  private static String key(String placement, double dx, double dy) {
    return placement + " " + Math.rint(dx / SAME) + " " + Math.rint(dy / SAME);
  }
}
