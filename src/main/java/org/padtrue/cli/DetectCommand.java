package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.AsIsOption;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.door.Door;
import org.padtrue.imaging.CloseUp;
import org.padtrue.imaging.CloseUpDetection;
import org.padtrue.imaging.DetectionOptions;
import org.padtrue.imaging.DetectionResult;
import org.padtrue.imaging.PictureDetection;
import org.padtrue.imaging.camera.ReversalResult;
import org.padtrue.imaging.picture.OpenPicture;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.imaging.taught.TeachRequest;
import org.padtrue.imaging.taught.TeachText;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.article.PictureList;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.text.TextFile;
import org.padtrue.panel.Job;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.Question;
import org.padtrue.problem.QuestionException;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.report.file.ArticleCsv;
import org.padtrue.report.json.CameraFile;
import org.padtrue.report.json.TaughtFolder;
import org.padtrue.report.words.DetectionSummary;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** From pictures of a populated panel to an article. */
@Command(
    name = "detect",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Measures the placements of a job in top-down pictures and writes an article for "
          + "'analyse', with a standard uncertainty for every pose, and pictures that show what "
          + "was measured.",
      "The job needs part types with bodies or terminations, and fiducials (three and "
          + "more) or lands."
    },
    footer = {
      "",
      "Several pictures of one panel are joined; turned by 90 or 180 degrees on the same scanner"
          + " or",
      "under the same camera they also tell what the device itself bends.",
      "Look at the overlay before you trust the numbers.",
      "",
      "Examples:",
      "  padtrue detect job.json panel.png --out article.csv",
      "  padtrue detect job.json panel.jpg --camera camera.json --distance 400 --out article.csv",
      "  padtrue detect job.json scan0.png scan180.png --device-out scanner.json --out article.csv",
      "  padtrue detect job.json scan.png --camera scanner.json --distance far --out article.csv",
      "  padtrue detect job.json first.png second.png --panels --out articles.csv",
      "  padtrue detect job.json panel.png --teach L1 --taught looks --out article.csv",
      "  padtrue detect job.json next.png --taught looks --out article.csv",
      "  padtrue detect job.json R1.png 2_1_R7.png --close-ups --scale 40 --out article.csv",
      "  padtrue detect job.json shots.csv --close-ups --out article.csv",
      "  padtrue analyse job.json article.csv"
    })
