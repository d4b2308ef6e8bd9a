package org.padtrue.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.result.Acceptance;
import org.padtrue.firstarticle.result.Alias;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.BudgetLine;
import org.padtrue.firstarticle.result.ClearanceResult;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.Expected;
import org.padtrue.firstarticle.result.FamilyLine;
import org.padtrue.firstarticle.result.FamilyTest;
import org.padtrue.firstarticle.result.FiducialFit;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.firstarticle.result.Quadrant;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.TypeIndex;
import org.padtrue.firstarticle.result.VarianceLine;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.land.clearance.PairSpread;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Measurement;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Side;
import org.padtrue.panel.Stage;
import org.padtrue.panel.Tolerance;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.Unplaced;
import org.padtrue.quantity.Angles;

/**
 * Invented results that look like an analysis: what is planted is taken as estimated, so that every
 * table and chart can be built without the engine. Seeded: the same arguments give the same result.
 */
public final class SampleResults {
  private static final double SCATTER_MM = 0.016;
  private static final double SCATTER_DEG = 0.25;
  private static final double SHIFT_X = 0.042;
  private static final double SHIFT_Y = -0.018;
  private static final double ROTATION_DEG = 0.02;
  private static final double SCALE_X_PPM = 310;
  private static final double SCALE_Y_PPM = 260;
  private static final double BOARD_WIDTH = 44;
  private static final double BOARD_HEIGHT = 38;

  private static final List<String> TYPES =
      List.of(
          "R0402", "R0603", "C0402", "C0603", "C1206", "SOT23", "SOIC8", "LED1206", "QFP44",
          "CONN-8");
  private static final Map<String, Xyr> TYPE_OFFSETS =
      Map.of(
          "R0603", new Xyr(-0.035, 0.006, 0),
          "SOIC8", new Xyr(0.021, 0.048, 0),
          "LED1206", new Xyr(0.012, -0.009, 0.6));
  private static final List<String> NOZZLES = List.of("N1", "N2", "N3", "N4");
  private static final Xyr NOZZLE_2 = new Xyr(0.0, 0.024, 0);

  private final Random random;
  private final int total;
  private final boolean nothingToDo;
  private final List<String> panelNames;

  private SampleResults(int total, long seed, boolean nothingToDo, List<String> panelNames) {
    this.total = total;
    this.random = new Random(seed);
    this.nothingToDo = nothingToDo;
    this.panelNames = panelNames;
  }

  /** A result with about this many placements on one panel; 3 x 2 boards from 60 placements on. */
  public static FirstArticleResult of(int placements) {
    return new SampleResults(placements, 20260105L, false, List.of("P1")).build();
  }

  /** The same placements on several panels. */
  public static FirstArticleResult ofPanels(int placements, String... panels) {
    return new SampleResults(placements, 20260105L, false, List.of(panels)).build();
  }

  /** A result whose answer is to leave everything alone. */
  public static FirstArticleResult nothingToDo(int placements) {
    return new SampleResults(placements, 20260106L, true, List.of("P1")).build();
  }

  private FirstArticleResult build() {
    BoardArray array = total >= 60 ? sixBoards() : BoardArray.single();
    Job job = job(array);
    List<Excluded> excluded = new ArrayList<>();
    List<String> missing = new ArrayList<>();
    List<PlacementResult> placements = placements(job, excluded, missing);
    int measured = (int) placements.stream().filter(p -> !Double.isNaN(p.deviation().x())).count();
    int used = (int) placements.stream().filter(PlacementResult::used).count();
    return new FirstArticleResult(
        job,
        panelNames.stream().map(p -> "first-article-" + p + ".csv").toList(),
        AnalysisOptions.withDefaults(),
        new FirstArticleResult.Counts(
            placements.size(), measured, used, excluded.size(), missing.size()),
        panels(job),
        new FirstArticleResult.Common(new Xy(0.0031, -0.0012), new Xy(0.0021, 0.0020)),
        new FirstArticleResult.RotationZero(0.031, 0.018),
        groups(placements),
        batchTrim(array),
        nothingToDo ? List.of() : trimLines(array),
        tests(),
        variances(),
        budget(),
        new Scatter(0.0155, 0.0163, 0.22, 0.0178, 0.25, 0.008, 2.0 * used - 18),
        nothingToDo
            ? new Prediction(0.0228, 0.0227, 0.0227, 0.0225)
            : new Prediction(0.0632, 0.0629, 0.0243, 0.0225),
        quadrants(),
        List.of(
            new Alias(
                List.of("part CONN-8 x", "nozzle N4 x"),
                "nozzle N4 places only CONN-8, so this article cannot tell whose offset it is;"
                    + " place one CONN-8 with another nozzle")),
        excluded,
        placements,
        missing,
        acceptance(placements),
        clearances(),
        List.of(),
        List.of(
            "The column 'Value' of the placement file was not needed.",
            "Board 2/2 was derived from the tiling of three listed boards."));
  }

