package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.padtrue.compare.FileComparison;
import org.padtrue.compare.FrameMatch;
import org.padtrue.compare.SideComparison;
import org.padtrue.compare.TurnMatch;

/** Says what differs between two placement files, and which setting brings them together. */
public final class ComparisonWords {
  private static final int SHOWN = 10;
  private static final String BY_HAND = "no setting does this; export one of the files again";

  private final List<String> lines = new ArrayList<>();
  private final FileComparison found;

  private ComparisonWords(FileComparison found) {
    this.found = found;
  }

  /** One line for each thing, a label first. */
  public static List<String> lines(FileComparison found) {
    return new ComparisonWords(found).all();
  }

  private List<String> all() {
    say(
        "Shared",
        found.shared()
            + " refs; only in the first "
            + names(found.onlyFirst())
            + "; only in the second "
            + names(found.onlySecond()));
    if (!found.otherSide().isEmpty()) {
      say("Side", "on the other side in the second: " + names(found.otherSide()));
    }
    for (SideComparison s : found.sides()) {
      side(s);
    }
    found.notes().forEach(n -> say("Note", n));
    return lines;
  }

  private void side(SideComparison s) {
    String of = s.side().equals("all") ? "" : s.side() + ": ";
    if (s.same()) {
      say("Same", of + "positions and rotations of all " + s.count() + " shared placements agree");
      return;
    }
    positions(s, of);
    rotations(s, of);
  }

  private void positions(SideComparison s, String of) {
    FrameMatch f = s.frame();
    if (!most(f.agree(), s.count())) {
      say("Positions", of + none("shift, turn, mirror and scale", f.agree(), s.count()));
      return;
    }
    if (s.sameFrame()) {
      say("Positions", of + "the same origin, unit and axes");
    } else {
      say("Positions", of + "second = " + frame(f));
      settings(s);
    }
    if (!s.elsewhere().isEmpty()) {
      say(
          "Elsewhere",
          of
              + s.elsewhere().size()
              + " of "
              + s.count()
              + " lie elsewhere: "
              + some(s.elsewhere(), "%s by %.3f mm"));
    }
  }

  /** Settings are proposed only where they bring most placements together. */
  private static boolean most(int agree, int count) {
    return 2 * agree > count;
  }

  private static String none(String what, int agree, int count) {
    return "no "
        + what
        + " brings most of them together (the best one "
        + agree
        + " of "
        + count
        + "), so no setting is proposed; are both files of the same board and revision?";
  }

  private static String frame(FrameMatch f) {
    List<String> steps = new ArrayList<>();
    boolean yFlip = f.mirrored() && f.turnDeg() == 180;
    if (yFlip) {
      steps.add("y mirrored");
    } else {
      if (f.mirrored()) {
        steps.add("x mirrored");
      }
      if (f.turnDeg() != 0) {
        steps.add(text("turned by %s degrees", number(f.turnDeg())));
      }
    }
    if (f.scale() != 1) {
      steps.add(text("times %s", number(f.scale())));
    }
    if (Math.abs(f.shiftXMm()) >= FileComparison.SAME_MM
        || Math.abs(f.shiftYMm()) >= FileComparison.SAME_MM) {
      steps.add(text("shifted by x %.3f, y %.3f mm", f.shiftXMm(), f.shiftYMm()));
    }
    return "first, " + String.join(", ", steps);
  }

  private void settings(SideComparison s) {
    FrameMatch f = s.frame();
    if (f.mirrored() && f.turnDeg() == 180) {
      say("Setting", "\"axes\": {\"y\": \"down\"} in the job of one of the two");
    } else if (f.mirrored() && f.turnDeg() == 0) {
      say(
          "Setting",
          s.side().equals("bottom")
              ? "\"axes\": {\"bottomX\": \"asSeenFromBottom\"} for the one that looks at the bottom"
                  + " from below"
              : "x is mirrored as a bottom side is: check which side each file means; " + BY_HAND);
    } else if (f.mirrored() || f.turnDeg() % 90 != 0) {
      say("Setting", BY_HAND);
    } else if (f.turnDeg() != 0) {
      say("Setting", "the board lies turned in one of the files: " + BY_HAND);
    }
    if (f.scale() != 1) {
      say("Setting", unit(f.scale()));
    }
    if (Math.abs(f.shiftXMm()) >= FileComparison.SAME_MM
        || Math.abs(f.shiftYMm()) >= FileComparison.SAME_MM) {
      say(
          "Setting",
          "the origins differ: with the second file, give each board of the job an origin smaller"
              + " by"
              + text(" x %.3f, y %.3f mm", f.shiftXMm(), f.shiftYMm()));
    }
  }

