package org.padtrue.report.json;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.fitted.ScatterByType;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.TrimEffect;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.VarianceLine;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.file.OutputFolder;

/** Reads analysis.json. */
final class AnalysisJsonReader {
  static final String MEND = "give the analysis.json that 'analyse' wrote";

  private AnalysisJsonReader() {}

  static StoredAnalysis read(Path file) {
    String name = file.toString();
    return read(name, tree(file, name, MEND));
  }

  static StoredAnalysis read(String name, JsonNode tree) {
    JsonIn in = new JsonIn(name, "", tree);
    String schema = in.text("schema");
    if (!schema.equals(AnalysisJson.SCHEMA)) {
      throw new InputException(
          Problem.of(
              name,
              "the schema is '" + schema + "', expected '" + AnalysisJson.SCHEMA + "'",
              MEND));
    }
    List<GroupResult> groups = in.list("groups", AnalysisJsonReader::group);
    return new StoredAnalysis(
        name,
        AnalysisHash.of(tree),
        in.text("job"),
        in.texts("articles"),
        in.text("stage"),
        in.text("reference"),
        in.list("panels", AnalysisJsonReader::panel),
        common(in.objectOrNull("common")),
        rotationZero(in.objectOrNull("rotationZero")),
        groups,
        batchTrim(in.object("batchTrim")),
        StoredTurns.lines(in.listOrEmpty("trims", AnalysisJsonReader::trimLine), groups),
        in.list("varianceComponents", AnalysisJsonReader::variance),
        scatter(in.object("scatter")),
        in.list("placements", AnalysisJsonReader::placement),
        in.listOrEmpty("excluded", AnalysisJsonReader::excluded),
        in.has("notes") ? in.texts("notes") : List.of());
  }

  static JsonNode tree(Path file, String name, String mend) {
    try {
      JsonNode n = new ObjectMapper().readTree(Files.readAllBytes(file));
      if (n == null || n.isMissingNode()) {
        throw new InputException(Problem.of(name, "the file is empty", mend));
      }
      return n;
    } catch (JsonProcessingException e) {
      int line = e.getLocation() == null ? 0 : e.getLocation().getLineNr();
      String column = e.getLocation() == null ? "" : "" + e.getLocation().getColumnNr();
      throw new InputException(
          new Problem(
              name, line, column, "this is not JSON (" + e.getOriginalMessage() + ")", mend));
    } catch (IOException e) {
      throw new InputException(
          Problem.of(
              name,
              "the file cannot be read (" + OutputFolder.cause(e) + ")",
              "check its name and rights"));
    }
  }

  private static StoredAnalysis.Panel panel(JsonIn in) {
    JsonIn t = in.object("transform");
    return new StoredAnalysis.Panel(
        in.text("panel"),
        t.text("family"),
        transform(t),
        transform(in.object("standardErrors")),
        array(in.objectOrNull("array")),
        in.xyOrUnknown("centroid"),
        in.xyOrUnknown("shiftAtCentroid"),
        in.xyOrUnknown("shiftAtCentroidStandardErrors"));
  }

  private static TransformValues transform(JsonIn in) {
    return new TransformValues(
        in.number("shiftX"),
        in.number("shiftY"),
        in.number("rotation"),
        in.number("scaleXPpm"),
        in.number("scaleYPpm"),
        in.number("squarenessMrad"));
  }

  private static @Nullable ArrayError array(@Nullable JsonIn in) {
    if (in == null) {
      return null;
    }
    JsonIn se = in.object("standardErrors");
    return new ArrayError(
        in.xyOrUnknown("perColumn"),
        in.xyOrUnknown("perRow"),
        se.xyOrUnknown("perColumn"),
        se.xyOrUnknown("perRow"));
  }

  private static FirstArticleResult.@Nullable Common common(@Nullable JsonIn in) {
    return in == null
        ? null
        : new FirstArticleResult.Common(
            new Xy(in.number("x"), in.number("y")), in.xy("standardErrors"));
  }

  private static FirstArticleResult.@Nullable RotationZero rotationZero(@Nullable JsonIn in) {
    return in == null
        ? null
        : new FirstArticleResult.RotationZero(in.number("value"), in.number("standardError"));
  }

  private static Factor factor(String key) {
    return Factor.parse(key).orElseThrow(() -> new IllegalArgumentException("factor " + key));
  }

  private static GroupResult group(JsonIn in) {
    JsonIn t = in.object("trim");
    Xyr value = t.xyr();
    return new GroupResult(
        factor(in.text("factor")),
        in.text("level"),
        in.text("frame"),
        in.whole("count"),
        in.whole("rotations", 0),
        in.whole("zeroOrientation"),
        in.xyr("offset"),
        in.xyr("standardErrors"),
        in.xyrOrUnknown("degreesOfFreedom"),
        in.xyr("combined"),
        in.xyr("combinedStandardErrors"),
        in.xyr("leastSquares"),
        ownTransform(in.objectOrNull("ownTransform")),
        StoredTurns.trim(t, value, in.whole("zeroOrientation"), decision(t), t.text("reason")));
  }