  private static BoardArray sixBoards() {
    List<Board> boards = new ArrayList<>();
    for (int row = 1; row <= 2; row++) {
      for (int column = 1; column <= 3; column++) {
        boolean listed = (column == 1) || (column == 3 && row == 2);
        boards.add(
            new Board(
                new BoardIndex(column, row),
                new Pose((column - 1) * 48.0, (row - 1) * 42.0, 0),
                listed));
      }
    }
    return new BoardArray(3, 2, boards, Set.of(), 0.004);
  }

  private Job job(BoardArray array) {
    int perBoard = Math.max(1, total / array.boards().size());
    int columns = (int) Math.ceil(Math.sqrt(perBoard * BOARD_WIDTH / BOARD_HEIGHT));
    int rows = (int) Math.ceil(perBoard / (double) columns);
    double pitchX = (BOARD_WIDTH - 6) / Math.max(1, columns - 1);
    double pitchY = (BOARD_HEIGHT - 6) / Math.max(1, rows - 1);
    List<Placement> list = new ArrayList<>();
    Map<String, Integer> counters = new TreeMap<>();
    for (int i = 0; i < perBoard; i++) {
      String type = TYPES.get(Math.min(TYPES.size() - 1, (int) (Math.abs(gauss()) * 4.2)));
      String prefix = type.startsWith("CONN") ? "J" : type.startsWith("LED") ? "D" : prefix(type);
      int number = counters.merge(prefix, 1, Integer::sum);
      double x = 3 + (i % columns) * pitchX + 0.25 * pitchX * (random.nextDouble() - 0.5);
      double y = 3 + (i / columns) * pitchY + 0.25 * pitchY * (random.nextDouble() - 0.5);
      double rotation = Angles.wrap(90.0 * random.nextInt(4));
      String nozzle = type.startsWith("CONN") ? "N4" : NOZZLES.get(random.nextInt(3));
      list.add(
          new Placement(
              prefix + number,
              type,
              new Pose(x, y, rotation),
              Levels.NONE.with(Factor.NOZZLE, nozzle),
              i + 1,
              i + 2));
    }
    return new Job(
        "demo-controller",
        Side.TOP,
        Stage.PASTE,
        list,
        List.of(
            new Unplaced("TP1", "TESTPOINT", Unplaced.Reason.NOT_FITTED, 91, null),
            new Unplaced("H1", "HOLE", Unplaced.Reason.PARKED, 92, null)),
        partTypes(),
        array,
        List.of(
            new Fiducial("F1", -4, 3, 1, Fiducial.Scope.PANEL),
            new Fiducial("F2", array.columns() * 48.0, 3, 1, Fiducial.Scope.PANEL),
            new Fiducial("F3", -4, array.rows() * 42.0 - 4, 1, Fiducial.Scope.PANEL)),
        2,
        new Machine(0.001, 0.01, 0.008, 0.008, 0.005, Set.of(TrimKind.values())),
        new Measurement(Reference.FIDUCIALS, 0.008, 0.1, 0.003),
        List.of("Angles were read counter-clockwise."));
  }

  private static String prefix(String type) {
    char c = type.charAt(0);
    return c == 'R' || c == 'C' ? String.valueOf(c) : type.startsWith("SOT") ? "Q" : "U";
  }

