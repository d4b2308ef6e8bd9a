package org.padtrue.report.json;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.camera.CameraCalibration;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.map.DeviceBend;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.file.OneFile;
import org.padtrue.report.file.OutputFolder;

/**
 * The camera file: the lens that {@code calibrate} found, the bend that turned pictures told about
 * a scanner or camera, or both.
 *
 * <pre>
 * {"schema": "padtrue/camera/1",
 *  "lens": {"width": 640, "height": 480, "fx": 535.9, "fy": 535.9, "cx": 342.3, "cy": 235.6,
 *           "k1": -0.27, "k2": -0.04, "p1": 0, "p2": 0, "k3": 0.24, "k4": 0, "k5": 0, "k6": 0},
 *  "device": {"scaleMm": 60, "pxPerMm": 20, "originX": 0, "originY": 0,
 *             "x": [9 numbers], "y": [9 numbers]},
 *  "rmsPx": 0.2}
 * </pre>
 *
 * <p>fx to cy are px; k1 to k6, p1, p2 are the rational radial and the tangential coefficients of
 * the usual pinhole model. device: mm, order of terms x, y, xx, xy, yy, xxx, xxy, xyy, yyy.
 *
 * @param lens or null
 * @param device or null
 */
public record CameraFile(@Nullable CameraModel lens, @Nullable DeviceBend device) {
  private static final String SCHEMA = "padtrue/camera/1";
  private static final String MEND = "calibrate again, or use the file as it was written";

  /** Complains where a camera file could not be written; nothing is left behind. */
  public static void checkPlace(Path to) {
    OneFile.checkPlace(to);
  }

  /** Writes what a calibration found. */
  public static void write(CameraCalibration.Result r, Path to) {
    OneFile.write(
        to,
        stream -> {
          try (JsonOut out = new JsonOut(stream)) {
            out.begin().text("schema", SCHEMA);
            lens(out, r.model());
            out.nothing("device").number("rmsPx", r.rmsPx()).number("pitchMm", r.pitchMm());
            out.list(
                "pictures",
                r.views(),
                (o, v) ->
                    o.text("picture", String.valueOf(Path.of(v.picture()).getFileName()))
                        .flag("found", v.found())
                        .number("rmsPx", v.rmsPx()));
            out.end();
          }
        });
  }

  /** Writes lens and device. */
  public void write(Path to) {
    OneFile.write(
        to,
        stream -> {
          try (JsonOut out = new JsonOut(stream)) {
            out.begin().text("schema", SCHEMA);
            lens(out, lens);
            device(out, device);
            out.end();
          }
        });
  }

  private static void lens(JsonOut out, @Nullable CameraModel m) throws IOException {
    if (m == null) {
      out.nothing("lens");
      return;
    }
    out.begin("lens").whole("width", m.width()).whole("height", m.height());
    out.number("fx", m.fxPx()).number("fy", m.fyPx()).number("cx", m.cxPx()).number("cy", m.cyPx());
    out.number("k1", m.k1()).number("k2", m.k2()).number("p1", m.p1()).number("p2", m.p2());
    out.number("k3", m.k3()).number("k4", m.k4()).number("k5", m.k5()).number("k6", m.k6()).end();
  }

  private static void device(JsonOut out, @Nullable DeviceBend d) throws IOException {
    if (d == null) {
      out.nothing("device");
      return;
    }
    out.begin("device").number("scaleMm", d.scaleMm()).number("pxPerMm", d.pxPerMm());
    out.number("originX", d.originXMm()).number("originY", d.originYMm());
    out.numbers("x", d.cx()).numbers("y", d.cy()).end();
  }

  /**
   * Reads a camera file.
   *
   * @throws InputException when it is no camera file, with what is wrong
   */
  public static CameraFile read(Path file) {
    JsonIn in = new JsonIn(file.toString(), "", tree(file), MEND);
    String schema = in.text("schema");
    if (!schema.equals(SCHEMA)) {
      throw new InputException(
          Problem.of(
              file.toString(),
              "the schema is '" + schema + "', expected '" + SCHEMA + "'",
              "give the camera.json that 'calibrate' wrote"));
    }
    JsonIn lens = in.objectOrNull("lens");
    JsonIn device = in.objectOrNull("device");
    if (lens == null && device == null) {
      throw in.bad("it holds neither a lens nor a device");
    }
    return new CameraFile(lens == null ? null : lens(lens), device == null ? null : device(device));
  }

  private static CameraModel lens(JsonIn l) {
    List<Double> v = new ArrayList<>();
    for (String k : List.of("fx", "fy", "cx", "cy", "k1", "k2", "p1", "p2")) {
      v.add(finite(l, k));
    }
    for (String k : List.of("k3", "k4", "k5", "k6")) {
      v.add(l.has(k) ? finite(l, k) : 0);
    }
    return new CameraModel(
        l.whole("width"),
        l.whole("height"),
        v.get(0),
        v.get(1),
        v.get(2),
        v.get(3),
        v.get(4),
        v.get(5),
        v.get(6),
        v.get(7),
        v.get(8),
        v.get(9),
        v.get(10),
        v.get(11));
  }

  private static DeviceBend device(JsonIn d) {
    double[] x = d.numbers("x");
    double[] y = d.numbers("y");
    if (x.length != 9 || y.length != 9 || Arrays.stream(x).anyMatch(Double::isNaN)) {
      throw d.bad("'device.x' and 'device.y' should be lists of 9 numbers");
    }
    return new DeviceBend(
        x,
        y,
        finite(d, "scaleMm"),
        finite(d, "pxPerMm"),
        finite(d, "originX"),
        finite(d, "originY"));
  }

  private static double finite(JsonIn in, String key) {
    double v = in.number(key);
    if (Double.isNaN(v)) {
      throw in.bad("'" + key + "' should be a number, found null");
    }
    return v;
  }

  private static JsonNode tree(Path file) {
    String name = file.toString();
    try {
      return new ObjectMapper().readTree(Files.readAllBytes(file));
    } catch (JsonProcessingException e) {
      throw new InputException(
          Problem.of(name, "this is no JSON: " + e.getOriginalMessage(), "give a camera.json"));
    } catch (IOException e) {
      throw new InputException(
          Problem.of(
              name,
              "the file cannot be read (" + OutputFolder.cause(e) + ")",
              "give the camera.json that 'calibrate' wrote"));
    }
  }
}