  private static GroupResult.@Nullable OwnTransform ownTransform(@Nullable JsonIn in) {
    return in == null
        ? null
        : new GroupResult.OwnTransform(
            in.text("family"),
            transform(in.object("values")),
            transform(in.object("standardErrors")));
  }

  private static BatchTrim batchTrim(JsonIn in) {
    JsonIn s = in.object("scale");
    JsonIn a = in.object("array");
    return new BatchTrim(
        shift(in.object("shift")),
        angle(in.object("rotation")),
        new BatchTrim.Scale(
            s.number("xPpm"),
            s.number("yPpm"),
            s.number("squarenessMrad"),
            decision(s),
            s.text("reason")),
        new BatchTrim.ArrayTrim(
            a.list("boards", AnalysisJsonReader::origin), decision(a), a.text("reason")),
        shift(in.object("common")),
        angle(in.object("rotationZero")));
  }

  private static BatchTrim.BoardOrigin origin(JsonIn in) {
    return new BatchTrim.BoardOrigin(board(in), in.number("x"), in.number("y"));
  }

  private static BatchTrim.Shift shift(JsonIn in) {
    return new BatchTrim.Shift(
        new Xy(in.number("x"), in.number("y")), decision(in), in.text("reason"));
  }

  private static BatchTrim.Angle angle(JsonIn in) {
    return new BatchTrim.Angle(in.number("value"), decision(in), in.text("reason"));
  }

  private static Decision decision(JsonIn in) {
    String word = in.text("decision");
    for (Decision d : Decision.values()) {
      if (d.key().equals(word)) {
        return d;
      }
    }
    throw in.bad("'" + word + "' is no decision (trim, leave, cannotTell, notAccepted)");
  }

  private static TrimLine trimLine(JsonIn in) {
    double rotation = in.number("addRotation");
    // earlier versions wrote squareness where rotation stands
    boolean apart = in.has("addSquareness");
    boolean mrad = !apart && in.text("unit").endsWith("mrad");
    return new TrimLine(
        in.text("where"),
        in.text("kind"),
        in.text("from"),
        in.number("addX"),
        in.number("addY"),
        mrad ? Double.NaN : rotation,
        StoredTurns.turn(in, "addTurn", 0),
        mrad ? rotation : in.numberOrNaN("addSquareness"),
        in.text("unit"),
        in.text("frame"),
        in.text("about"),
        in.text("why"),
        new TrimEffect(
            new Xyr(
                in.numberOrNaN("standardErrorX"),
                in.numberOrNaN("standardErrorY"),
                in.numberOrNaN("standardErrorRotation")),
            in.numberOrNaN("standardErrorSquareness"),
            in.numberOrNaN("takesOut"),
            in.numberOrNaN("fewerOutside")));
  }

  private static VarianceLine variance(JsonIn in) {
    return new VarianceLine(
        in.text("source"), in.text("axis"), in.number("sd"), in.flag("removable", false));
  }

  private static Scatter scatter(JsonIn in) {
    return new Scatter(
        in.number("sdX"),
        in.number("sdY"),
        in.number("sdRotation"),
        in.numberOrNaN("residualSd"),
        in.numberOrNaN("residualSdRotation"),
        in.number("measuringSd"),
        in.number("degreesOfFreedom"),
        in.listOrEmpty("types", AnalysisJsonReader::scatterByType));
  }

  private static ScatterByType scatterByType(JsonIn in) {
    return new ScatterByType(
        in.text("part"),
        in.number("sdX"),
        in.number("sdY"),
        in.text("frame"),
        in.number("sdRotation"),
        in.number("residualSd"),
        in.number("residualSdRotation"),
        in.number("degreesOfFreedom"),
        in.number("rotationDegreesOfFreedom"));
  }

  private static PlacementResult placement(JsonIn in) {
    Xyr n = in.xyr("nominal");
    Xyr deviation = in.xyr("deviation");
    return new PlacementResult(
        in.text("panel"),
        board(in),
        in.text("ref"),
        in.text("part"),
        new Pose(n.x(), n.y(), n.rotation()),
        deviation,
        in.xyr("residual"),
        in.xyr("afterTrim"),
        in.number("margin"),
        in.number("marginAfterTrim"),
        in.number("probabilityOutside"),
        in.number("probabilityOutsideAfterTrim"),
        in.text("verdict"),
        in.flag("used", !Double.isNaN(deviation.x())));
  }

  private static BoardIndex board(JsonIn in) {
    return new BoardIndex(in.whole("column"), in.whole("row"));
  }

  private static Excluded excluded(JsonIn in) {
    return new Excluded(
        in.text("panel"),
        board(in),
        in.text("ref"),
        in.text("kind"),
        in.flag("fault", false),
        in.xyrOrUnknown("deviation"),
        in.text("sentence"));
  }
}