  private static Map<String, PartType> partTypes() {
    Map<String, PartType> types = new LinkedHashMap<>();
    for (String name : TYPES) {
      // CONN-8 has neither geometry nor tolerance: it is not judged
      Tolerance t =
          switch (name) {
            case "R0402", "C0402" -> new Tolerance(0.12, 0.12, 5);
            case "QFP44" -> new Tolerance(0.11, 0.11, 1);
            case "CONN-8" -> null;
            default -> new Tolerance(0.2, 0.2, 5);
          };
      JointKind kind =
          name.startsWith("SO") || name.startsWith("QFP") ? JointKind.GULL_WING : JointKind.CHIP;
      types.put(
          name,
          new PartType(
              name,
              kind,
              kind == JointKind.CHIP ? 2 : 1,
              kind == JointKind.CHIP,
              new Rect(0, 0, 1.6, 0.8),
              0.5,
              List.of(),
              List.of(),
              null,
              t));
    }
    return types;
  }

  private List<PlacementResult> placements(Job job, List<Excluded> excluded, List<String> missing) {
    List<PlacementResult> list = new ArrayList<>();
    for (String panel : panelNames) {
      int count = 0;
      for (Board board : job.array().boards()) {
        for (Placement p : job.placements()) {
          list.add(placement(job, panel, board, p, count++, excluded, missing));
        }
      }
    }
    return list;
  }

  private PlacementResult placement(
      Job job,
      String panel,
      Board board,
      Placement p,
      int count,
      List<Excluded> excluded,
      List<String> missing) {
    Pose nominal = p.pose().seenFrom(board.origin());
    Tolerance tolerance = job.partType(p.part()).tolerance();
    if (count % 97 == 11) {
      missing.add(board.index() + "/" + p.ref());
      return result(
          panel,
          board,
          p,
          nominal,
          Xyr.UNKNOWN,
          Xyr.UNKNOWN,
          Xyr.UNKNOWN,
          tolerance,
          "notMeasured",
          false);
    }
    Xyr residual =
        new Xyr(gauss() * SCATTER_MM, gauss() * SCATTER_MM, rotationUnknown(count) * gauss());
    Xyr systematic = nothingToDo ? Xyr.ZERO : systematic(nominal, p);
    Xyr deviation = plus(systematic, residual);
    Xyr after = new Xyr(residual.x() + 0.0004, residual.y() - 0.0003, residual.rotation() + 0.003);
    if (count == 5 || count == 13 || (count % 89 == 60 && excluded.size() < 4)) {
      return gross(panel, board, p, nominal, deviation, excluded, tolerance);
    }
    String verdict =
        tolerance == null
            ? "notJudged"
            : margin(deviation, nominal, tolerance) < 0 ? "outside" : "within";
    return result(panel, board, p, nominal, deviation, residual, after, tolerance, verdict, true);
  }

  private static double rotationUnknown(int count) {
    return count % 53 == 7 ? Double.NaN : SCATTER_DEG;
  }

  private static PlacementResult gross(
      String panel,
      Board board,
      Placement p,
      Pose nominal,
      Xyr seen,
      List<Excluded> excluded,
      Tolerance tolerance) {
    int k = excluded.size();
    Xyr d =
        k % 2 == 0
            ? new Xyr(seen.x(), seen.y(), 90 + seen.rotation())
            : new Xyr(1.5 + seen.x(), seen.y(), seen.rotation());
    excluded.add(
        new Excluded(
            panel,
            board.index(),
            p.ref(),
            k % 2 == 0 ? "quarterTurn" : "transposedDigits",
            k % 2 == 0,
            d,
            k % 2 == 0
                ? "is turned by 90 degrees against its nominal rotation"
                : "x looks like two digits changed places (12.34 for 13.24)"));
    return result(
        panel,
        board,
        p,
        nominal,
        d,
        d,
        d,
        tolerance,
        k % 2 == 0 ? "outside" : "notMeasured",
        false);
  }

  private static Xyr systematic(Pose n, Placement p) {
    double phi = Math.toRadians(ROTATION_DEG);
    double c = Angles.cosDeg(n.rotationDeg());
    double s = Angles.sinDeg(n.rotationDeg());
    Xyr t = TYPE_OFFSETS.getOrDefault(p.part(), Xyr.ZERO);
    Xyr z = "N2".equals(p.levels().get(Factor.NOZZLE)) ? NOZZLE_2 : Xyr.ZERO;
    double px = t.x() + z.x();
    double py = t.y() + z.y();
    return new Xyr(
        SHIFT_X + SCALE_X_PPM * 1e-6 * n.xMm() - phi * n.yMm() + c * px - s * py,
        SHIFT_Y + SCALE_Y_PPM * 1e-6 * n.yMm() + phi * n.xMm() + s * px + c * py,
        ROTATION_DEG + t.rotation());
  }

