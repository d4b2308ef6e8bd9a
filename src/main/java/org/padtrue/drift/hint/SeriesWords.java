package org.padtrue.drift.hint;

import org.padtrue.panel.Level;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;

/** What a series is called where a person reads it, in which frame it stands, what plus means. */
public final class SeriesWords {
  private SeriesWords() {}

  /** Name in words: "scale x", "nozzle N1, x", "nozzle N1 minus nozzle N2, x". */
  public static String name(String series) {
    FixedTerm t = FixedTerm.parse(series).orElse(null);
    if (t == null) {
      return switch (series) {
        case "centreShiftX" -> "panel offset x, at the centre";
        case "centreShiftY" -> "panel offset y, at the centre";
        default -> level(series);
      };
    }
    return switch (t) {
      case SHIFT_X -> "panel offset x";
      case SHIFT_Y -> "panel offset y";
      case ROTATION -> "panel rotation";
      case ROTATION_ZERO -> "rotation zero";
      default -> t.label();
    };
  }

  private static String level(String series) {
    LevelTerm t = LevelTerm.parse(series).orElse(null);
    if (t == null) {
      return series;
    }
    Level minus = t.minus();
    String factor = t.factor().noun() + " ";
    String levels =
        minus == null ? t.levels() : t.level().name() + " minus " + factor + minus.name();
    return factor + levels + ", " + t.axis().key();
  }

  /** Whether it stays with the panel or turns with the part; empty where neither says anything. */
  public static String frame(String series) {
    if (FixedTerm.isRegistration(series)) {
      return OffsetFrame.PANEL.words();
    }
    return LevelTerm.parse(series)
        .filter(t -> t.axis() == OffsetAxis.X || t.axis() == OffsetAxis.Y)
        .map(t -> t.factor().frame().words())
        .orElse("");
  }

  /** What a positive value means: "to the right". */
  public static String plus(String series) {
    FixedTerm fixed = FixedTerm.parse(series).orElse(null);
    if (fixed != null) {
      return switch (fixed) {
        case SHIFT_X -> plus(OffsetAxis.X, false);
        case SHIFT_Y -> plus(OffsetAxis.Y, false);
        case ROTATION, ROTATION_ZERO -> plus(OffsetAxis.ROTATION, false);
        case SCALE_X, SCALE_Y -> "plus: longer than nominal";
        case SQUARENESS -> "plus: more than 90 degrees from x to y";
        case SCATTER_X, SCATTER_Y -> "standard deviation of a placement";
      };
    }
    return LevelTerm.parse(series)
        .map(t -> plus(t.axis(), t.factor().frame() == OffsetFrame.PART))
        .orElse("");
  }

  private static String plus(OffsetAxis axis, boolean part) {
    return switch (axis) {
      case X -> part ? "plus: to the right of the part at rotation 0" : "plus: to the right";
      case Y -> part ? "plus: up from the part at rotation 0" : "plus: up";
      case ROTATION -> "plus: counter-clockwise";
      case TURN -> "";
    };
  }

  /** Name with frame: "nozzle N1, x (turns with the part)". */
  public static String framed(String series) {
    String f = frame(series);
    return name(series) + (f.isEmpty() ? "" : " (" + f + ")");
  }
}
