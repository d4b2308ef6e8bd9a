package org.padtrue.web.picture;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.DetectionOptions;
import org.padtrue.imaging.DetectionResult;
import org.padtrue.imaging.PictureCopy;
import org.padtrue.imaging.PictureDetection;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.problem.InputException;
import org.padtrue.quantity.Angles;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.server.FileNames;
import org.padtrue.web.server.ShownNumbers;

/** Measures uploaded pictures, one article after the other, while the pages go on. */
public final class PictureWork implements AutoCloseable {
  static final String FOLDER = "pictures";
  private static final int SHOWN_SIDE = 4000;

  /**
   * How far an article's pictures are.
   *
   * @param running true while they are measured
   * @param done placements looked at
   * @param all placements to look at
   * @param problems why nothing came of it
   */
  record Progress(boolean running, int done, int all, List<String> problems) {
    Progress {
      problems = List.copyOf(problems);
    }
  }

  private static final Progress NONE = new Progress(false, 0, 0, List.of());

  private final ExecutorService worker =
      Executors.newSingleThreadExecutor(
          r -> {
            Thread t = new Thread(r, "pictures");
            t.setDaemon(true);
            return t;
          });
  private final Map<String, Progress> progress = new ConcurrentHashMap<>();

  public static Path folder(BenchArticle a) throws IOException {
    return Files.createDirectories(a.folder().resolve(FOLDER));
  }

  Progress of(BenchArticle a) {
    return progress.getOrDefault(a.id(), NONE);
  }

  /** Begins to measure pictures that stand in the article's folder. */
  void begin(BenchArticle a, Job job, List<String> names, double distanceMm) {
    progress.put(a.id(), new Progress(true, 0, 0, List.of()));
    worker.execute(() -> run(a, job, names, distanceMm));
  }

  private void run(BenchArticle a, Job job, List<String> names, double distanceMm) {
    try {
      Path folder = folder(a);
      List<Path> files = names.stream().map(n -> FileNames.within(folder, n)).toList();
      DetectionOptions options = DetectionOptions.withDefaults().cameraDistance(distanceMm);
      DetectionResult r =
          PictureDetection.overview(
              job,
              files,
              options,
              (done, all) ->
                  progress.put(a.id(), new Progress(true, (int) done, (int) all, List.of())));
      kept(job, r, files, folder).write(folder);
      progress.put(a.id(), NONE);
    } catch (InputException e) {
      progress.put(
          a.id(), new Progress(false, 0, 0, JobFolder.sentences(e, a.folder().resolve(FOLDER))));
    } catch (IOException | RuntimeException e) {
      String s = "The pictures could not be measured (" + e.getClass().getSimpleName() + ").";
      progress.put(a.id(), new Progress(false, 0, 0, List.of(s)));
    }
  }

  private static PictureReadings kept(Job job, DetectionResult r, List<Path> files, Path folder)
      throws IOException {
    List<Shot> shots = new ArrayList<>();
    for (int i = 0; i < files.size(); i++) {
      PictureCopy size = PictureCopy.write(files.get(i), SHOWN_SIDE, shown(folder, i));
      MapReport m = r.maps().get(i);
      shots.add(
          new Shot(
              String.valueOf(files.get(i).getFileName()),
              size.width(),
              size.height(),
              m.pxPerMm(),
              m.rotationDeg(),
              m.mirrored(),
              sentence(m)));
    }
    List<PictureReading> readings = new ArrayList<>();
    for (PlacementReading p : r.worstFirst()) {
      readings.add(reading(job, p));
    }
    List<String> notes = new ArrayList<>();
    if (!files.isEmpty()) {
      r.question(String.valueOf(files.get(0).getFileName()), false)
          .ifPresent(q -> notes.add(q.sentence()));
    }
    notes.addAll(r.notes());
    return new PictureReadings(shots, readings, notes, r.partsRegistered());
  }

  /** The copy of a picture that pages show. */
  static Path shown(Path folder, int index) {
    return folder.resolve("shown-" + (index + 1) + ".jpg");
  }

  private static String sentence(MapReport m) {
    String on =
        m.registeredOn() == RegisteredOn.PARTS
            ? "the parts themselves: panel shift and rotation cannot be known"
            : m.registeredOn().name().toLowerCase(java.util.Locale.ROOT);
    return "registered on "
        + on
        + ", "
        + ShownNumbers.number(m.pxPerMm(), 2)
        + " px/mm"
        + (Double.isFinite(m.residualMm())
            ? ", residual " + ShownNumbers.number(m.residualMm() * 1000, 1) + " \u00b5m"
            : "")
        + (m.mirrored() ? ", mirrored" : "");
  }

  private static PictureReading reading(Job job, PlacementReading p) {
    PartType t = job.partType(p.placement().part());
    @Nullable Rect body = t.body();
    var pose = p.pose();
    double turn =
        pose == null
            ? Double.NaN
            : Angles.wrap(pose.rotationDeg() - p.nominal().rotationDeg(), t.symmetry());
    return new PictureReading(
        p.panel() + "/" + p.id(),
        p.placement().part(),
        p.status().words(),
        p.picture(),
        p.xPx(),
        p.yPx(),
        pose == null ? Double.NaN : pose.xMm() - p.nominal().xMm(),
        pose == null ? Double.NaN : pose.yMm() - p.nominal().yMm(),
        turn,
        p.uMm(),
        p.uRotationDeg(),
        pose == null ? p.nominal().rotationDeg() : pose.rotationDeg(),
        p.score(),
        body == null ? 1 : body.lengthMm(),
        body == null ? 1 : body.widthMm(),
        p.note());
  }

  @Override
  public void close() {
    worker.shutdownNow();
  }
}
