package org.padtrue.web.plan;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.padtrue.land.clearance.NominalOverlaps;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.begin.Begin;
import org.padtrue.web.bench.ArticleLine;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.ShownNumbers;

/** Makes the page of a plan. */
final class PlanViews {
  private final String id;
  private final LoadedJob job;
  private final PlanAsked asked;
  private final List<PlanView.Source> sources;
  private final List<ArticleLine> articles;

  PlanViews(
      String id,
      LoadedJob job,
      PlanAsked asked,
      List<PlanView.Source> sources,
      List<ArticleLine> articles) {
    this.id = id;
    this.job = job;
    this.asked = asked;
    this.sources = sources;
    this.articles = articles;
  }

  PlanView without(List<String> problems) {
    return view(
        problems.stream().map(PageWords::plain).toList(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        "",
        List.of());
  }

  PlanView of(MeasuringPlan plan, List<String> scatter) {
    List<String> undecided = new ArrayList<>(plan.undecided());
    plan.aliases().stream()
        .map(MeasuringPlan.PlanAlias::sentence)
        .distinct()
        .forEach(undecided::add);
    List<String> assumed = new ArrayList<>(scatter);
    assumed.addAll(plan.notes());
    List<String> summary = new ArrayList<>(plan.summary());
    summary.addAll(NominalOverlaps.of(job.job()));
    return view(
        List.of(),
        words(summary),
        words(undecided),
        words(assumed),
        plan.terms().stream()
            .sorted(Comparator.comparingDouble(t -> -worst(t.foundFrom() / t.matters())))
            .map(PlanViews::term)
            .toList(),
        rotations(plan),
        lines(plan));
  }

  private static List<String> words(List<String> sentences) {
    return sentences.stream().map(PageWords::plain).map(ResultWords::page).toList();
  }

  private PlanView view(
      List<String> problems,
      List<String> summary,
      List<String> undecided,
      List<String> assumed,
      List<PlanView.Term> terms,
      String rotations,
      List<PlanView.Line> lines) {
    return new PlanView(
        id,
        job.job().name(),
        new PlanView.Asked(
            asked.count(),
            asked.within(),
            asked.scatter(),
            asked.rotationScatter(),
            asked.earlier(),
            asked.panels().isEmpty() ? "1" : asked.panels()),
        query(),
        sources,
        problems,
        summary,
        undecided,
        assumed,
        terms,
        rotations,
        lines,
        problems.isEmpty() ? Begin.panels(asked.panels()) : 1,
        articles);
  }

  private String query() {
    return "?count="
        + encoded(asked.count())
        + "&within="
        + encoded(asked.within())
        + "&scatter="
        + encoded(asked.scatter())
        + "&rotationScatter="
        + encoded(asked.rotationScatter())
        + "&earlier="
        + encoded(asked.earlier())
        + "&panels="
        + encoded(asked.panels());
  }

  private static String encoded(String s) {
    return URLEncoder.encode(s, StandardCharsets.UTF_8);
  }

  private static double worst(double v) {
    return Double.isNaN(v) ? Double.MAX_VALUE : v;
  }

  private static String um(double mm) {
    return Double.isNaN(mm) ? "not known" : ShownNumbers.number(1e3 * mm, 1) + " \u00b5m";
  }

  private static PlanView.Term term(MeasuringPlan.Term t) {
    return new PlanView.Term(
        t.name(),
        um(t.foundFrom()),
        um(t.standardError()),
        um(t.everything()),
        Double.isNaN(t.ownUnits())
            ? ShownNumbers.UNKNOWN
            : ShownNumbers.number(t.ownUnits(), t.ownUnits() < 1 ? 4 : 1) + " " + unit(t.unit()),
        t.chosen() + " of " + t.available());
  }

  private static String unit(String u) {
    return u.equals("deg") ? "\u00b0" : u;
  }

  private static String rotations(MeasuringPlan plan) {
    return plan.rotationTerms().stream()
        .max(Comparator.comparingDouble(t -> worst(t.foundFrom() / t.matters())))
        .map(
            t ->
                "Rotations: the least sure is "
                    + t.name()
                    + (Double.isNaN(t.foundFrom())
                        ? ", which is not measured."
                        : ", found from "
                            + ShownNumbers.number(t.foundFrom(), 2)
                            + "\u00b0, known \u00b1"
                            + ShownNumbers.number(t.standardError(), 3)
                            + "\u00b0 (one standard error)."))
        .orElse("");
  }

  private List<PlanView.Line> lines(MeasuringPlan plan) {
    boolean several = job.job().array().boards().size() > 1;
    return plan.lines().stream()
        .map(
            l ->
                new PlanView.Line(
                    l.order(),
                    several ? l.column() + "/" + l.row() : "",
                    l.ref(),
                    l.part(),
                    ShownNumbers.number(l.x(), 3),
                    ShownNumbers.number(l.y(), 3),
                    ShownNumbers.number(l.rotation(), 2)))
        .toList();
  }
}