  private static PlacementResult result(
      String panel,
      Board board,
      Placement p,
      Pose nominal,
      Xyr deviation,
      Xyr residual,
      Xyr after,
      Tolerance tolerance,
      String verdict,
      boolean used) {
    boolean judged = tolerance != null && !Double.isNaN(deviation.x());
    return new PlacementResult(
        panel,
        board.index(),
        p.ref(),
        p.part(),
        nominal,
        deviation,
        residual,
        after,
        judged ? margin(deviation, nominal, tolerance) : Double.NaN,
        judged ? margin(after, nominal, tolerance) : Double.NaN,
        judged ? outside(deviation, residual, nominal, tolerance) : Double.NaN,
        judged ? outside(after, residual, nominal, tolerance) : Double.NaN,
        verdict,
        used);
  }

  private static double margin(Xyr d, Pose n, Tolerance t) {
    double c = Angles.cosDeg(n.rotationDeg());
    double s = Angles.sinDeg(n.rotationDeg());
    double x = c * d.x() + s * d.y();
    double y = -s * d.x() + c * d.y();
    return Math.min(t.xMm() - Math.abs(x), t.yMm() - Math.abs(y));
  }

  private static double outside(Xyr d, Xyr residual, Pose n, Tolerance t) {
    // the systematic part stays, the residual is drawn anew: a rough normal tail
    Xyr mean = new Xyr(d.x() - residual.x(), d.y() - residual.y(), 0);
    double z = margin(mean, n, t) / SCATTER_MM;
    return Math.min(1, Math.exp(-0.717 * z - 0.416 * z * z));
  }

  private List<PanelResult> panels(Job job) {
    List<PanelResult> list = new ArrayList<>();
    double k = nothingToDo ? 0.02 : 1;
    for (String panel : panelNames) {
      double walk = 0.004 * gauss();
      list.add(
          new PanelResult(
              panel,
              "first-article-" + panel + ".csv",
              "affine",
              new TransformValues(
                  k * SHIFT_X + walk,
                  k * SHIFT_Y - walk,
                  k * ROTATION_DEG,
                  k * SCALE_X_PPM,
                  k * SCALE_Y_PPM,
                  k * 0.041),
              new TransformValues(0.0024, 0.0025, 0.0021, 24, 31, 0.037),
              job.array().boards().size() > 1
                  ? new ArrayError(
                      new Xy(0.006, -0.001),
                      new Xy(0.002, 0.003),
                      new Xy(0.002, 0.002),
                      new Xy(0.003, 0.003))
                  : null,
              families(),
              new Xy(68.2, 40.1),
              new Xy(k * 0.049, k * 0.016),
              new Xy(0.0011, 0.0011),
              fiducials()));
    }
    return list;
  }

  private static List<FamilyLine> families() {
    double nan = Double.NaN;
    return List.of(
        new FamilyLine("shift", false, 2, 0.4127, -2012.4, nan, nan, false),
        new FamilyLine("rigid", false, 3, 0.2936, -2176.1, 171.2, 1.2e-28, false),
        new FamilyLine("similarity", false, 4, 0.2211, -2331.9, 138.2, 7.5e-25, false),
        new FamilyLine("affine", false, 6, 0.2162, -2337.2, 4.71, 0.0095, true),
        new FamilyLine("affine", true, 10, 0.2139, -2334.0, 1.12, 0.3461, false));
  }

  private static FiducialFit fiducials() {
    return new FiducialFit(
        3,
        new TransformValues(0.002, -0.001, 0.001, 20, -15, 0.01),
        List.of(
            new FiducialFit.Line("F1", new Xy(0.003, -0.001), new Xy(0.001, 0.0005), false),
            new FiducialFit.Line("F2", new Xy(0.001, 0.002), new Xy(-0.001, -0.0005), false),
            new FiducialFit.Line("F3", new Xy(0.045, 0.001), new Xy(0.041, 0.0002), true)),
        "The fiducials' own fit differs from the parts' fit by 40 um in x: the parts were placed"
            + " off, the panel was registered well.");
  }

