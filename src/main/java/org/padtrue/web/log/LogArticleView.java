package org.padtrue.web.log;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.history.ArticleEntry;
import org.padtrue.history.Conditions;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedAttachment;
import org.padtrue.history.LoggedParameter;
import org.padtrue.history.LoggedPlacement;
import org.padtrue.history.LoggedSignOff;
import org.padtrue.history.LoggedTrim;
import org.padtrue.panel.Factor;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.Times;

/**
 * One article of the log.
 *
 * @param id its number
 * @param machine its machine
 * @param job its job
 * @param changed what was changed later, or what this changes; sentences with the number they lead
 *     to
 * @param facts what was known, label and value
 * @param note free text, empty for none
 * @param parameters what was fitted
 * @param trims what was entered before it
 * @param attachments files by hash
 * @param placements what was measured, those left out of the fit first
 * @param measured how many placements there are
 * @param shortened true when not all placements are shown
 * @param signOffs in the order given
 * @param standing true when nothing corrects it, so that it can be signed off
 * @param previous the article before it of the same machine and job, 0 for none
 * @param zone name of the clock
 */
public record LogArticleView(
    long id,
    String machine,
    String job,
    List<Changed> changed,
    List<Fact> facts,
    String note,
    List<Parameter> parameters,
    List<Trim> trims,
    List<Attachment> attachments,
    List<Placement> placements,
    int measured,
    boolean shortened,
    List<Signed> signOffs,
    boolean standing,
    long previous,
    String zone) {
  private static final int MOST = 400;

  public LogArticleView {
    changed = List.copyOf(changed);
    facts = List.copyOf(facts);
    parameters = List.copyOf(parameters);
    trims = List.copyOf(trims);
    attachments = List.copyOf(attachments);
    placements = List.copyOf(placements);
    signOffs = List.copyOf(signOffs);
  }

  /** A sentence about a change, and the article that it leads to. */
  public record Changed(String sentence, long other) {}

  /** One thing known. */
  public record Fact(String label, String value) {}

  /** One estimate with its standard error. */
  public record Parameter(String name, String panel, String value, String error, String unit) {}

  /** One trim entered before the article. */
  public record Trim(String name, String increment, String unit, String reach) {}

  /** One file. */
  public record Attachment(String file, String bytes, String sha256) {}

  /** One measured placement. */
  public record Placement(
      String ref, String part, String tools, String dx, String dy, String turn, String state) {}

  /**
   * One sign-off or withdrawal.
   *
   * @param id its number
   * @param at when
   * @param what signed off, or withdraws sign-off N
   * @param state holds, withdrawn by N; empty for a withdrawal
   * @param holds true when it can be withdrawn
   */
  public record Signed(
      long id,
      String at,
      String name,
      String role,
      String note,
      String what,
      String state,
      boolean holds) {}

  /** An article whose sign-offs matter here. */
  record Other(ArticleEntry entry, List<LoggedSignOff> signOffs) {}

  /**
   * Makes the view.
   *
   * @param e line of the log
   * @param a the article
   * @param own its sign-offs
   * @param older the rows that it corrects, the nearest first
   * @param newer the row that corrects it, or null
   * @param previous number of the article before it, 0 for none
   * @param everything false shows a limited number of placements
   */
  static LogArticleView of(
      ArticleEntry e,
      LoggedArticle a,
      List<LoggedSignOff> own,
      List<Other> older,
      @Nullable ArticleEntry newer,
      long previous,
      boolean everything) {
    List<LoggedPlacement> sorted = new ArrayList<>(a.placements());
    sorted.sort((p, q) -> Boolean.compare(p.used(), q.used()));
    boolean cut = !everything && sorted.size() > MOST;
    return new LogArticleView(
        e.id(),
        e.machine(),
        e.job(),
        changes(e, own, older, newer),
        facts(e, a),
        e.notes(),
        a.parameters().stream().filter(p -> !isBeside(p)).map(LogArticleView::parameter).toList(),
        a.trims().stream().map(LogArticleView::trim).toList(),
        a.attachments().stream().map(LogArticleView::attachment).toList(),
        (cut ? sorted.subList(0, MOST) : sorted).stream().map(Naming.of(a)::placement).toList(),
        sorted.size(),
        cut,
        own.stream().map(LogArticleView::signed).toList(),
        newer == null,
        previous,
        Times.zone());
  }

  private static List<Changed> changes(
      ArticleEntry e, List<LoggedSignOff> own, List<Other> older, @Nullable ArticleEntry newer) {
    List<Changed> all = new ArrayList<>();
    if (newer != null) {
      boolean signed = own.stream().anyMatch(s -> s.withdraws() == null);
      all.add(
          new Changed(
              "Corrected by number "
                  + newer.id()
                  + " on "
                  + Times.minute(newer.recordedAt())
                  + ": "
                  + newer.reason()
                  + (signed
                      ? ". It was signed off before that; the sign-off is for what stands here, not"
                          + " for number "
                          + newer.id()
                          + "."
                      : "."),
              newer.id()));
    }
    String reason = e.reason();
    for (Other o : older) {
      List<LoggedSignOff> signed = o.signOffs.stream().filter(s -> s.withdraws() == null).toList();
      all.add(
          new Changed(
              "Corrects number "
                  + o.entry.id()
                  + ": "
                  + reason
                  + (signed.isEmpty()
                      ? "."
                      : ". That one was signed off ("
                          + LogView.signed(o.signOffs)
                          + ") before this correction; the sign-off does not cover what stands"
                          + " here."),
              o.entry.id()));
      reason = o.entry.reason();
    }
    return all;
  }

  private static List<Fact> facts(ArticleEntry e, LoggedArticle a) {
    Conditions c = e.conditions();
    List<Fact> f = new ArrayList<>();
    f.add(new Fact("Measured", Times.minute(e.measuredAt())));
    f.add(new Fact("Machine", e.machine()));
    f.add(new Fact("Job", e.job()));
    f.add(new Fact("File", e.file()));
    f.add(new Fact("Parts sit on", e.stage().equals("reflowed") ? "solder" : e.stage()));
    f.add(new Fact("Measured against", e.reference()));
    f.add(new Fact("Shift", unknown(c.shift())));
    f.add(new Fact("Operator", unknown(c.operator())));
    f.add(new Fact("Temperature", with(c.temperatureC(), 1, " \u00b0C")));
    f.add(new Fact("Humidity", with(c.humidityPercent(), 0, " %")));
    f.add(new Fact("Running for", with(c.minutesRunning(), 0, " min")));
    f.add(new Fact("Placements since service", with(c.placementsSinceService(), 0, "")));
    long used = a.placements().stream().filter(LoggedPlacement::used).count();
    long measured = a.placements().stream().filter(p -> p.fault().isEmpty()).count();
    f.add(new Fact("Placements", measured + " measured, " + used + " used"));
    if (!a.faults().isEmpty()) {
      f.add(new Fact("Marked as faults", ResultWords.faults(a.faults())));
    }
    f.add(new Fact("Their centre", beside(a, " mm", 1, "centreX", "centreY")));
    f.add(new Fact("No-adjustment limit", beside(a, " mm", 4, "deadBand")));
    f.add(new Fact("Recorded", Times.minute(e.recordedAt()) + " by " + e.recordedBy()));
    f.add(new Fact("Content", e.contentHash()));
    return f;
  }

  private static String unknown(String s) {
    return s.isEmpty() ? ShownNumbers.UNKNOWN : s;
  }

  private static String with(double v, int decimals, String unit) {
    return Double.isFinite(v) ? ShownNumbers.number(v, decimals) + unit : ShownNumbers.UNKNOWN;
  }

  private static final Set<String> BESIDE =
      Set.of("centreX", "centreY", "reach", "deadBand", "deadBandRotation");

  /**
   * What is logged beside the terms: where was measured, how far a term may be off, and levels
   * against each other, which only a series needs.
   */
  static boolean isBeside(LoggedParameter p) {
    return BESIDE.contains(p.name())
        || LevelTerm.parse(p.name()).filter(t -> t.minus() != null).isPresent();
  }

  private static String beside(LoggedArticle a, String unit, int decimals, String... names) {
    List<String> found = new ArrayList<>();
    for (String name : names) {
      a.parameters().stream()
          .filter(p -> p.name().equals(name))
          .findFirst()
          .ifPresent(p -> found.add(ShownNumbers.number(p.value(), decimals)));
    }
    return found.isEmpty() ? ShownNumbers.UNKNOWN : String.join(", ", found) + unit;
  }

  private static Parameter parameter(LoggedParameter p) {
    Amount a = Amount.of(p.unit());
    return new Parameter(
        SeriesWords.framed(p.name()),
        p.panel(),
        a.value(p.value(), p.standardError()),
        a.error(p.value(), p.standardError()),
        a.unit());
  }

  private static Trim trim(LoggedTrim t) {
    Amount a = Amount.of(t.unit());
    return new Trim(
        SeriesWords.framed(t.name()),
        t.turn()
            ? ShownNumbers.signed(t.increment(), 0)
            : ShownNumbers.signed(a.factor() * t.increment(), t.unit().equals("deg") ? 4 : 2),
        a.unit(),
        t.scope() == LoggedTrim.Scope.JOB ? "this job" : "every job of the machine");
  }

  /** Head of the column of levels that files list: "Nozzle, feeder, head". */
  public static String levelsHead() {
    String all = Factor.listedOnes().stream().map(Factor::noun).collect(Collectors.joining(", "));
    return Character.toUpperCase(all.charAt(0)) + all.substring(1);
  }

  private static Attachment attachment(LoggedAttachment t) {
    return new Attachment(t.file(), ShownNumbers.count(t.bytes(), "byte"), t.sha256());
  }

  /** How placements are called: with panel and board only where there are several. */
  private record Naming(boolean panels, boolean boards) {
    static Naming of(LoggedArticle a) {
      return new Naming(
          a.placements().stream().map(LoggedPlacement::panel).distinct().count() > 1,
          a.placements().stream().anyMatch(p -> p.column() != 1 || p.row() != 1));
    }

    Placement placement(LoggedPlacement p) {
      List<String> tools = new ArrayList<>();
      for (Factor f : Factor.listedOnes()) {
        String t = p.levels().get(f);
        if (t != null && !t.isEmpty()) {
          tools.add(t);
        }
      }
      return new Placement(
          (panels ? p.panel() + "/" : "")
              + (boards ? p.column() + "/" + p.row() + "/" : "")
              + p.ref(),
          p.part(),
          String.join(", ", tools),
          ShownNumbers.um(p.dxMm()),
          ShownNumbers.um(p.dyMm()),
          ShownNumbers.signed(p.dRotationDeg(), 3),
          p.used()
              ? ""
              : p.excludedAs().isEmpty()
                  ? "left out"
                  : "left out: " + ResultWords.kind(p.excludedAs()));
    }
  }

  private static Signed signed(LoggedSignOff s) {
    boolean first = s.withdraws() == null;
    return new Signed(
        s.id(),
        Times.minute(s.at()),
        s.said().name(),
        s.said().role(),
        s.said().note(),
        first ? "Signed off" : "Withdraws sign-off " + s.withdraws(),
        !first ? "" : s.withdrawnBy() == null ? "holds" : "withdrawn by " + s.withdrawnBy(),
        s.holds());
  }
}