  private static String unit(double scale) {
    String pair =
        near(scale, 25.4)
            ? "inch in the second and mm in the first"
            : near(scale, 1 / 25.4)
                ? "mm in the second and inch in the first"
                : near(scale, 0.0254)
                    ? "mil in the first and mm in the second, both taken as one"
                    : near(scale, 1 / 0.0254)
                        ? "mm in the first and mil in the second, both taken as one"
                        : near(scale, 1000)
                            ? "mm in the first and um in the second, both taken as one"
                            : near(scale, 0.001)
                                ? "um in the first and mm in the second, both taken as one"
                                : "";
    return pair.isEmpty()
        ? "the scales differ by a factor that is no unit: " + BY_HAND
        : "a unit is wrong (" + pair + "): give \"units\" in the job of that file";
  }

  private static boolean near(double a, double b) {
    return Math.abs(a / b - 1) < 1e-9;
  }

  private void rotations(SideComparison s, String of) {
    TurnMatch t = s.turn();
    if (!most(t.agree(), s.count())) {
      say("Rotations", of + none("turn", t.agree(), s.count()));
      return;
    }
    boolean through = s.frame().mirrored() && s.frame().turnDeg() == 0;
    boolean below = through && s.side().equals("bottom");
    if (t.sense() < 0) {
      say("Rotations", of + "counted the other way round" + plus(t.turnDeg()));
      if (!below) {
        say("Setting", "\"axes\": {\"rotation\": \"clockwise\"} in the job of one of the two");
      }
    } else if (t.turnDeg() != 0) {
      say("Rotations", of + "second = first" + plus(t.turnDeg()));
      if (Math.abs(t.turnDeg() - s.frame().turnDeg()) > 0.5) {
        say("Setting", "rotations count from another zero: " + BY_HAND);
      }
    } else {
      say("Rotations", of + "the same convention");
    }
    if (below && t.sense() > 0) {
      say(
          "Setting",
          "that setting counts rotations as seen from below too, and these count as seen from the"
              + " top: \"axes\": {\"bottomX\": \"asSeenFromBottom\", \"rotation\": \"clockwise\"}");
    }
    if (!s.typesTurned().isEmpty()) {
      say(
          "Types",
          of
              + "turned against the rest, as from another library: "
              + some(s.typesTurned(), "%s by %.0f degrees"));
    }
    if (!s.turned().isEmpty()) {
      say("Turned", of + some(s.turned(), "%s by %.1f degrees"));
    }
  }

  private static String plus(double deg) {
    return deg == 0 ? "" : text(", %s degrees added", number(deg));
  }

  private void say(String label, String text) {
    lines.add(String.format(Locale.ROOT, "%-11s %s", label, text));
  }

  private static String names(List<String> refs) {
    if (refs.isEmpty()) {
      return "none";
    }
    String shown = refs.stream().limit(SHOWN).collect(Collectors.joining(", "));
    int more = refs.size() - SHOWN;
    return refs.size() + " (" + shown + (more > 0 ? " and " + more + " more)" : ")");
  }

  private static String some(List<SideComparison.Named> named, String format) {
    String shown =
        named.stream()
            .limit(SHOWN)
            .map(n -> text(format, n.name(), n.value()))
            .collect(Collectors.joining(", "));
    int more = named.size() - SHOWN;
    return more > 0 ? shown + " and " + more + " more" : shown;
  }

  private static String number(double v) {
    String s = text("%.4f", v);
    return s.replaceAll("0+$", "").replaceAll("\\.$", "");
  }

  private static String text(String format, Object... args) {
    return String.format(Locale.ROOT, format, args);
  }
}
