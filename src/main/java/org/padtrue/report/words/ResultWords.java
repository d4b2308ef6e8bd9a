package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Acceptance;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Expected;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.Stage;
import org.padtrue.panel.article.FaultKind;

/** The words of a report for other pages: the same sentences and numbers everywhere. */
public final class ResultWords {
  private ResultWords() {}

  /**
   * One line of the trim sheet as people read it.
   *
   * @param where what to change
   * @param kind kind of trim
   * @param from what stands there now, or empty
   * @param x value to add with sign and unit, empty where it does not apply
   * @param y the same
   * @param rotation the same
   * @param squareness the same
   * @param turn whole turn to add, or empty
   * @param takesOut what it takes out of the next panel, or empty
   * @param frame panel or part
   * @param about point about which it acts, or empty
   * @param why one sentence
   */
  public record Trim(
      String where,
      String kind,
      String from,
      Amount x,
      Amount y,
      Amount rotation,
      Amount squareness,
      String turn,
      String takesOut,
      String frame,
      String about,
      String why) {}

  /**
   * A value to ADD.
   *
   * @param value with sign and unit; empty where it does not apply
   * @param error "\u00b1 one standard error" with its unit, or empty
   * @param millimetres a length once more in mm, or empty
   */
  public record Amount(String value, String error, String millimetres) {}

  /** The answer in one sentence. */
  public static String headline(FirstArticleResult r) {
    Prediction p = r.prediction();
    if (r.trims().isEmpty()) {
      return (Also.turned(r).isEmpty() ? "Leave everything alone. " : "Change no offset. ")
          + Show.words(KeyWords.whyNothing(r));
    }
    int n = r.trims().size();
    return String.format(
        Locale.ROOT,
        "Change %s. A placement of the next panel is then expected %s \u00b5m off (RMS) instead of"
            + " %s \u00b5m; scatter alone leaves %s \u00b5m.",
        n == 1 ? "one thing" : n + " things",
        Show.um(p.nextTrimmed()),
        Show.um(p.nextUntrimmed()),
        Show.um(p.floor()));
  }

  /** The trim sheet. */
  public static List<Trim> trims(FirstArticleResult r) {
    return trims(r.trims());
  }

  /** The same of lines that were stored. */
  public static List<Trim> trims(List<TrimLine> lines) {
    List<Trim> list = new ArrayList<>();
    for (TrimLine t : lines) {
      TrimText v = TrimText.of(t);
      list.add(
          new Trim(
              t.where(),
              t.kind(),
              t.from(),
              amount(v.x(), t.addX()),
              amount(v.y(), t.addY()),
              amount(v.rotation(), Double.NaN),
              amount(v.squareness(), Double.NaN),
              Show.words(v.turn()),
              takesOut(v),
              t.frame(),
              t.about(),
              Show.words(t.why())));
    }
    return list;
  }

  private static Amount amount(TrimText.Value v, double mm) {
    boolean none = !v.applies() || v.value().equals("0");
    return new Amount(
        none ? v.value() : Show.words(v.value() + " " + v.unit()),
        none || v.error().isEmpty() ? "" : Show.words("+- " + v.error() + " " + v.unit()),
        none || !v.unit().equals("um") ? "" : Show.words(Show.signedMm(mm) + " mm"));
  }

  /** "takes out 76 \u00b5m RMS; 12 fewer outside". */
  private static String takesOut(TrimText v) {
    String fewer = v.outside().isEmpty() || v.outside().equals("0") ? "" : v.outside();
    List<String> said = new ArrayList<>();
    if (!v.rms().isEmpty()) {
      said.add("takes out " + v.rms() + " um RMS of the next panel");
    }
    if (fewer.startsWith("-")) {
      said.add(fewer.substring(1) + " more expected outside");
    } else if (!fewer.isEmpty()) {
      said.add(fewer + " fewer expected outside");
    }
    return Show.words(String.join(", ", said));
  }

  /** What stands behind the sheet's numbers: the sign, the standard error, what takes out means. */
  public static final String SHEET =
      "Values to ADD are minus what was found: measured minus nominal, plus = right, up,"
          + " counter-clockwise as placed. Behind \u00b1 stands one standard error of what was"
          + " found. What a line takes out holds with all other lines entered; a rotation of parts"
          + " counts as what it moves at their farthest edge.";

  /** What the machine's resolution leaves of the next panel; empty where it leaves nothing. */
  public static String rounding(FirstArticleResult r) {
    return Show.words(RoundingWords.of(r.prediction()));
  }

