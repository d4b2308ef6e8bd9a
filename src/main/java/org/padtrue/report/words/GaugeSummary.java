package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.gauge.GaugeAxis;
import org.padtrue.gauge.GaugeBias;
import org.padtrue.gauge.GaugeComponents;
import org.padtrue.gauge.GaugeStudy;
import org.padtrue.gauge.GaugeVerdict;
import org.padtrue.load.article.GaugeRepeats;
import org.padtrue.load.text.TextPieces;

/** A gauge study on the console: the table, the verdict, the bias, what to enter in the job. */
public final class GaugeSummary {
  /** Standard errors from which a bias is clearly one. */
  private static final double SURE = 2;

  private GaugeSummary() {}

  /**
   * The summary.
   *
   * @param s what was found
   * @param file the readings
   * @param withJob true when a job gave positions and tolerances
   * @return lines without line ends
   */
  public static List<String> of(GaugeStudy s, GaugeRepeats file, boolean withJob) {
    boolean known = file.nominalKnown();
    List<String> lines = new ArrayList<>();
    lines.add(
        TextPieces.count(s.placements(), "placement")
            + ", "
            + TextPieces.count(s.operators(), "operator")
            + ", "
            + TextPieces.count(s.readings(), "reading")
            + (s.balanced() ? "" : ", not balanced"));
    lines.add("");
    lines.addAll(table(s, known));
    lines.add("");
    List<String> verdicts =
        s.axes().stream().filter(a -> judged(a, known)).map(GaugeAxis::sentence).toList();
    lines.addAll(Wrap.say("VERDICT", verdicts.isEmpty() ? List.of(notJudged(known)) : verdicts));
    lines.addAll(Wrap.say("BIAS", bias(s.bias())));
    lines.addAll(Wrap.say("ENTER", enter(s)));
    lines.addAll(Wrap.say("SUSPECT", s.suspects()));
    lines.addAll(Wrap.say("NOTE", notes(s, file, withJob)));
    return lines;
  }

  private static boolean judged(GaugeAxis a, boolean known) {
    return known || !Double.isNaN(a.shareOfTolerance());
  }

  private static String notJudged(boolean known) {
    return known
        ? "not judged."
        : "not judged: positions were read and no --job says where the placements belong, so"
            + " neither a tolerance nor how placements differ is known.";
  }

  /** The lines of the job that the study feeds. */
  private static String enter(GaugeStudy s) {
    return "in the job, under \"measurement\": \"uncertainty\": "
        + plain(s.uncertaintyMm(), 4)
        + " (mm)"
        + (Double.isNaN(s.rotationUncertaintyDeg())
            ? ""
            : ", \"rotationUncertainty\": " + plain(s.rotationUncertaintyDeg(), 3) + " (degrees)")
        + (s.bias() == null ? "" : ", \"bias\": " + plain(s.bias().biasMm(), 4) + " (mm)");
  }

  private static List<String> notes(GaugeStudy s, GaugeRepeats file, boolean withJob) {
    List<String> notes = new ArrayList<>(s.notes());
    if (s.bias() != null) {
      notes.removeIf(n -> n.startsWith("Bias of camera and person from turning"));
    }
    if (!withJob && file.nominalKnown()) {
      notes.add("No --job: there is no tolerance to compare with.");
    }
    if (file.notFilledIn() > 0) {
      notes.add(TextPieces.count(file.notFilledIn(), "row") + " not filled in.");
    }
    return notes;
  }

  private static List<String> table(GaugeStudy s, boolean known) {
    boolean persons = s.operators() > 1;
    boolean parts = known && s.placements() > 1;
    List<List<String>> columns = new ArrayList<>();
    columns.add(
        List.of(
            "standard deviation",
            "repeatability",
            "reproducibility",
            "interaction",
            "gauge",
            "part-to-part",
            "total",
            "share of tolerance",
            "share of study",
            "acceptable"));
    for (GaugeAxis a : s.axes()) {
      String name = a.axis() + (a.unit().equals("deg") ? ", deg" : ", um");
      List<String> first = sds(a, a.components(), persons, parts);
      first.add(0, a.anova() == null ? name + ", REML" : name);
      first.add(percent(a.shareOfTolerance()));
      first.add(parts ? percent(a.shareOfStudy()) : "-");
      first.add(acceptable(judged(a, parts) ? a.verdict() : GaugeVerdict.NOT_JUDGED));
      columns.add(first);
      if (a.anova() != null) {
        List<String> second = sds(a, a.reml(), persons, parts);
        second.add(0, "by REML");
        second.addAll(List.of("", "", ""));
        columns.add(second);
      }
    }
    TextTable t = new TextTable("", "t" + "n".repeat(columns.size() - 1));
    for (int i = 0; i < columns.get(0).size(); i++) {
      int row = i;
      t.row(columns.stream().map(c -> c.get(row)).toArray(String[]::new));
    }
    return t.lines();
  }

  /** Short enough for a column; the sentences below say it in full. */
  private static String acceptable(GaugeVerdict v) {
    return switch (v) {
      case FIT -> "yes";
      case CONDITIONAL -> "conditionally";
      case UNFIT -> "no";
      case NOT_JUDGED -> "not judged";
    };
  }

  private static List<String> sds(GaugeAxis a, GaugeComponents c, boolean persons, boolean parts) {
    boolean deg = a.unit().equals("deg");
    double unit = deg ? 1 : 1e3;
    int d = deg ? 3 : 1;
    return new ArrayList<>(
        List.of(
            plain(unit * c.repeatability(), d),
            persons ? plain(unit * c.reproducibility(), d) : "-",
            persons ? plain(unit * c.interaction(), d) : "-",
            plain(unit * c.gauge(), d),
            parts ? plain(unit * c.part(), d) : "-",
            parts ? plain(unit * c.total(), d) : "-"));
  }

  /** What turning the panel shows, in a sentence; none where nothing was read both ways. */
  public static List<String> bias(@Nullable GaugeBias b) {
    if (b == null) {
      return List.of();
    }
    String size =
        String.format(
            Locale.ROOT,
            "measured minus true, plus = right, up: x %+.1f um (one standard error %s), y %+.1f um"
                + " (one standard error %s), seen by turning the panel; it does not average out.",
            1e3 * b.xMm(),
            plain(1e3 * b.standardErrorXMm(), 1),
            1e3 * b.yMm(),
            plain(1e3 * b.standardErrorYMm(), 1));
    boolean sure =
        Math.abs(b.xMm()) > SURE * b.standardErrorXMm()
            || Math.abs(b.yMm()) > SURE * b.standardErrorYMm();
    String registered =
        b.registrationSeen() ? "" : " What registering anew changes is not in the standard errors.";
    return List.of(size + (sure ? "" : " Not clearly different from none.") + registered);
  }

  private static String plain(double v, int decimals) {
    return Double.isNaN(v) ? "-" : String.format(Locale.ROOT, "%." + decimals + "f", v + 0.0);
  }

  private static String percent(double share) {
    return Double.isNaN(share) ? "-" : String.format(Locale.ROOT, "%.0f %%", 100 * share);
  }
}