final class DetectCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "JOB", description = "Job file (JSON).")
  @SuppressWarnings("NullAway.Init")
  private Path jobFile;

  @Parameters(
      index = "1..*",
      arity = "1..*",
      paramLabel = "IMAGE",
      description = "Pictures: JPEG, PNG, TIFF or BMP.")
  @SuppressWarnings("NullAway.Init")
  private List<Path> pictures;

  @Option(
      names = "--camera",
      paramLabel = "FILE",
      description = "Camera file of 'calibrate' or of --device-out.")
  private @Nullable Path camera;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FILE",
      description = "The article (CSV). Overlay and crops are put beside it.")
  @SuppressWarnings("NullAway.Init")
  private Path out;

  @Option(
      names = "--distance",
      paramLabel = "MM",
      description = {
        "From the board to the camera, mm, to take parallax out; 'far' for a view without "
            + "any.",
        "Not given: parallax goes into the uncertainty."
      })
  private @Nullable String distance;

  @Option(
      names = "--straight",
      description = {
        "Scanner or camera was checked against a grid and bends nothing.",
        "Not given: what an unchecked one may bend goes into the uncertainty."
      })
  private boolean straight;

  @Option(names = "--panels", description = "Every picture is a panel of its own: P1, P2 ...")
  private boolean panels;

  @Option(names = "--doubtful", description = "Give doubtful ones a position too, not only a note.")
  private boolean doubtful;

  @Option(
      names = "--device-out",
      paramLabel = "FILE",
      description = "Store what turned pictures told about the device, for --camera next time.")
  private @Nullable Path deviceOut;

  @Option(
      names = "--teach",
      paramLabel = "REF",
      description = {
        "Learn what a part type looks like from this placement, which you found to be well "
            + "placed;",
        "for shapes that no rectangle describes. Types with a taught look are measured by it.",
        "REF or COLUMN/ROW/REF; @LENGTHxWIDTH (mm) after it where the type has no body;",
        "=DX,DY,DROTATION,U where you measured how far off the sample stands (mm, degrees; U "
            + "its standard uncertainty). Not given: the type's own offset is not known. May be "
            + "repeated."
      })
  private List<String> teach = List.of();

  @Option(
      names = "--taught",
      paramLabel = "FOLDER",
      description = {
        "Folder of taught looks: measure their types by them; with --teach they are stored "
            + "here."
      })
  private @Nullable Path taught;

  @Option(
      names = "--close-ups",
      description = {
        "Every picture shows one placement, in its middle, from a camera at the nominal "
            + "position.",
        "File names say which: R7.png, or COLUMN_ROW_R7.png, or P2_COLUMN_ROW_R7.png;",
        "or give a CSV file instead of pictures: file,panel,column,row,ref, and x,y where "
            + "the camera was not over the nominal position."
      })
  private boolean closeUps;

  @Option(
      names = "--scale",
      paramLabel = "PX_PER_MM",
      description = {
        "Scale of close-ups at the board. Not given: by close-ups of fiducials (ref F1; from "
            + "two places, x,y in the CSV, is best), or by --camera with --distance."
      })
  private double scale = Double.NaN;

  @Option(
      names = "--turned",
      paramLabel = "DEG",
      description = {
        "Direction of the panel's x in close-ups, counter-clockwise.",
        "Not given: by a fiducial taken from two places, else 0."
      })
  private double turned = Double.NaN;

  @Option(
      names = "--axis-u",
      paramLabel = "MM",
      description = "Standard uncertainty of the camera's position over a close-up. Default: 0.")
  private double axisU;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private AsIsOption asIs;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    DetectionOptions options = options();
    LoadedJob loaded = JobLoader.loadWithFile(jobFile).orThrow().asIs(asIs.given);
    Job job = loaded.job();
    ArticleCsv.checkPlace(out);
    if (deviceOut != null) {
      CameraFile.checkPlace(deviceOut);
    }
    if (taught != null && !teach.isEmpty()) {
      TaughtFolder.checkPlace(taught);
    }
    List<CloseUp> shots = closeUps ? closeUps() : List.of();
    List<Path> shown = closeUps ? shots.stream().map(CloseUp::picture).toList() : pictures;
    ConsoleProgress progress = new ConsoleProgress(spec.commandLine().getErr(), quiet.given);
    DetectionResult r;
    CameraFile device;
    List<Path> written = new ArrayList<>();
    try (OpenPicture open = new OpenPicture()) {
      r =
          closeUps
              ? CloseUpDetection.measure(job, shots, known(), options)
              : overview(job, options, progress, open);
      device = device(r);
      door(loaded, r);
      PictureFiles files = PictureFiles.beside(out);
      written.addAll(closeUps ? files.writeJoint(job, r, shown) : files.write(job, r, shown, open));
    }
    if (device != null && deviceOut != null) {
      device.write(deviceOut);
      written.add(deviceOut);
    }
    if (taught != null && !teach.isEmpty()) {
      written.addAll(TaughtFolder.write(r.learnt(), taught));
    }
    ArticleCsv.write(r.rows(job, doubtful), remarks(loaded, r), out);
    written.add(0, out);
    if (!quiet.given) {
      PrintWriter to = spec.commandLine().getOut();
      DetectionSummary.of(r, closeUps && axisU == 0).forEach(to::println);
      to.println("Written");
      written.forEach(p -> to.println("  " + p));
    }
    return Main.DONE;
  }

  /** The same questions as 'analyse' would ask about the article, before it is written. */
  private void door(LoadedJob job, DetectionResult r) {
    Optional<Question> other = r.question(pictures.get(0).toString(), closeUps);
    if (other.isPresent() && !job.asIs().answers(other.get().key())) {
      throw new QuestionException(other.get());
    }
    String text = ArticleCsv.text(r.rows(job.job(), doubtful), remarks(job, r));
    Article article = ArticleLoader.load(TextFile.of(out.toString(), text), job).value();
    Door.require(job.job(), List.of(article), job.asIs());
  }

  private DetectionResult overview(
      Job job, DetectionOptions options, ConsoleProgress progress, OpenPicture open) {
    PictureDetection.Progress told =
        new PictureDetection.Progress() {
          @Override
          public void at(int done, int all) {
            progress.bar("measuring", done, all);
          }

          @Override
          public void looking(String what) {
            progress.finish();
            progress.stage(what);
          }
        };
    try {
      return PictureDetection.overview(job, pictures, options, told, open);
    } finally {
      progress.finish();
    }
  }

  private DetectionOptions options() {
    if (closeUps && scale <= 0) {
      throw wrong("--scale is " + scale + "; expected px per mm, more than 0");
    }
    if (!closeUps && !Double.isNaN(scale)) {
      throw wrong("--scale is for --close-ups; an overview finds its scale by the fiducials");
    }
    if (!(axisU >= 0) || Double.isInfinite(turned)) {
      throw wrong("--axis-u should be 0 or more, --turned an angle");
    }
    if (closeUps && (panels || straight || deviceOut != null)) {
      throw wrong("--panels, --straight and --device-out are for overviews, not for --close-ups");
    }
    DetectionOptions o = DetectionOptions.withDefaults().cameraDistance(distanceMm());
    if (camera != null) {
      CameraFile c = CameraFile.read(camera);
      o = c.lens() == null ? o : o.camera(c.lens());
      o = c.device() == null ? o : o.device(c.device());
    }
    o = straight ? o.straightDevice() : o;
    o = o.teach(samples()).taught(looks());
    return panels ? o.eachAPanel() : o;
  }

  private List<TeachRequest> samples() {
    return teach.stream()
        .map(
            t ->
                TeachText.read(t)
                    .orElseThrow(
                        () ->
                            wrong(
                                "--teach is '"
                                    + t
                                    + "'; expected REF, COLUMN/ROW/REF, REF@LENGTHxWIDTH or"
                                    + " REF=DX,DY,DROTATION,U")))
        .toList();
  }

  /** Looks given; a folder that is to be written first may be empty or not there yet. */
  private List<TaughtLook> looks() {
    if (taught == null) {
      return List.of();
    }
    return teach.isEmpty() || TaughtFolder.holdsSome(taught)
        ? TaughtFolder.read(taught)
        : List.of();
  }

  private double distanceMm() {
    if (distance == null) {
      return Double.NaN;
    }
    if (distance.strip().toLowerCase(Locale.ROOT).equals("far")) {
      return Double.POSITIVE_INFINITY;
    }
    try {
      double d = Double.parseDouble(distance.strip());
      if (d > 0 && Double.isFinite(d)) {
        return d;
      }
    } catch (NumberFormatException e) {
      // said below
    }
    throw wrong("--distance is '" + distance + "'; expected mm, more than 0, or 'far'");
  }

  private List<CloseUp> closeUps() {
    String first = pictures.get(0).toString().toLowerCase(Locale.ROOT);
    if (pictures.size() > 1 || !first.matches(".*\\.(csv|tsv|txt)")) {
      return CloseUp.named(pictures);
    }
    return PictureList.load(pictures.get(0)).orThrow().stream()
        .map(e -> new CloseUp(e.file(), e.panel(), e.column(), e.row(), e.ref(), e.xMm(), e.yMm()))
        .toList();
  }

  private CloseUpDetection.Known known() {
    return new CloseUpDetection.Known(scale, turned, axisU);
  }

  /**
   * What turned pictures told of the device, where that is asked for; before anything is written.
   */
  private @Nullable CameraFile device(DetectionResult r) {
    if (deviceOut == null) {
      return null;
    }
    ReversalResult v = r.reversal().orElse(null);
    if (v == null || v.bend() == null) {
      throw new InputException(
          Problem.of(
              pictures.get(0).toString(),
              "--device-out needs pictures of one panel turned by 90 or 180 degrees",
              "give at least two, or leave --device-out away"));
    }
    return new CameraFile(null, v.bend());
  }

  private static List<String> remarks(LoadedJob job, DetectionResult r) {
    List<String> remarks = new ArrayList<>(ArticleCsv.remarks(r));
    LengthUnit unit = job.placements().options().unit();
    if (unit != null && unit != LengthUnit.MM) {
      remarks.add("unit: mm");
    }
    return remarks;
  }

  private CommandLine.ParameterException wrong(String what) {
    return new CommandLine.ParameterException(spec.commandLine(), what);
  }
}
