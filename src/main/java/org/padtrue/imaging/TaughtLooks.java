package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.imaging.reader.Siblings;
import org.padtrue.imaging.reader.Teaching;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.imaging.taught.TeachRequest;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** The looks of one run: those given, and those that its own pictures teach. */
final class TaughtLooks {
  /** A sample that is still to be seen. */
  private record Wanted(TeachRequest request, Sites.Site site) {}

  private final List<Sites.Site> sites;
  private final Map<String, TaughtLook> looks = new LinkedHashMap<>();
  private final List<Wanted> wanted = new ArrayList<>();

  /**
   * @throws InputException for samples that the job lacks, and for two of one type
   */
  TaughtLooks(List<Sites.Site> sites, DetectionOptions options) {
    this.sites = sites;
    options.taught().forEach(t -> looks.put(t.part(), t));
    List<Problem> problems = new ArrayList<>();
    for (TeachRequest r : options.teach()) {
      Sites.Site s = site(sites, r);
      if (s == null) {
        problems.add(
            Problem.of(
                "--teach " + r.id(), "the job has no such placement", "check column, row and ref"));
      } else if (wanted.stream().anyMatch(w -> w.site.type().name().equals(s.type().name()))) {
        problems.add(
            Problem.of(
                "--teach " + r.id(),
                "its type " + s.type().name() + " has a sample already",
                "name one sample of each type"));
      } else {
        wanted.add(new Wanted(r, s));
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  private static Sites.@Nullable Site site(List<Sites.Site> sites, TeachRequest r) {
    BoardIndex board = new BoardIndex(r.column(), r.row());
    return sites.stream()
        .filter(s -> s.board().equals(board) && s.placement().ref().equals(r.ref()))
        .findFirst()
        .orElse(null);
  }

  /** Learns from a picture the samples that it shows. */
  void learnFrom(Picture p, PanelToPicture map) {
    for (Wanted w : List.copyOf(wanted)) {
      Pose n = w.site.nominal();
      double[] q = map.at(n.xMm(), n.yMm());
      if (p.holds(q[0], q[1])) {
        TaughtLook look =
            new Siblings(p, map)
                .agreed(new Teaching(p, map).learn(w.site, w.request), w.site, sites);
        looks.put(look.part(), look);
        wanted.remove(w);
      }
    }
  }

  /** True when a close-up shows a sample that is still to be learnt. */
  boolean wants(CloseUp c) {
    return wanted.stream().anyMatch(w -> shows(c, w));
  }

  private static boolean shows(CloseUp c, Wanted w) {
    return c.column() == w.request.column()
        && c.row() == w.request.row()
        && c.ref().equals(w.request.ref());
  }

  /** Learns from a close-up the sample that it shows; its like lies in other pictures. */
  void learnFrom(Picture p, PanelToPicture map, CloseUp c) {
    for (Wanted w : List.copyOf(wanted)) {
      if (shows(c, w)) {
        TaughtLook look = new Teaching(p, map).learn(w.site, w.request);
        looks.put(look.part(), look);
        wanted.remove(w);
      }
    }
  }

  /** Complains about samples that no picture showed. */
  void done() {
    if (!wanted.isEmpty()) {
      throw new InputException(
          wanted.stream()
              .map(
                  w ->
                      Problem.of(
                          "--teach " + w.request.id(),
                          "none of the pictures shows it",
                          "name a placement that is in a picture"))
              .toList());
    }
  }

  /** True when a type's look is known or will be learnt. */
  boolean covers(PartType t) {
    return looks.containsKey(t.name())
        || wanted.stream().anyMatch(w -> w.site.type().name().equals(t.name()));
  }

  @Nullable TaughtLook of(PartType t) {
    return looks.get(t.name());
  }

  /** Looks of types that the job places. */
  List<TaughtLook> used() {
    return looks.values().stream()
        .filter(t -> sites.stream().anyMatch(s -> s.type().name().equals(t.part())))
        .toList();
  }
}