  private List<GroupResult> groups(List<PlacementResult> placements) {
    Map<String, Integer> counts = new TreeMap<>();
    placements.stream()
        .filter(PlacementResult::used)
        .forEach(p -> counts.merge(p.part(), 1, Integer::sum));
    List<GroupResult> groups = new ArrayList<>();
    counts.forEach((type, n) -> groups.add(group(Factor.PART, type, n, typeOffset(type))));
    for (String nozzle : NOZZLES) {
      Xyr offset = nozzle.equals("N2") && !nothingToDo ? NOZZLE_2 : new Xyr(0.001, -0.002, 0.01);
      groups.add(group(Factor.NOZZLE, nozzle, Math.max(1, total / 4), offset));
    }
    return groups;
  }

  private Xyr typeOffset(String type) {
    Xyr small = new Xyr(0.0015 * gauss(), 0.0015 * gauss(), 0.02 * gauss());
    return nothingToDo ? small : plus(TYPE_OFFSETS.getOrDefault(type, Xyr.ZERO), small);
  }

  private GroupResult group(Factor factor, String level, int count, Xyr offset) {
    double se = SCATTER_MM / Math.sqrt(count + 2.0);
    Xyr errors = new Xyr(se, se, SCATTER_DEG / Math.sqrt(count + 2.0));
    double grow = 1 + 1.0 / count;
    boolean planted = Math.hypot(offset.x(), offset.y()) > 0.01;
    Decision decision =
        nothingToDo
            ? Decision.LEAVE
            : level.equals("LED1206")
                ? Decision.NOT_ACCEPTED
                : level.equals("CONN-8") || level.equals("N4")
                    ? Decision.CANNOT_TELL
                    : planted ? Decision.TRIM : Decision.LEAVE;
    boolean trim = decision == Decision.TRIM;
    return new GroupResult(
        factor,
        level,
        "part",
        count,
        Math.min(4, count),
        level.equals("SOT23") ? 180 : 0,
        offset,
        errors,
        new Xyr(9.3, 8.7, 12.1),
        plus(offset, factor == Factor.PART ? new Xyr(0.0031, -0.0012, 0) : Xyr.ZERO),
        errors,
        new Xyr(offset.x() * grow, offset.y() * grow, offset.rotation() * grow),
        count > 5
            ? new GroupResult.OwnTransform(
                "rigid",
                new TransformValues(0.04, -0.02, 0.018, 0, 0, 0),
                new TransformValues(0.004, 0.004, 0.004, 0, 0, 0))
            : null,
        new TrimValue(
            trim ? new Xyr(0.0 - round(offset.x()), 0.0 - round(offset.y()), 0) : Xyr.ZERO,
            decision,
            reason(decision)));
  }

  private static String reason(Decision d) {
    return switch (d) {
      case TRIM -> "its offset is clear of the scatter and the next panel gains from it";
      case LEAVE -> "smaller than the dead band of 6 um";
      case CANNOT_TELL -> "nozzle N4 places only CONN-8: one of the two, the article cannot tell";
      case NOT_ACCEPTED -> "the machine takes no rotation per part type: use corrected coordinates";
    };
  }

  private BatchTrim batchTrim(BoardArray array) {
    if (nothingToDo) {
      String why = "not beyond chance at 5 % over all families";
      return new BatchTrim(
          new BatchTrim.Shift(Xy.ZERO, Decision.LEAVE, why),
          new BatchTrim.Angle(0, Decision.LEAVE, why),
          new BatchTrim.Scale(0, 0, 0, Decision.LEAVE, why),
          new BatchTrim.ArrayTrim(List.of(), Decision.LEAVE, why),
          new BatchTrim.Shift(Xy.ZERO, Decision.LEAVE, why),
          new BatchTrim.Angle(0, Decision.LEAVE, why));
    }
    List<BatchTrim.BoardOrigin> origins = new ArrayList<>();
    if (array.boards().size() > 1) {
      for (Board b : array.boards()) {
        if (b.listed()) {
          origins.add(
              new BatchTrim.BoardOrigin(
                  b.index(), b.origin().xMm() - 0.006, b.origin().yMm() - 0.003));
        }
      }
    }
    return new BatchTrim(
        new BatchTrim.Shift(
            new Xy(-0.042, 0.018), Decision.TRIM, "62 um at the centroid, 20 standard errors"),
        new BatchTrim.Angle(-0.02, Decision.TRIM, "seen with 0.002 degrees uncertainty"),
        new BatchTrim.Scale(
            0, 0, 0, Decision.CANNOT_TELL, "board stretch and axis scale give the same number"),
        new BatchTrim.ArrayTrim(
            origins,
            Decision.NOT_ACCEPTED,
            "the machine takes no array correction: new board coordinates instead"),
        new BatchTrim.Shift(Xy.ZERO, Decision.LEAVE, "3 um, within the dead band of 6 um"),
        new BatchTrim.Angle(0, Decision.LEAVE, "0.03 degrees gains nothing"));
  }

