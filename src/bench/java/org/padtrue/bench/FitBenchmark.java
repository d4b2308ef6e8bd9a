package org.padtrue.bench;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.mixed.OffsetModel;
import org.padtrue.mixed.OffsetOptions;
import org.padtrue.mixed.PanelFamily;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.article.Article;
import org.padtrue.panel.article.DeviationTable;

/**
 * What fitting an article costs beside reading it. Affine family, part types as random factor, REML
 * with all standard errors. Run with the gc profiler for the bytes allocated.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(
    value = 1,
    jvmArgs = {"-Xmx3g"})
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 3, time = 2)
public class FitBenchmark {
  /** Placements of the article. */
  @Param({"1000", "10000", "100000", "1000000"})
  public int size;

  private static final OffsetOptions OPTIONS =
      new OffsetOptions(PanelFamily.AFFINE, false, false, false, true, List.of(Factor.PART), Set.of());

  private Job job;
  private Path file;
  private DeviationTable table;

  /** Writes and reads the article once. */
  @Setup(Level.Trial)
  public void prepare() {
    job = LargeArticle.job(size);
    file = LargeArticle.write(job);
    Article a = ArticleLoader.load(file, job).orThrow();
    table = new DeviationTable(a.measured(), Double.NaN, Double.NaN);
  }

  /** The fit of positions, from columns to estimates and standard errors. */
  @Benchmark
  public OffsetFit fit() {
    return OffsetModel.fit(table, OPTIONS);
  }

  /** Reading and checking the same article from its file. */
  @Benchmark
  public Article parse() {
    return ArticleLoader.load(file, job).orThrow();
  }
}
