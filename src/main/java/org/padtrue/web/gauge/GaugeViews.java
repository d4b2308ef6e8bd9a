package org.padtrue.web.gauge;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.gauge.GaugeAxis;
import org.padtrue.gauge.GaugeComponents;
import org.padtrue.gauge.GaugeStudy;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.report.words.GaugeSummary;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.kept.Seen;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.ShownNumbers;

/** Makes the pages of gauge studies. */
final class GaugeViews {
  private final JobFolder folder;
  private final LoadedJob job;

  GaugeViews(JobFolder folder, LoadedJob job) {
    this.folder = folder;
    this.job = job;
  }

  GaugeView list(List<GaugeFolder> all) throws IOException {
    List<GaugeView.Study> studies = new ArrayList<>();
    for (GaugeFolder g : all) {
      List<GaugeRow> rows = g.rows();
      long read = rows.stream().filter(GaugeRow::read).count();
      studies.add(new GaugeView.Study(g.id(), read + " of " + rows.size() + " readings"));
    }
    return view(
        studies, "", List.of(), 0, List.of(), List.of(), "", "", List.of(), List.of(), List.of());
  }

  /** A session to type; 0 for none. */
  GaugeView open(GaugeFolder g, List<GaugeRow> rows, int session, List<String> problems) {
    return opened(g, rows, session, problems, shown(rows, session, false));
  }

  /** A session as somebody typed it, while other readings stand there. */
  GaugeView disputed(
      GaugeFolder g,
      List<GaugeRow> rows,
      int session,
      List<String> said,
      Map<Integer, double[]> typed) {
    List<GaugeRow> mine = new ArrayList<>(rows);
    typed.forEach((i, v) -> mine.set(i, mine.get(i).with(v[0], v[1], v[2])));
    List<GaugeView.Row> shown =
        shown(mine, session, false).stream()
            .map(
                r ->
                    new GaugeView.Row(
                        r.at(),
                        r.session(),
                        r.ref(),
                        r.dx(),
                        r.dy(),
                        r.rotation(),
                        rows.get(r.at()).values()))
            .toList();
    return opened(g, rows, session, said, shown);
  }

  private GaugeView opened(
      GaugeFolder g,
      List<GaugeRow> rows,
      int session,
      List<String> problems,
      List<GaugeView.Row> shown) {
    return view(
        List.of(),
        g.id(),
        sessions(rows),
        session,
        shown,
        problems,
        "",
        "",
        List.of(),
        List.of(),
        List.of(),
        mark(rows, session));
  }

  /** Tells states of a session apart. */
  static String mark(List<GaugeRow> rows, int session) {
    return Seen.of(
        rows.stream().filter(r -> r.session() == session).map(GaugeRow::values).toArray());
  }

  GaugeView blank(GaugeFolder g, List<GaugeRow> rows) {
    return view(
        List.of(),
        g.id(),
        sessions(rows),
        0,
        shown(rows, 0, true),
        List.of(),
        "",
        "",
        List.of(),
        List.of(),
        List.of());
  }

  GaugeView judged(GaugeFolder g, List<GaugeRow> rows, @Nullable GaugeStudy s) {
    if (s == null) {
      return open(g, rows, 0, List.of());
    }
    List<String> sentences = new ArrayList<>();
    s.axes().forEach(a -> sentences.add(a.sentence()));
    GaugeSummary.bias(s.bias()).forEach(b -> sentences.add("Bias: " + b));
    sentences.add(
        "For the job: standard uncertainty of one reading "
            + ShownNumbers.number(s.uncertaintyMm(), 4)
            + " mm"
            + (Double.isNaN(s.rotationUncertaintyDeg())
                ? ""
                : ", of rotation " + ShownNumbers.number(s.rotationUncertaintyDeg(), 3) + "\u00b0")
            + (s.bias() == null
                ? ""
                : ", bias " + ShownNumbers.number(s.bias().biasMm(), 4) + " mm")
            + ".");
    List<String> notes = new ArrayList<>(s.suspects());
    s.notes().stream()
        .filter(n -> s.bias() == null || !n.startsWith("Bias of camera and person from turning"))
        .forEach(notes::add);
    return view(
        List.of(),
        g.id(),
        sessions(rows),
        0,
        List.of(),
        List.of(),
        "Measurement system " + s.verdict().words(),
        s.verdict().key(),
        words(sentences),
        s.axes().stream().map(a -> axis(s, a)).toList(),
        words(notes));
  }