  private static List<TrimLine> trimLines(BoardArray array) {
    double nan = Double.NaN;
    List<TrimLine> list = new ArrayList<>();
    list.add(
        new TrimLine(
            "registration",
            "registration",
            "",
            -0.042,
            0.018,
            nan,
            "mm, mm, deg",
            "panel",
            "",
            "the whole panel sits 46 um off, 20 times its uncertainty"));
    list.add(
        new TrimLine(
            "panel rotation",
            "rotation",
            "",
            nan,
            nan,
            -0.02,
            "mm, mm, deg",
            "panel",
            "panel origin (0, 0)",
            "seen with 0.002 degrees uncertainty"));
    list.add(
        new TrimLine(
            "part type R0603",
            "part",
            "",
            0.035,
            -0.006,
            nan,
            "mm, mm, deg",
            "part",
            "",
            "its offset is clear of the scatter and the next panel gains from it"));
    list.add(
        new TrimLine(
            "part type SOIC8",
            "part",
            "",
            -0.021,
            -0.048,
            nan,
            "mm, mm, deg",
            "part",
            "",
            "its offset is clear of the scatter and the next panel gains from it"));
    list.add(
        new TrimLine(
            "nozzle N2",
            "nozzle",
            "",
            0,
            -0.024,
            nan,
            "mm, mm, deg",
            "part",
            "",
            "every part type that N2 places shows it"));
    list.add(
        new TrimLine(
            "scale of the axes",
            "scale",
            "",
            -310,
            -260,
            nan,
            "ppm, ppm",
            "panel",
            "panel origin (0, 0)",
            "x and y are longer than nominal, beyond chance"));
    if (array.boards().size() > 1) {
      list.add(
          new TrimLine(
              "board 3/2 origin",
              "coordinates",
              "(96, 42)",
              -0.012,
              -0.003,
              nan,
              "mm, mm, deg",
              "panel",
              "",
              "the machine takes no array correction: enter new coordinates"));
    }
    return list;
  }

  private List<FamilyTest> tests() {
    if (nothingToDo) {
      return List.of(
          new FamilyTest("shift", 1.2, "F", 0.31, false),
          new FamilyTest("part x", 0.4, "likelihood ratio", 0.26, false));
    }
    return List.of(
        new FamilyTest("shift", 402.1, "F", 1.4e-88, true),
        new FamilyTest("rotation", 91.2, "F", 3.1e-19, true),
        new FamilyTest("scale", 41.7, "F", 5.2e-15, true),
        new FamilyTest("array", 1.12, "F", 0.3461, false),
        new FamilyTest("common", 1.9, "F", 0.15, false),
        new FamilyTest("rotationZero", 2.9, "F", 0.089, false),
        new FamilyTest("part x", 61.3, "likelihood ratio", 2.4e-15, true),
        new FamilyTest("part y", 58.8, "likelihood ratio", 8.7e-15, true),
        new FamilyTest("part rotation", 9.1, "likelihood ratio", 0.0013, true),
        new FamilyTest("nozzle x", 0.0, "likelihood ratio", 0.5, false),
        new FamilyTest("nozzle y", 31.5, "likelihood ratio", 1e-8, true));
  }

  private static List<VarianceLine> variances() {
    return List.of(
        new VarianceLine("part", "x", 0.0147, true),
        new VarianceLine("part", "y", 0.0161, true),
        new VarianceLine("part", "rotation", 0.19, true),
        new VarianceLine("nozzle", "x", 0, true),
        new VarianceLine("nozzle", "y", 0.0112, true),
        new VarianceLine("nozzle", "rotation", Double.NaN, true),
        new VarianceLine("registration", "xy", 0.008, false),
        new VarianceLine("scatter", "xy", 0.0159, false),
        new VarianceLine("measuring", "xy", 0.008, false));
  }

