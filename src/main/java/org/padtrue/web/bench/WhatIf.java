package org.padtrue.web.bench;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Tolerance;
import org.padtrue.panel.article.Article;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.TypedNumbers;

/**
 * What a person tries out on a result; nothing of it is kept.
 *
 * @param off trims not to be entered
 * @param out placements to leave out, as typed: R7 or 2/1/R7
 * @param acceptanceClass 1, 2 or 3; 0 the job's own
 * @param part part type whose tolerance is tried; empty for none
 * @param toleranceMm its allowed deviation in x and y, mm; NaN when none is tried
 */
public record WhatIf(
    Set<String> off, List<String> out, int acceptanceClass, String part, double toleranceMm) {
  static final WhatIf NOTHING = new WhatIf(Set.of(), List.of(), 0, "", Double.NaN);
  private static final int MOST_OFF = 500;

  public static WhatIf of(Context ctx) {
    List<String> off = ctx.queryParams("off");
    if (off.size() > MOST_OFF) {
      throw Refusal.bad("More than " + MOST_OFF + " trims cannot be turned off.");
    }
    List<String> out = new ArrayList<>();
    for (String s : Fields.query(ctx, "out").split("[\\s;]+")) {
      if (!s.isBlank()) {
        out.add(s);
      }
    }
    String cls = Fields.query(ctx, "class");
    String tolerance = Fields.query(ctx, "tolerance");
    String part = Fields.query(ctx, "part");
    double mm =
        tolerance.isEmpty() || part.isEmpty()
            ? Double.NaN
            : TypedNumbers.mm(tolerance, LengthUnit.MM)
                .orElseThrow(() -> Refusal.bad("'" + tolerance + "' is no length in mm."));
    return new WhatIf(
        new LinkedHashSet<>(off),
        out,
        cls.matches("[123]") ? Integer.parseInt(cls) : 0,
        Double.isNaN(mm) ? "" : part,
        mm > 0 ? mm : Double.NaN);
  }

  public boolean isNothing() {
    return off.isEmpty() && out.isEmpty() && acceptanceClass == 0 && Double.isNaN(toleranceMm);
  }

  /** The key by which a line of the trim sheet is turned off. */
  public static String key(TrimLine t) {
    return Factor.parse(t.kind())
        .map(f -> f.key() + " " + t.where().substring(f.noun().length() + 1))
        .orElse(t.kind());
  }

  /** The job with the limits that are tried. */
  Job job(Job j) {
    Map<String, PartType> parts = new LinkedHashMap<>(j.parts());
    if (!Double.isNaN(toleranceMm)) {
      PartType t = j.partType(part);
      @Nullable Tolerance own = t.tolerance();
      Tolerance tried =
          new Tolerance(toleranceMm, toleranceMm, own == null ? 360 : own.rotationDeg());
      parts.put(
          part,
          new PartType(
              t.name(),
              t.kind(),
              t.symmetry(),
              t.selfCentres(),
              t.body(),
              t.bodyHeightMm(),
              t.terminations(),
              t.lands(),
              t.envelope(),
              tried));
    }
    return new Job(
        j.name(),
        j.side(),
        j.stage(),
        j.placements(),
        j.unplaced(),
        parts,
        j.array(),
        j.fiducials(),
        acceptanceClass == 0 ? j.acceptanceClass() : acceptanceClass,
        j.machine(),
        j.measurement(),
        j.notes());
  }

  /** The article without the placements that are left out. */
  Article article(Article a) {
    List<Measured> rest = a.measured().stream().filter(m -> !leavesOut(m)).toList();
    return new Article(
        a.file(),
        rest,
        a.fiducials(),
        a.poses(),
        a.partsRegistered(),
        a.temperatureC(),
        a.notes(),
        a.relativeTypes(),
        a.landsRegistered(),
        a.unit(),
        a.faults());
  }

  private boolean leavesOut(Measured m) {
    String key = BenchArticle.key(m).toLowerCase(Locale.ROOT);
    return out.stream().map(o -> "/" + o.toLowerCase(Locale.ROOT)).anyMatch(key::endsWith);
  }

  /** What is tried, in words. */
  public List<String> sentences() {
    List<String> s = new ArrayList<>();
    if (!off.isEmpty()) {
      s.add(
          "not entered: "
              + off.stream().map(ResultWords::trimKind).collect(Collectors.joining(", ")));
    }
    if (!out.isEmpty()) {
      s.add("left out: " + String.join(", ", out));
    }
    if (acceptanceClass != 0) {
      s.add("acceptance class " + acceptanceClass);
    }
    if (!Double.isNaN(toleranceMm)) {
      s.add("tolerance of " + part + " " + ShownNumbers.number(toleranceMm, 3) + " mm either way");
    }
    return s;
  }
}
