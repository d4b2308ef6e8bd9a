package org.padtrue.web.kept;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.MachineDraft;
import org.padtrue.panel.TrimKind;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/**
 * What a page asks about the machine and the measuring. Texts as the form has them, empty where
 * nothing was said.
 *
 * @param resolution smallest step of a length, mm
 * @param rotationResolution of a part's rotation, degrees
 * @param panelRotationResolution of the panel's rotation, degrees
 * @param accepts keys of the trims that the machine takes, commas between; "all" for all
 * @param uncertainty standard uncertainty of a measured coordinate, mm
 * @param rotationUncertainty of a measured rotation, degrees
 * @param asked true once somebody has answered
 */
public record MachineAnswers(
    String resolution,
    String rotationResolution,
    String panelRotationResolution,
    String accepts,
    String uncertainty,
    String rotationUncertainty,
    boolean asked) {
  private static final String ALL = "all";

  /** Nobody has said anything. */
  public static final MachineAnswers NONE = new MachineAnswers("", "", "", ALL, "", "", false);

  /** Keys of the form's fields. */
  static final List<String> KEYS =
      List.of(
          "resolution",
          "rotationResolution",
          "panelRotationResolution",
          "accepts",
          "uncertainty",
          "rotationUncertainty",
          "machineAsked");

  private static final double MOST_MM = 1;
  private static final double MOST_DEG = 45;

  /** These with what a form sent; {@code machineAsked} says that it is the form that asks this. */
  public MachineAnswers with(UnaryOperator<@Nullable String> form) {
    if (form.apply("machineAsked") == null) {
      return this;
    }
    return new MachineAnswers(
        text(form, "resolution"),
        text(form, "rotationResolution"),
        text(form, "panelRotationResolution"),
        known(text(form, "accepts")),
        text(form, "uncertainty"),
        text(form, "rotationUncertainty"),
        true);
  }

  private static String text(UnaryOperator<@Nullable String> form, String key) {
    String s = form.apply(key);
    return s == null ? "" : s.strip();
  }

  /** The keys among a text that there are, in their order; "all" where it names them all. */
  private static String known(String text) {
    if (text.equals(ALL)) {
      return text;
    }
    Set<String> said = new TreeSet<>(Arrays.asList(text.split(",", -1)));
    List<String> keys =
        Arrays.stream(TrimKind.values()).map(TrimKind::key).filter(said::contains).toList();
    return keys.size() == TrimKind.values().length ? ALL : String.join(",", keys);
  }

  /** True when the machine takes trims of this key. */
  public boolean takes(String key) {
    return accepts.equals(ALL) || Arrays.asList(accepts.split(",", -1)).contains(key);
  }

  /** One kind of trim in the form. */
  public record Kind(String key, String words) {}

  /** Every kind of trim, in words. */
  public static List<Kind> kinds() {
    return Arrays.stream(TrimKind.values()).map(k -> new Kind(k.key(), words(k))).toList();
  }

  private static String words(TrimKind k) {
    return switch (k) {
      case REGISTRATION -> "shift of the panel";
      case ROTATION -> "rotation of the panel";
      case SCALE -> "scale of the axes";
      case ARRAY -> "places of the boards";
      case COMMON -> "offset of all parts alike";
      case ROTATION_ZERO -> "rotation of all parts alike";
      case PART -> "offset of a part type";
      case NOZZLE -> "offset of a nozzle";
      case FEEDER -> "offset of a feeder";
      case HEAD -> "offset of a head";
      case LOT -> "offset of a lot";
      case PLACEMENT -> "position of one placement";
    };
  }

  /** Keeps what was said. */
  public void put(Properties p) {
    if (asked) {
      String[] values = {
        resolution,
        rotationResolution,
        panelRotationResolution,
        accepts,
        uncertainty,
        rotationUncertainty,
        "yes"
      };
      for (int k = 0; k < values.length; k++) {
        p.setProperty(KEYS.get(k), values[k]);
      }
    }
  }

  /** For the job file, or a refusal that names the field. */
  public MachineDraft draft() {
    return new MachineDraft(
        mm(resolution, "smallest step of a length", false),
        deg(rotationResolution, "smallest step of a part's rotation", false),
        deg(panelRotationResolution, "smallest step of the panel's rotation", false),
        accepts.equals(ALL)
            ? null
            : Arrays.stream(accepts.split(",", -1))
                .filter(s -> !s.isEmpty())
                .collect(Collectors.toList()),
        mm(uncertainty, "uncertainty of a coordinate", true),
        deg(rotationUncertainty, "uncertainty of a rotation", true));
  }

  private static double mm(String typed, String what, boolean zero) {
    return number(typed, TypedNumbers.mm(typed, LengthUnit.MM), what, "mm", MOST_MM, zero);
  }

  private static double deg(String typed, String what, boolean zero) {
    return number(typed, TypedNumbers.degrees(typed), what, "degrees", MOST_DEG, zero);
  }

  private static double number(
      String typed, OptionalDouble v, String what, String unit, double most, boolean zero) {
    if (typed.isEmpty()) {
      return Double.NaN;
    }
    boolean ok =
        v.isPresent()
            && v.getAsDouble() <= most
            && (v.getAsDouble() > 0 || zero && v.getAsDouble() == 0);
    if (!ok) {
      throw Refusal.bad(
          "The "
              + what
              + " is '"
              + typed
              + "'; write a number of "
              + unit
              + " above 0 and up to "
              + (int) most
              + ", or leave it empty.");
    }
    return v.getAsDouble();
  }
}
