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
import org.padtrue.imaging.CloseUp;
import org.padtrue.imaging.CloseUpDetection;
import org.padtrue.imaging.DetectionResult;
import org.padtrue.imaging.PictureCopy;
import org.padtrue.imaging.PictureDetection;
import org.padtrue.imaging.camera.CameraCalibration;
import org.padtrue.imaging.camera.ReversalResult;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.problem.InputException;
import org.padtrue.quantity.Angles;
import org.padtrue.report.file.ArticleCsv;
import org.padtrue.report.json.CameraFile;
import org.padtrue.report.json.TaughtFolder;
import org.padtrue.report.words.CameraWords;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.server.FileNames;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.ShownNumbers;

/** Measures uploaded pictures, one article after the other, while the pages go on. */
public final class PictureWork implements AutoCloseable {
  static final String FOLDER = "pictures";
  private static final int SHOWN_SIDE = 4000;

  /** What turned pictures told about the device, beside the readings. */
  static final String DEVICE = "device.json";

  /**
   * How far an article's pictures are.
   *
   * @param running true while they are measured
   * @param done placements looked at
   * @param all placements to look at; 0 while that is not known
   * @param stage what is done meanwhile, in words
   * @param problems why nothing came of it
   */
  record Progress(boolean running, int done, int all, String stage, List<String> problems) {
    Progress {
      problems = List.copyOf(problems);
    }

    static Progress failed(List<String> problems) {
      return new Progress(false, 0, 0, "", problems);
    }
  }

  /** Corners of a grid, and their distance, mm. */
  record Pattern(int columns, int rows, double pitchMm) {}

  /**
   * How far pictures of a grid are.
   *
   * @param running true while they are worked on
   * @param stage what is done, in words
   * @param problems why nothing came of it
   * @param found what came of it, one line each
   */
  record Grid(boolean running, String stage, List<String> problems, List<String> found) {
    Grid {
      problems = List.copyOf(problems);
      found = List.copyOf(found);
    }
  }

  /** Keeps a camera under some name, which it gives. */
  @FunctionalInterface
  interface Keeping {
    String keep(CameraFile camera) throws IOException;
  }

  /** Clears up behind work. */
  @FunctionalInterface
  interface Clearing {
    void clear() throws IOException;
  }

  private static final Progress NONE = new Progress(false, 0, 0, "", List.of());

  private final ExecutorService worker =
      Executors.newSingleThreadExecutor(
          r -> {
            Thread t = new Thread(r, "pictures");
            t.setDaemon(true);
            return t;
          });
  private final Map<String, Progress> progress = new ConcurrentHashMap<>();
  private volatile Grid grid = new Grid(false, "", List.of(), List.of());

  public static Path folder(BenchArticle a) throws IOException {
    return Files.createDirectories(a.folder().resolve(FOLDER));
  }

  Progress of(BenchArticle a) {
    return progress.getOrDefault(a.id(), NONE);
  }

  Grid grid() {
    return grid;
  }

  /** Begins to find a camera's lens from pictures of a grid. */
  void calibrate(List<Path> files, Pattern p, Keeping keeping, Clearing clearing) {
    String words = ShownNumbers.count(files.size(), "picture") + " of a grid: looking for it.";
    grid = new Grid(true, words, List.of(), List.of());
    worker.execute(
        () -> {
          try {
            CameraCalibration.Result r =
                CameraCalibration.calibrate(files, p.columns(), p.rows(), p.pitchMm());
            List<String> found = new ArrayList<>();
            found.add("Kept as " + keeping.keep(new CameraFile(r.model(), null)) + ".");
            CameraWords.lines(r).forEach(l -> found.add(ResultWords.page(PageWords.plain(l))));
            grid = new Grid(false, "", List.of(), found);
          } catch (InputException e) {
            List<String> why =
                e.problems().stream().map(q -> PageWords.plain(q.sentence())).toList();
            grid = new Grid(false, "", why, List.of());
          } catch (Refusal e) {
            grid = new Grid(false, "", List.of(e.sentence()), List.of());
          } catch (IOException | RuntimeException e) {
            String why = "No camera was found (" + e.getClass().getSimpleName() + ").";
            grid = new Grid(false, "", List.of(why), List.of());
          } finally {
            clear(clearing);
          }
        });
  }

