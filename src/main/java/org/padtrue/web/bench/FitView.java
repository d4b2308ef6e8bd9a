package org.padtrue.web.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.enough.Enough;
import org.padtrue.enough.EnoughOpen;
import org.padtrue.enough.EnoughTerm;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.panel.TrimKind;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.server.ShownNumbers;

/**
 * The fit while measuring goes on.
 *
 * @param measured entries so far
 * @param planned placements of the plan
 * @param enough true when further measuring would not change what to do
 * @param sentence how far it is, in one sentence
 * @param stake what stopping now would cost, in one sentence; empty when not known
 * @param next what to measure next, likeliest to change something first
 * @param terms what is known of each term
 * @param remarks what else a reader should know
 * @param asked placements that look odd beside the others
 * @param current true when it knows all that was entered when it was asked for
 */
public record FitView(
    int measured,
    int planned,
    boolean enough,
    String sentence,
    String stake,
    List<String> next,
    List<Term> terms,
    List<String> remarks,
    List<Asked> asked,
    boolean current) {
  private static final int MOST_NEXT = 3;
  private static final int LEAST_FOR_SCREENING = 6;

  public FitView {
    next = List.copyOf(next);
    terms = List.copyOf(terms);
    remarks = List.copyOf(remarks);
    asked = List.copyOf(asked);
  }

  /**
   * A question about one placement.
   *
   * @param key panel/column/row/ref
   * @param sentence what is asked
   */
  public record Asked(String key, String sentence) {}

  /**
   * One number of the trim sheet.
   *
   * @param name in the trade's words
   * @param value estimate with its 95 % interval
   * @param decision what would be done now
   * @param moves what measuring the rest may change by it, RMS over the placements of a panel
   */
  public record Term(String name, String value, String decision, String moves) {}

  /** While the first fit is reckoned. */
  static FitView reckoning(int measured, int planned) {
    return plain("Calculating …", List.of(), measured, planned).asOfEarlier();
  }

  /** The same, said to be older than what is on disk. */
  FitView asOfEarlier() {
    return new FitView(
        measured, planned, enough, sentence, stake, next, terms, remarks, asked, false);
  }

  private static FitView plain(String sentence, List<String> remarks, int measured, int planned) {
    return new FitView(
        measured, planned, false, sentence, "", List.of(), List.of(), remarks, List.of(), true);
  }

  /** While there is too little for a fit. */
  static FitView without(List<String> problems, int measured, int planned) {
    String s =
        measured == 0
            ? "Nothing measured yet."
            : "Too little measured to fit; go on with the list.";
    List<String> why = measured == 0 ? List.of() : problems;
    return plain(s, why, measured, planned);
  }

  /** While it is asked whether what was measured is really so. */
  static FitView asked(List<String> problems, int measured, int planned) {
    return plain(
        "Nothing was calculated: what was measured looks like a mistake. The result's page takes"
            + " the answer that it is really so.",
        problems,
        measured,
        planned);
  }

  static FitView of(FirstArticleResult r, int measured, int planned) {
    Enough e = Enough.of(r, r.job());
    Map<String, Decision> decisions = decisions(r);
    List<Term> terms = new ArrayList<>();
    for (EnoughTerm t : e.terms()) {
      terms.add(term(t, decisions.get(t.key())));
    }
    List<String> next =
        e.open().stream()
            .limit(MOST_NEXT)
            .map(EnoughOpen::sentence)
            .map(s -> capital(ResultWords.page(s)))
            .toList();
    List<String> remarks =
        Excluded.shown(r.excluded()).stream()
            .map(x -> ResultWords.page(x.sentence()))
            .collect(Collectors.toCollection(ArrayList::new));
    return new FitView(
        measured,
        planned,
        e.enough(),
        capital(ResultWords.page(next.isEmpty() ? e.sentence() : e.sentence().split("; ")[0]))
            + ".",
        stake(r.prediction()),
        next,
        terms,
        remarks,
        asked(r),
        true);
  }

  private static List<Asked> asked(FirstArticleResult r) {
    return r.counts().used() < LEAST_FOR_SCREENING
        ? List.of()
        : r.excluded().stream()
            .map(
                x ->
                    new Asked(
                        x.panel() + "/" + x.board() + "/" + x.ref(),
                        capital(ResultWords.page(x.sentence()))
                            + ". Is that so? If not, type it again."))
            .toList();
  }

  /** What is known now against what no offset can take out. */
  private static String stake(Prediction p) {
    return Double.isFinite(p.nextTrimmed()) && Double.isFinite(p.floor())
        ? "Stopped here, a placement of the next panel is expected "
            + ShownNumbers.number(p.nextTrimmed() * 1000, 1)
            + " \u00b5m off (RMS); scatter alone, which no offset removes, leaves "
            + ShownNumbers.number(p.floor() * 1000, 1)
            + " \u00b5m."
        : "";
  }

  private static Term term(EnoughTerm t, @Nullable Decision d) {
    String moves =
        t.movesMm() < 5e-5 ? "0" : ShownNumbers.number(1000 * t.movesMm(), 1) + " \u00b5m";
    return new Term(capital(Enough.words(t)), value(t), d == null ? "" : word(d), moves);
  }

  private static String value(EnoughTerm t) {
    if (!Double.isFinite(t.estimate())) {
      return "not known yet";
    }
    double by = t.unit().equals("mm") ? 1000 : 1;
    int decimals = t.unit().equals("deg") || t.unit().equals("mrad") ? 3 : 0;
    String unit =
        switch (t.unit()) {
          case "mm" -> " \u00b5m";
          case "deg" -> "\u00b0";
          default -> " " + t.unit();
        };
    return ShownNumbers.signed(by * t.estimate(), decimals)
        + unit
        + " ("
        + ShownNumbers.signed(by * (t.estimate() - t.halfWidth()), decimals)
        + " to "
        + ShownNumbers.signed(by * (t.estimate() + t.halfWidth()), decimals)
        + ")";
  }

  private static Map<String, Decision> decisions(FirstArticleResult r) {
    BatchTrim b = r.batchTrim();
    Map<String, Decision> m = new java.util.HashMap<>();
    m.put(TrimKind.REGISTRATION.key(), b.shift().decision());
    m.put(TrimKind.ROTATION.key(), b.rotation().decision());
    m.put(TrimKind.SCALE.key(), b.scale().decision());
    m.put(TrimKind.ARRAY.key(), b.array().decision());
    m.put(TrimKind.COMMON.key(), b.common().decision());
    m.put(TrimKind.ROTATION_ZERO.key(), b.rotationZero().decision());
    for (GroupResult g : r.groups()) {
      // a level that acts in both frames: what is changed in one of them counts
      m.merge(
          g.named().toString(),
          g.trim().decision(),
          (one, other) -> one == Decision.TRIM ? one : other);
    }
    return m;
  }

  private static String word(Decision d) {
    return switch (d) {
      case CANNOT_TELL -> "cannot tell";
      case NOT_ACCEPTED -> "not accepted";
      default -> d.name().toLowerCase(Locale.ROOT);
    };
  }

  private static String capital(String s) {
    return s.isEmpty() ? s : Character.toUpperCase(s.charAt(0)) + s.substring(1);
  }
}
