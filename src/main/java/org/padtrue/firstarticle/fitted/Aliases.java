package org.padtrue.firstarticle.fitted;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.padtrue.firstarticle.result.Alias;
import org.padtrue.mixed.AliasFinder;
import org.padtrue.mixed.Terms;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.Reference;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.quantity.Angles;

/** Terms that cannot be told apart, in trade words. */
public final class Aliases {
  private Aliases() {}

  public static List<Alias> of(Job job, Fits fits, boolean partsRegistered) {
    List<Alias> out = new ArrayList<>();
    Terms t = fits.position().terms();
    Set<Long> turns = new TreeSet<>();
    for (double th : fits.used().theta()) {
      turns.add(Math.round(Angles.wrap(th) * 100));
    }
    boolean oneTurn = turns.size() == 1;
    for (List<String> terms :
        AliasFinder.find(
            fits.used(),
            t.family(),
            t.array(),
            fits.factors(),
            fits.frames().options().panelFrame())) {
      out.add(new Alias(terms, sentence(terms, oneTurn)));
    }
    oneLevel(fits, out);
    out.addAll(FrameWords.aliases(fits));
    if (job.measurement().reference() == Reference.LANDS) {
      out.add(
          new Alias(
              List.of(FixedTerm.SCALE_X.label(), FixedTerm.SCALE_Y.label(), "board stretch"),
              "measured against lands, a stretched board and a wrong axis scale give the same"
                  + " number: measure against fiducials or a rule to tell them apart"));
    }
    if (partsRegistered) {
      out.add(
          new Alias(
              List.of(
                  FixedTerm.SHIFT_X.label(),
                  FixedTerm.SHIFT_Y.label(),
                  FixedTerm.ROTATION.label(),
                  "picture registration"),
              "registered on the parts themselves: the panel offset and rotation went into the"
                  + " registration and cannot be known; register the picture on fiducials or lands"
                  + " to see them"));
    }
    return out;
  }

  private static void oneLevel(Fits fits, List<Alias> out) {
    LevelColumn f =
        fits.factors().contains(Factor.PART) ? fits.used().factors().get(Factor.PART) : null;
    if (f != null && f.levels().size() == 1) {
      for (String axis : List.of("x", "y")) {
        out.add(
            new Alias(
                List.of(f.named(0) + " " + axis, TermFamily.COMMON.key() + " " + axis),
                "only part type "
                    + f.levels().get(0)
                    + " was measured, so its own offset and one that all parts share are the same"
                    + " number: change one of them; measure a second part type to tell them"
                    + " apart"));
      }
    }
  }

  private static String sentence(List<String> terms, boolean oneTurn) {
    String first = terms.get(0);
    String list = String.join(", ", terms.subList(1, Math.min(terms.size(), 6)));
    if (terms.size() > 6) {
      list += " and " + (terms.size() - 6) + " more";
    }
    if (oneTurn && first.startsWith(TermFamily.COMMON.key())) {
      return "every part measured sits at one rotation, so an offset that turns with the parts ("
          + first
          + ") and the panel offset are the same number: change one; parts at another rotation"
          + " would tell them apart";
    }
    if (Factor.listedOnes().stream().anyMatch(f -> first.startsWith(f.key()))) {
      return first
          + " cannot be told from "
          + list
          + ": they were always used together; change only one of them, and to tell them apart"
          + " place some of these parts with another "
          + first.substring(0, first.indexOf(' '));
    }
    if (terms.size() == 1) {
      return first
          + " is not seen in what was measured: measure more placements, spread over the panel and"
          + " at other rotations";
    }
    return first
        + " does the same as "
        + list
        + " where it was measured: change only one of them; to tell them apart, measure placements"
        + " elsewhere on the panel or at other rotations";
  }
}