  private static void clear(Clearing clearing) {
    try {
      clearing.clear();
    } catch (IOException e) {
      // what is left is removed when the workspace is opened another day
    }
  }

  /** Begins to measure pictures that stand in the article's folder. */
  void begin(BenchArticle a, Job job, List<String> names, DetectAsked asked, Path looks) {
    progress.put(a.id(), new Progress(true, 0, 0, "waiting for other pictures", List.of()));
    worker.execute(() -> run(a, job, names, asked, looks));
  }

  private PictureDetection.Progress told(BenchArticle a) {
    return new PictureDetection.Progress() {
      @Override
      public void at(int done, int all) {
        progress.put(a.id(), new Progress(true, done, all, "", List.of()));
      }

      @Override
      public void looking(String what) {
        progress.put(a.id(), new Progress(true, 0, 0, what, List.of()));
      }
    };
  }

  private void run(BenchArticle a, Job job, List<String> names, DetectAsked asked, Path looks) {
    try {
      Path folder = folder(a);
      List<Path> files = names.stream().map(n -> FileNames.within(folder, n)).toList();
      PictureDetection.Progress told = told(a);
      List<Path> shown = files;
      DetectionResult r;
      if (asked.closeUps()) {
        List<CloseUp> shots = DetectAsked.shots(files, folder);
        shown = shots.stream().map(CloseUp::picture).toList();
        told.looking("measuring " + ShownNumbers.count(shots.size(), "close-up"));
        r = CloseUpDetection.measure(job, shots, asked.known(), asked.options());
      } else {
        r = PictureDetection.overview(job, files, asked.options(), told);
      }
      told.looking("keeping pictures for the page");
      if (asked.learns()) {
        TaughtFolder.write(r.learnt(), looks);
      }
      device(r, folder);
      kept(job, r, shown, folder, asked).write(folder);
      progress.put(a.id(), NONE);
    } catch (InputException e) {
      progress.put(a.id(), Progress.failed(JobFolder.sentences(e, a.folder().resolve(FOLDER))));
    } catch (Refusal e) {
      progress.put(a.id(), Progress.failed(List.of(e.sentence())));
    } catch (IOException | RuntimeException e) {
      String s = "The pictures could not be measured (" + e.getClass().getSimpleName() + ").";
      progress.put(a.id(), Progress.failed(List.of(s)));
    }
  }

  /** Keeps what turned pictures told about the device; what earlier ones told goes. */
  private static void device(DetectionResult r, Path folder) throws IOException {
    ReversalResult v = r.reversal().orElse(null);
    if (v == null || v.bend() == null) {
      Files.deleteIfExists(folder.resolve(DEVICE));
    } else {
      new CameraFile(null, v.bend()).write(folder.resolve(DEVICE));
    }
  }

  private static PictureReadings kept(
      Job job, DetectionResult r, List<Path> files, Path folder, DetectAsked asked)
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
    r.notes().stream().distinct().forEach(notes::add);
    if (asked.closeUps() && asked.known().placeUMm() == 0) {
      notes.add(
          "The camera's position over each close-up was taken as exact; its standard"
              + " uncertainty can be stated where the pictures are sent.");
    }
    return new PictureReadings(shots, readings, notes, ArticleCsv.remarks(r));
  }

  /** The copy of a picture that pages show. */
  static Path shown(Path folder, int index) {
    return folder.resolve("shown-" + (index + 1) + ".jpg");
  }

  private static String sentence(MapReport m) {
    String on =
        m.registeredOn() == RegisteredOn.PARTS
            ? "the parts themselves: panel shift and rotation cannot be known"
            : m.registeredOn().word();
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
