package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.imaging.camera.CameraCalibration;
import org.padtrue.report.json.CameraFile;
import org.padtrue.report.words.CameraWords;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The lens of a camera, from pictures of a grid. */
@Command(
    name = "calibrate",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Finds a camera's lens model from pictures of a chessboard or a grid of circles.",
      "Take ten or more, the grid tilted this way and that, all with one focus and zoom; "
          + "then leave the camera as it is."
    },
    footer = {
      "",
      "Examples:",
      "  padtrue calibrate grid1.jpg grid2.jpg grid3.jpg --grid 9x6 --pitch 5 --out camera.json",
      "  padtrue detect job.json panel.jpg --camera camera.json --out article.csv"
    })
final class CalibrateCommand implements Callable<Integer> {
  private static final Pattern GRID = Pattern.compile("(\\d{1,3})\\s*[xX*]\\s*(\\d{1,3})");

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(arity = "1..*", paramLabel = "IMAGE", description = "Pictures of the grid.")
  @SuppressWarnings("NullAway.Init")
  private List<Path> pictures;

  @Option(
      names = "--grid",
      required = true,
      paramLabel = "CxR",
      description = "Inner corners (or circles) in a row x rows: 9x6.")
  @SuppressWarnings("NullAway.Init")
  private String grid;

  @Option(
      names = "--pitch",
      required = true,
      paramLabel = "MM",
      description = "From corner to corner, mm.")
  private double pitch;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FILE",
      description = "The camera file to write.")
  @SuppressWarnings("NullAway.Init")
  private Path out;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    Matcher m = GRID.matcher(grid.strip());
    if (!m.matches() || Integer.parseInt(m.group(1)) < 3 || Integer.parseInt(m.group(2)) < 3) {
      throw wrong("--grid is '" + grid + "'; expected COLUMNSxROWS of 3 and more, such as 9x6");
    }
    if (!(pitch > 0) || Double.isInfinite(pitch)) {
      throw wrong("--pitch is " + pitch + "; expected a length in mm, more than 0");
    }
    CameraFile.checkPlace(out);
    CameraCalibration.Result r =
        CameraCalibration.calibrate(
            pictures, Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2)), pitch);
    CameraFile.write(r, out);
    if (!quiet.given) {
      PrintWriter to = spec.commandLine().getOut();
      CameraWords.lines(r).forEach(to::println);
      to.println("Written     " + out);
    }
    return Main.DONE;
  }

  private CommandLine.ParameterException wrong(String what) {
    return new CommandLine.ParameterException(spec.commandLine(), what);
  }
}
