package org.padtrue.check;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Job;
import org.padtrue.panel.Level;
import org.padtrue.panel.Reference;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.quantity.Angles;

/** What became of each trim, from the search to a finding and a sentence. */
final class TrimCheckJudge {
  /** Log likelihood by which a mistake must be worse before a trim is said to have held. */
  private static final double TELLS = 1;

  private static final double ALIKE = 1e-6;

  private final TrimCheckRows rows;
  private final TrimCheckSearch search;
  private final boolean noRegistration;
  private final boolean noAxes;

  TrimCheckJudge(Job job, TrimCheckRows rows, TrimCheckSearch search, boolean partsRegistered) {
    this.rows = rows;
    this.search = search;
    noRegistration = partsRegistered;
    noAxes = job.measurement().reference() == Reference.MACHINE;
  }

  TrimCheckTerm term(int i) {
    List<TrimCheckItem> items = rows.items();
    TrimCheckItem item = items.get(i);
    double[] seen = {Double.NaN, Double.NaN, Double.NaN};
    double[] z = seen.clone();
    show(item, search.change(i), seen, z);
    if (i + 1 < items.size() && items.get(i + 1).follows(item)) {
      show(items.get(i + 1), search.change(i + 1), seen, z);
    }
    TrimCheckTerm.@Nullable Turn turn =
        item.turn() == 0
            ? null
            : rows.turns()
                .of(
                    Level.parse(item.name()).orElseThrow().name(),
                    item.turn(),
                    item.zeroOrientation());
    TrimCheckSentence.Judged judged =
        TrimCheckSentence.with(turn, item.trimmed() ? judge(i) : null);
    return new TrimCheckTerm(
        item.name(),
        rows.count(item),
        xyr(item.promised()),
        xyr(seen),
        xyr(z),
        turn,
        judged.finding(),
        judged.kept(),
        judged.sentence());
  }

  private static void show(
      TrimCheckItem item, TrimCheckSearch.Change change, double[] seen, double[] z) {
    for (int k = 0; k < 3; k++) {
      for (int l = 0; l < change.shown().length; l++) {
        if (change.shown()[l] == item.columns()[k]) {
          seen[k] = item.promised()[k] + change.change()[l];
          z[k] = Double.isNaN(seen[k]) ? Double.NaN : change.change()[l] / change.error()[l];
        }
      }
    }
  }

  private static Xyr xyr(double[] v) {
    return new Xyr(v[0], v[1], v[2]);
  }

  private TrimCheckSentence.Judged judge(int i) {
    TrimCheckItem item = rows.items().get(i);
    TrimCheckSentence say =
        new TrimCheckSentence(
            item, rows.count(item), rows.frames().onlyRotation(i), search.change(i));
    boolean hidden =
        noRegistration && (item.is(TermFamily.SHIFT) || item.is(TermFamily.ROTATION))
            || noAxes && (item.is(TermFamily.SCALE) || item.is(TermFamily.ARRAY));
    if (rows.count(item) == 0 || hidden) {
      return say.notShown(hidden);
    }
    TrimCheckHypothesis h = search.state(i);
    return switch (h.finding()) {
      case HELD -> search.margin(i) < TELLS ? say.tooSmall() : say.held();
      case OTHER -> frameWould(i, h) ? say.perhapsFrame() : say.other();
      default -> frameWould(i, h) ? say.perhapsFrame() : say.mistake(h);
    };
  }

  /**
   * True when all sit at one rotation and the change is no other than a trim that did not turn with
   * the parts makes there, so that the frame and something else cannot be told apart.
   */
  private boolean frameWould(int i, TrimCheckHypothesis found) {
    double theta = rows.frames().onlyRotation(i);
    if (Double.isNaN(theta)) {
      return false;
    }
    TrimCheckItem item = rows.items().get(i);
    double c = Angles.cosDeg(theta);
    double s = Angles.sinDeg(theta);
    // turned the wrong way equals a wrong sign at a quarter turn: the sign is the likelier one
    int ways = found.finding() == TrimCheckFinding.OTHER ? 2 : 1;
    for (int way = 0; way < ways; way++) {
      double[] d = TrimCheckFrames.wrong(item, way, c, s);
      boolean part = item.frame() == TrimCheckItem.Frame.PART;
      double[] own = part ? new double[] {c * d[0] + s * d[1], -s * d[0] + c * d[1]} : d;
      TrimCheckHypothesis h =
          new TrimCheckHypothesis(
              TrimCheckFinding.WRONG_FRAME,
              "",
              Arrays.copyOf(item.columns(), 2),
              own,
              TrimCheckHypothesis.MISTAKE);
      if (search.energy(i, h) < search.energy(i, found) + ALIKE) {
        return true;
      }
    }
    return false;
  }

  /** What changed though nobody trimmed it; empty when it did not. */
  String untrimmed(int i) {
    TrimCheckItem item = rows.items().get(i);
    return search.state(i).finding() == TrimCheckFinding.OTHER && rows.count(item) > 0
        ? TrimCheckSentence.changed(item, search.change(i)) + ", though it was not trimmed"
        : "";
  }
}
