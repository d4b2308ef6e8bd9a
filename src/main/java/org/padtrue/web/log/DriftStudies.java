package org.padtrue.web.log;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.DriftOptions;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LogState;
import org.padtrue.log.DriftStudy;

/** Studies of drift, reckoned once for every state of the log, however many pages ask. */
final class DriftStudies {
  private static final int MOST = 16;

  private record Known(LogState state, DriftStudy study) {}

  private final Map<String, Known> known = new ConcurrentHashMap<>();

  /**
   * The study as the log stands.
   *
   * @param log open to read
   * @param machine its name
   * @param job only this job's articles, or null for all
   */
  DriftStudy of(ArticleLog log, String machine, @Nullable String job) {
    LogState now = log.state();
    if (known.size() > MOST) {
      known.clear();
    }
    String key = machine + '\n' + (job == null ? "" : job);
    return known.compute(
            key,
            (k, old) ->
                old != null && old.state.equals(now)
                    ? old
                    : new Known(now, DriftStudy.of(log, machine, job, DriftOptions.withDefaults())))
        .study;
  }
}
