package org.padtrue.log;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.firstarticle.decide.EnteredTrims;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.history.LoggedParameter;
import org.padtrue.history.LoggedTrim;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Measured;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.panel.term.Term;

/**
 * The trims of an analysis as increments of the series that they move. Registration and board
 * coordinates belong to the job, everything else to the machine.
 *
 * <p>What the log's model has no term for (new board coordinates, a nozzle's shift in the panel
 * frame) is put through the same plain fit over the article's placements, and logged as what it
 * does to the terms that are there.
 */
public final class TrimIncrements {
  /** Rounding of the fit, not a trim: a picometre, a micro-ppm. */
  private static final double NOTHING = 1e-9;

  private final String source;
  private final List<LoggedTrim> out = new ArrayList<>();

  private TrimIncrements(String source) {
    this.source = source;
  }

  /**
   * The increments of what was decided to be trimmed.
   *
   * @param batch corrections for the batch
   * @param groups levels with their trims
   * @param array the boards as the job has them
   * @param kinds kinds that were entered
   * @param sameJob false leaves out what belongs to the analysis' own job
   * @param sourceHash hash of the file they come from
   * @param article the article that they are logged with
   */
  public static List<LoggedTrim> of(
      BatchTrim batch,
      List<GroupResult> groups,
      BoardArray array,
      Set<TrimKind> kinds,
      boolean sameJob,
      String sourceHash,
      ArticleTerms article) {
    TrimIncrements t = new TrimIncrements(sourceHash);
    if (sameJob) {
      t.registration(batch, kinds);
    }
    if (kinds.contains(TrimKind.SCALE) && batch.scale().decision() == Decision.TRIM) {
      t.machine(FixedTerm.SCALE_X, batch.scale().xPpm());
      t.machine(FixedTerm.SCALE_Y, batch.scale().yPpm());
      t.machine(FixedTerm.SQUARENESS, batch.scale().squarenessMrad());
    }
    if (kinds.contains(TrimKind.COMMON) && batch.common().decision() == Decision.TRIM) {
      t.machine(LevelTerm.every(Factor.PART, OffsetAxis.X), batch.common().value().x());
      t.machine(LevelTerm.every(Factor.PART, OffsetAxis.Y), batch.common().value().y());
    }
    if (kinds.contains(TrimKind.ROTATION_ZERO)
        && batch.rotationZero().decision() == Decision.TRIM) {
      t.machine(FixedTerm.ROTATION_ZERO, batch.rotationZero().value());
    }
    for (GroupResult g : groups) {
      TrimKind kind = g.factor().trim().orElse(null);
      boolean entered = kind != null && kinds.contains(kind);
      if (entered && g.trim().decision() == Decision.TRIM) {
        t.level(g, foreign(g));
      }
    }
    Set<TrimKind> fields = EnumSet.noneOf(TrimKind.class);
    if (sameJob) {
      fields.add(TrimKind.ARRAY);
    }
    Factor.listedOnes().forEach(f -> f.trim().ifPresent(fields::add));
    fields.retainAll(kinds);
    List<GroupResult> foreign = groups.stream().filter(TrimIncrements::foreign).toList();
    t.field(EnteredTrims.of(batch, foreign, array, fields), article);
    return List.copyOf(t.out);
  }

  /** True for a trim in another frame than the log has the factor in. */
  private static boolean foreign(GroupResult g) {
    return !g.frame().equals(g.factor().frame().key());
  }

  private void field(EnteredTrims trims, ArticleTerms article) {
    DeviationTable used = article.used();
    double[] dx = new double[used.size()];
    double[] dy = new double[used.size()];
    boolean any = false;
    for (int i = 0; i < dx.length; i++) {
      Measured m = used.rows().get(i);
      String part = m.placement().part();
      Xyr v = trims.at(m.nominal(), m.board(), part, m.levels());
      dx[i] = v.x();
      dy[i] = v.y();
      any |= v.x() != 0 || v.y() != 0;
    }
    if (any) {
      for (LoggedParameter p : PlainFit.ofField(article, dx, dy).values()) {
        if (Math.abs(p.value()) > NOTHING) {
          add(p.name(), p.unit(), p.value(), LoggedTrim.Scope.JOB);
        }
      }
    }
  }

  private void registration(BatchTrim batch, Set<TrimKind> kinds) {
    if (kinds.contains(TrimKind.REGISTRATION) && batch.shift().decision() == Decision.TRIM) {
      job(FixedTerm.SHIFT_X, batch.shift().value().x());
      job(FixedTerm.SHIFT_Y, batch.shift().value().y());
    }
    if (kinds.contains(TrimKind.ROTATION) && batch.rotation().decision() == Decision.TRIM) {
      job(FixedTerm.ROTATION, batch.rotation().value());
    }
  }

  /** A rotation has no frame; x and y in another one go the way of the field. */
  private void level(GroupResult g, boolean foreign) {
    Xyr v = g.trim().value();
    if (!foreign) {
      machine(LevelTerm.of(g.named(), OffsetAxis.X), v.x());
      machine(LevelTerm.of(g.named(), OffsetAxis.Y), v.y());
    }
    machine(LevelTerm.of(g.named(), OffsetAxis.ROTATION), v.rotation());
    machine(LevelTerm.of(g.named(), OffsetAxis.TURN), g.trim().turn());
  }

  private void machine(Term term, double v) {
    add(term.series(), term.unit(), v, LoggedTrim.Scope.MACHINE);
  }

  private void job(Term term, double v) {
    add(term.series(), term.unit(), v, LoggedTrim.Scope.JOB);
  }

  private void add(String name, String unit, double v, LoggedTrim.Scope scope) {
    if (Double.isFinite(v) && v != 0) {
      out.add(new LoggedTrim(name, unit, v, scope, source));
    }
  }
}