  private static List<String> words(List<String> sentences) {
    return sentences.stream()
        .map(PageWords::plain)
        .map(ResultWords::page)
        .map(s -> s.replaceAll("[-+\u2212]0\\.0 ", "0.0 "))
        .toList();
  }

  private static GaugeView.Axis axis(GaugeStudy s, GaugeAxis a) {
    GaugeComponents c = a.components();
    boolean persons = s.operators() > 1;
    return new GaugeView.Axis(
        a.axis(),
        sd(a, c.repeatability()),
        persons ? sd(a, c.reproducibility()) : ShownNumbers.UNKNOWN,
        sd(a, c.gauge()),
        s.placements() > 1 ? sd(a, c.part()) : ShownNumbers.UNKNOWN,
        percent(a.shareOfTolerance()),
        percent(a.shareOfStudy()),
        a.verdict().words());
  }

  private static String sd(GaugeAxis a, double v) {
    return a.unit().equals("deg")
        ? ShownNumbers.number(v, 3) + "\u00b0"
        : ShownNumbers.number(1e3 * v, 1) + " \u00b5m";
  }

  private static String percent(double share) {
    return Double.isNaN(share) ? ShownNumbers.UNKNOWN : ShownNumbers.number(100 * share, 0) + " %";
  }

  private static List<GaugeView.Session> sessions(List<GaugeRow> rows) {
    Map<Integer, List<GaugeRow>> by = new LinkedHashMap<>();
    rows.forEach(r -> by.computeIfAbsent(r.session(), k -> new ArrayList<>()).add(r));
    return by.values().stream()
        .map(
            l ->
                new GaugeView.Session(
                    l.get(0).session(),
                    l.get(0).operator(),
                    l.get(0).trial(),
                    l.get(0).turned() != 0,
                    (int) l.stream().filter(GaugeRow::read).count(),
                    l.size()))
        .toList();
  }

  private static List<GaugeView.Row> shown(List<GaugeRow> rows, int session, boolean all) {
    List<GaugeView.Row> out = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      GaugeRow r = rows.get(i);
      if (all || r.session() == session) {
        out.add(
            new GaugeView.Row(
                i,
                r.session(),
                r.ref(),
                ShownNumbers.plain(r.dxMm()),
                ShownNumbers.plain(r.dyMm()),
                ShownNumbers.plain(r.dRotationDeg()),
                r.values()));
      }
    }
    return out;
  }

  private GaugeView view(
      List<GaugeView.Study> studies,
      String study,
      List<GaugeView.Session> sessions,
      int session,
      List<GaugeView.Row> rows,
      List<String> problems,
      String verdict,
      String state,
      List<String> sentences,
      List<GaugeView.Axis> axes,
      List<String> notes) {
    return view(
        studies, study, sessions, session, rows, problems, verdict, state, sentences, axes, notes,
        "");
  }

  private GaugeView view(
      List<GaugeView.Study> studies,
      String study,
      List<GaugeView.Session> sessions,
      int session,
      List<GaugeView.Row> rows,
      List<String> problems,
      String verdict,
      String state,
      List<String> sentences,
      List<GaugeView.Axis> axes,
      List<String> notes,
      String seen) {
    return new GaugeView(
        folder.id(),
        job.job().name(),
        studies,
        study,
        sessions,
        session,
        rows,
        problems,
        verdict,
        state,
        sentences,
        axes,
        notes,
        seen);
  }
}
