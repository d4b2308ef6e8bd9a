package org.padtrue.report.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.IntConsumer;
import java.util.function.Supplier;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.DrawnChart;

/** A chart that is still to be drawn; the names are those of {@link DrawnChart}. */
record ChartPlan(
    String name, String group, String title, String caption, Supplier<ChartFrame> frame) {

  private DrawnChart draw(Set<ChartFormat> formats) {
    return DrawnChart.of(name, group, title, caption, frame.get(), formats);
  }

  /**
   * Draws charts, each on one thread, as many at a time as there are processors.
   *
   * @param formats what each is drawn as; none: nothing is drawn
   * @param done told how many are finished, never by two threads at once
   * @return the pictures in the order of the plans
   */
  static List<DrawnChart> draw(List<ChartPlan> plans, Set<ChartFormat> formats, IntConsumer done) {
    if (plans.isEmpty() || formats.isEmpty()) {
      return List.of();
    }
    int threads = Math.min(plans.size(), Runtime.getRuntime().availableProcessors());
    ExecutorService pool = Executors.newFixedThreadPool(threads, ChartPlan::daemon);
    try {
      List<Future<DrawnChart>> futures = new ArrayList<>();
      int[] finished = {0};
      for (ChartPlan p : plans) {
        futures.add(
            pool.submit(
                () -> {
                  DrawnChart picture = p.draw(formats);
                  synchronized (finished) {
                    done.accept(++finished[0]);
                  }
                  return picture;
                }));
      }
      List<DrawnChart> pictures = new ArrayList<>();
      for (Future<DrawnChart> f : futures) {
        pictures.add(f.get());
      }
      return pictures;
    } catch (ExecutionException e) {
      throw e.getCause() instanceof RuntimeException x ? x : new IllegalStateException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while drawing charts", e);
    } finally {
      pool.shutdownNow();
    }
  }

  private static Thread daemon(Runnable work) {
    Thread t = new Thread(work, "charts");
    t.setDaemon(true);
    return t;
  }
}
