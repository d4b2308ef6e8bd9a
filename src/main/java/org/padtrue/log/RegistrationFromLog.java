package org.padtrue.log;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.ExcessSpread;
import org.padtrue.history.ArticleEntry;
import org.padtrue.history.ArticleLog;
import org.padtrue.panel.Job;
import org.padtrue.panel.Machine;
import org.padtrue.panel.term.FixedTerm;

/**
 * Feeds the log's registration repeatability back into a job that gives none, so that an analysis
 * of one panel knows how far panels differ.
 */
public final class RegistrationFromLog {
  /** Articles of the job that an estimate needs at least. */
  private static final int FEWEST = 8;

  private RegistrationFromLog() {}

  /**
   * The job with what it lacks, and a note that says so.
   *
   * @param job the job; what it states itself stays
   * @param log open to read
   * @param machine a machine's name, or null when the log has only one
   */
  public static Job filled(Job job, ArticleLog log, @Nullable String machine) {
    Machine m = job.machine();
    if (!Double.isNaN(m.repeatabilityXMm())
        && !Double.isNaN(m.repeatabilityYMm())
        && !Double.isNaN(m.repeatabilityRotationDeg())) {
      return noted(job, m, "registration repeatability is the job's own; the log was not asked");
    }
    String name = DriftStudy.machine(log, machine);
    Set<Long> ids = new LinkedHashSet<>();
    for (ArticleEntry e : log.articles(name, job.name())) {
      if (e.stands()) {
        ids.add(e.id());
      }
    }
    if (ids.size() < FEWEST) {
      return noted(
          job,
          m,
          String.format(
              Locale.ROOT,
              "the log has %d articles of this job on machine %s, too few to tell registration"
                  + " repeatability (%d are needed)",
              ids.size(),
              name,
              FEWEST));
    }
    Map<String, ExcessSpread> found = new LinkedHashMap<>();
    LogRepeatability.of(log.series(name, job.name()), ids).forEach(e -> found.put(e.series(), e));
    Machine filled =
        m.withRepeatability(
            or(m.repeatabilityXMm(), found.get(FixedTerm.SHIFT_X.series())),
            or(m.repeatabilityYMm(), found.get("shiftY")),
            or(m.repeatabilityRotationDeg(), found.get("rotation")));
    return noted(
        job,
        filled,
        String.format(
            Locale.ROOT,
            "registration repeatability x %.1f um, y %.1f um, rotation %.4f degrees: estimated from"
                + " %d articles of this job on machine %s in the log, as the job gives none",
            1000 * filled.repeatabilityXMm(),
            1000 * filled.repeatabilityYMm(),
            filled.repeatabilityRotationDeg(),
            ids.size(),
            name));
  }

  private static double or(double stated, @Nullable ExcessSpread found) {
    return Double.isNaN(stated) && found != null ? found.sd() : stated;
  }

  private static Job noted(Job job, Machine machine, String note) {
    List<String> notes = new ArrayList<>(job.notes());
    notes.add(note);
    return new Job(
        job.name(),
        job.side(),
        job.stage(),
        job.placements(),
        job.unplaced(),
        job.parts(),
        job.array(),
        job.fiducials(),
        job.acceptanceClass(),
        machine,
        job.measurement(),
        notes);
  }
}