  private List<BudgetLine> budget() {
    if (nothingToDo) {
      return List.of(
          new BudgetLine("shift", 4.1e-6, 4.1e-6, true),
          new BudgetLine("scatter", 4.2e-4, 4.2e-4, false),
          new BudgetLine("measuring", 1.28e-4, 1.28e-4, false));
    }
    return List.of(
        new BudgetLine("shift", 2.41e-3, 1.4e-6, true),
        new BudgetLine("rotation", 8.1e-4, 3e-7, true),
        new BudgetLine("scale", 7.7e-4, 7.7e-5, true),
        new BudgetLine("array", 3.1e-5, 3.1e-5, true),
        new BudgetLine("common", 1.1e-5, 1.1e-5, true),
        new BudgetLine("part", 6.2e-4, 2.6e-5, true),
        new BudgetLine("nozzle", 1.9e-4, 8e-6, true),
        new BudgetLine("overlap", -4.4e-4, -2.0e-5, false),
        new BudgetLine("scatter", 4.96e-4, 4.96e-4, false),
        new BudgetLine("measuring", 1.28e-4, 1.28e-4, false));
  }

  private static List<Quadrant> quadrants() {
    return List.of(
        new Quadrant(0, 91, new Xy(0.0009, -0.0004), new Xy(0.0017, 0.0017)),
        new Quadrant(90, 84, new Xy(-0.0013, 0.0011), new Xy(0.0017, 0.0018)),
        new Quadrant(180, 88, new Xy(0.0002, 0.0016), new Xy(0.0017, 0.0017)),
        new Quadrant(270, 0, Xy.UNKNOWN, Xy.UNKNOWN));
  }

  private static Acceptance acceptance(List<PlacementResult> placements) {
    int judged = 0;
    int outside = 0;
    int after = 0;
    double expected = 0;
    double expectedAfter = 0;
    for (PlacementResult p : placements) {
      if (p.verdict().equals("within") || p.verdict().equals("outside")) {
        judged++;
        outside += p.verdict().equals("outside") ? 1 : 0;
        after += p.marginAfterTrim() < 0 ? 1 : 0;
        expected += zeroIfUnknown(p.probabilityOutside());
        expectedAfter += zeroIfUnknown(p.probabilityOutsideAfterTrim());
      }
    }
    return new Acceptance(
        2,
        judged,
        outside,
        after,
        new Expected(expected, 0.8 * expected, 1.3 * expected, 1e-4),
        new Expected(expectedAfter, 0.8 * expectedAfter, 1.3 * expectedAfter, 1e-4),
        new Xy(0.71, 0.68),
        new Xy(0.64, 0.61),
        new Xy(2.01, 1.93),
        List.of(
            new TypeIndex(
                "R0603",
                40,
                new Xy(0.2, 0.4),
                new Xy(0.7, 1.2),
                new Xy(0.55, 1.0),
                new Xy(2.1, 3.9),
                new Xy(1.7, 3.2),
                new Xy(-0.09, -0.1),
                new Xy(0.08, 0.11))),
        List.of("CONN-8"));
  }

  private static double zeroIfUnknown(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  private static final PairSpread SPREAD = new PairSpread(8e-4, 8e-4, 0, 0.04, 0.04);

  private static List<ClearanceResult> clearances() {
    return List.of(
        new ClearanceResult(
            "P1",
            "1/1/C3",
            "1/1/J1",
            0.081,
            0.142,
            0.0004,
            SPREAD,
            "the cap of J1 is gone after assembly"),
        new ClearanceResult("P1", "1/1/R4", "1/1/R5", -0.012, 0.203, Double.NaN, SPREAD, ""));
  }

  private double gauss() {
    return random.nextGaussian();
  }

  private static double round(double mm) {
    return Math.round(mm * 1000) / 1000.0;
  }

  private static Xyr plus(Xyr a, Xyr b) {
    return new Xyr(a.x() + b.x(), a.y() + b.y(), a.rotation() + b.rotation());
  }
}
