package org.padtrue.report;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Alias;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.FiducialFit;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;

/** A sample whose every name and sentence tries to break out of where it is written. */
public final class HostileResults {
  /** Breaks out of text, attributes, style and CSV fields, and colours a terminal. */
  static final String EVIL =
      "</title></style><script>alert(1)</script>\"' onload=x &amp; \u001b[31m,;=1+1\u0000";

  private HostileResults() {}

  public static FirstArticleResult of(FirstArticleResult r) {
    return new FirstArticleResult(
        job(r.job()),
        evil(r.articles()),
        r.options(),
        r.counts(),
        r.panels().stream().map(HostileResults::panel).toList(),
        r.common(),
        r.rotationZero(),
        r.groups().stream().map(HostileResults::group).toList(),
        r.batchTrim(),
        r.trims().stream().map(HostileResults::trim).toList(),
        r.tests(),
        r.variances(),
        r.budget(),
        r.scatter(),
        r.prediction(),
        r.quadrants(),
        r.aliases().stream().map(a -> new Alias(evil(a.terms()), EVIL)).toList(),
        r.excluded().stream().map(HostileResults::excluded).toList(),
        r.placements().stream().map(HostileResults::placement).toList(),
        evil(r.missing()),
        r.acceptance(),
        r.clearances(),
        r.next(),
        evil(r.notes()));
  }

  private static List<String> evil(List<String> texts) {
    return texts.stream().map(t -> t + EVIL).toList();
  }

  private static Job job(Job j) {
    Map<String, PartType> parts =
        j.parts().values().stream()
            .collect(Collectors.toMap(p -> p.name() + EVIL, HostileResults::part));
    return new Job(
        j.name() + EVIL,
        j.side(),
        j.stage(),
        j.placements().stream().map(HostileResults::nominal).toList(),
        j.unplaced(),
        parts,
        j.array(),
        j.fiducials(),
        j.acceptanceClass(),
        j.machine(),
        j.measurement(),
        evil(j.notes()));
  }

  private static PartType part(PartType p) {
    return new PartType(
        p.name() + EVIL,
        p.kind(),
        p.symmetry(),
        p.selfCentres(),
        p.body(),
        p.bodyHeightMm(),
        p.terminations(),
        p.lands(),
        p.envelope(),
        p.tolerance());
  }

  private static Placement nominal(Placement p) {
    return new Placement(
        p.ref() + EVIL, p.part() + EVIL, p.pose(), p.levels(), p.order(), p.line());
  }

  private static PanelResult panel(PanelResult p) {
    FiducialFit f = p.fiducials();
    FiducialFit evil =
        f == null
            ? null
            : new FiducialFit(
                f.count(),
                f.transform(),
                f.lines().stream()
                    .map(
                        l ->
                            new FiducialFit.Line(
                                l.name() + EVIL, l.deviation(), l.residual(), l.suspect()))
                    .toList(),
                EVIL);
    return new PanelResult(
        p.panel() + EVIL,
        p.article() + EVIL,
        p.family(),
        p.transform(),
        p.standardErrors(),
        p.array(),
        p.families(),
        p.centroid(),
        p.shiftAtCentroid(),
        p.shiftAtCentroidSe(),
        evil);
  }

  private static GroupResult group(GroupResult g) {
    return new GroupResult(
        g.factor(),
        g.level() + EVIL,
        g.frame(),
        g.count(),
        g.rotations(),
        g.zeroOrientation(),
        g.offset(),
        g.standardErrors(),
        g.degreesOfFreedom(),
        g.combined(),
        g.combinedStandardErrors(),
        g.leastSquares(),
        g.ownTransform(),
        new TrimValue(g.trim().value(), g.trim().turn(), g.trim().decision(), EVIL));
  }

  private static TrimLine trim(TrimLine t) {
    return new TrimLine(
        t.where() + EVIL,
        t.kind(),
        t.from() + EVIL,
        t.addX(),
        t.addY(),
        t.addRotation(),
        t.addTurn(),
        t.addSquareness(),
        t.unit(),
        t.frame(),
        t.about() + EVIL,
        EVIL,
        t.effect());
  }

  private static Excluded excluded(Excluded e) {
    return new Excluded(
        e.panel() + EVIL, e.board(), e.ref() + EVIL, e.kind(), e.fault(), e.deviation(), EVIL);
  }

  private static PlacementResult placement(PlacementResult p) {
    return new PlacementResult(
        p.panel() + EVIL,
        p.board(),
        p.ref() + EVIL,
        p.part() + EVIL,
        p.nominal(),
        p.deviation(),
        p.residual(),
        p.afterTrim(),
        p.margin(),
        p.marginAfterTrim(),
        p.probabilityOutside(),
        p.probabilityOutsideAfterTrim(),
        p.verdict(),
        p.used());
  }
}