  /** What else belongs to the answer, one sentence each. */
  public static List<String> also(FirstArticleResult r) {
    return Also.sentences(r).stream().map(Show::words).toList();
  }

  /** What to mind before anything is changed, one sentence each. */
  public static List<String> cautions(FirstArticleResult r) {
    List<String> list = new ArrayList<>();
    list.add(
        "Offsets are changed by a qualified person. Near a moving gantry, interlocks and lockout as"
            + " the maker of the machine says.");
    list.add(
        "Acceptance follows the customer's contract and the current edition of the standard, not"
            + " this sheet.");
    list.add(
        r.job().stage() == Stage.REFLOWED
            ? "After reflow, types that centre themselves show their lands and get no trim."
            : "Solder-joint limits are a guide before reflow: they are written for joints.");
    return list;
  }

  /** How to find out which way the machine counts. */
  public static String signTrial() {
    return "If that is not known, enter one clear trial trim first: +0.2 mm in x on one spare"
        + " placement. Place it and look: it should sit 0.2 mm further to the right. If it"
        + " went to the left, x counts the other way round on this machine: enter it with"
        + " the opposite sign, and try y and rotation the same way. For an offset in the"
        + " part frame try a part placed at 90 degrees: its +x points up.";
  }

  /** Placements outside now and then, and what to expect of the next panel. */
  public static String risk(FirstArticleResult r) {
    Acceptance a = r.acceptance();
    boolean trims = !r.trims().isEmpty();
    StringBuilder b = new StringBuilder();
    b.append(
        String.format(
            Locale.ROOT,
            "Of %,d judged placements %,d %s outside now",
            a.judged(),
            a.outside(),
            a.outside() == 1 ? "is" : "are"));
    if (trims) {
      b.append(
          String.format(Locale.ROOT, " and %,d would be with the trims", a.outsideAfterTrim()));
    }
    if (Double.isFinite(a.expectedOutside().value())) {
      b.append("; expected outside on the next panel: ").append(interval(a.expectedOutside(), 1));
      if (trims) {
        b.append(" if nothing is changed, ");
        b.append(interval(a.expectedOutsideAfterTrim(), 1)).append(" with the trims");
      }
      b.append(trims ? ". With them, on 1,000 panels: " : ". On 1,000 panels: ");
      b.append(interval(trims ? a.expectedOutsideAfterTrim() : a.expectedOutside(), 1000));
      b.append(". In brackets: the 95 % interval");
    }
    return b.append('.').toString();
  }

  /** Expected number outside on the next panel with its interval, trims entered. */
  public static String expectedOutsideAfterTrim(Acceptance a) {
    Expected e = a.expectedOutsideAfterTrim();
    return interval(e, 1);
  }

  private static String interval(Expected e, int panels) {
    String value = Show.expected(panels * e.value());
    String low = Show.expected(panels * e.low());
    String high = Show.expected(panels * e.high());
    return low.equals(high) ? value : value + " (" + low + " to " + high + ")";
  }

  /** Is the measuring good enough? */
  public static String measuring(FirstArticleResult r) {
    return Show.words(MeasuringVerdict.of(r).sentence());
  }

  /** What an offset does when its placement is turned: "turns with the part". */
  public static String frame(String key) {
    return OffsetFrame.parse(key).map(OffsetFrame::words).orElse("");
  }

  /** A decision with a sign that does without colour. */
  public static String decision(Decision d) {
    return KeyWords.decision(d);
  }

  /** A length as its size deserves, with its unit. */
  public static String length(double mm) {
    return Show.words(Show.length(mm));
  }

  /** A kind of trim in words. */
  public static String trimKind(String key) {
    return KeyWords.trimKind(key);
  }

  /** Where a placement stands against its limits, in words. */
  public static String verdict(String key) {
    return KeyWords.verdict(key);
  }

  /** A kind of gross error in words. */
  public static String kind(String key) {
    return KeyWords.kind(key);
  }

  /** Placements marked as faults, how many of each kind: "missing 2, a wrong part 1". */
  public static String faults(Map<FaultKind, Long> of) {
    return of.entrySet().stream()
        .map(e -> kind(e.getKey().key()) + " " + e.getValue())
        .collect(Collectors.joining(", "));
  }

  /** A family of tests in words. */
  public static String family(String key) {
    return KeyWords.family(key);
  }

  /** The console's sentence with the signs that pages have. */
  public static String page(String sentence) {
    return Show.words(sentence);
  }
}
