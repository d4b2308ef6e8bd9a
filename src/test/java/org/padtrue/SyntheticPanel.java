package org.padtrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import java.util.SplittableRandom;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Measurement;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.panel.Stage;
import org.padtrue.panel.Tolerance;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.article.Article;
import org.padtrue.quantity.Angles;

/**
 * A panel with known truth. Everything is drawn from one seeded generator, so a seed is a panel.
 * Standard deviations in mm and degrees; public fields are set before {@link #draw()}.
 */
public final class SyntheticPanel {
  public int columns = 1;
  public int rows = 1;
  public int perBoard = 40;
  public int types = 6;
  public int nozzles;
  public int turns = 4;
  public double firstTurn;
  public double boardX = 60;
  public double boardY = 40;
  public double scatter = 0.02;
  public double rotationScatter = 0.15;

  /** Scatter of each type instead of the one for all, mm, by its number modulo the length. */
  public double[] typeScatter = {};

  /** The same of rotations, degrees. */
  public double[] typeRotationScatter = {};

  /** Scatter along panel y as a share of that along x. */
  public double scatterRatioY = 1;

  public double typeSd = 0.04;
  public double typeRotationSd = 0.3;
  public double nozzleSd;
  public double shiftX;
  public double shiftY;
  public double rotationDeg;
  public double scaleX;
  public double scaleY;
  public double squareness;
  public double columnX;
  public double columnY;
  public double rowX;
  public double rowY;
  public double commonX;
  public double commonY;
  public double rotationZero;
  public double repeatability;
  public boolean stateRepeatability;
  public double resolution = 0.001;
  public double rotationResolution = 0.01;
  public double uncertainty = Double.NaN;
  public boolean tolerances = true;
  public org.padtrue.panel.Reference reference = org.padtrue.panel.Reference.FIDUCIALS;

  /** Each type keeps to one nozzle of its own. */
  public boolean nozzlePerType;

  public Stage stage = Stage.PASTE;
  public EnumSet<TrimKind> accepts = EnumSet.allOf(TrimKind.class);

  public final Random random;
  public final Map<String, double[]> offset = new HashMap<>();
  public final Map<String, Double> turnOf = new HashMap<>();
  private final List<Placement> placements = new ArrayList<>();
  private BoardArray array = BoardArray.single();
  private Job job;

  public SyntheticPanel(long seed) {
    // Seeds in a row give java.util.Random almost the same first numbers: mixed first.
    random = new Random(new SplittableRandom(seed).nextLong());
  }

  private double gauss(double sd) {
    return sd * random.nextGaussian();
  }

  /** Draws the design and the offsets of types and nozzles. */
  public SyntheticPanel draw() {
    for (int k = 0; k < types; k++) {
      offset.put("part T" + k, new double[] {gauss(typeSd), gauss(typeSd)});
      turnOf.put("part T" + k, gauss(typeRotationSd));
    }
    for (int k = 0; k < nozzles; k++) {
      offset.put("nozzle N" + k, new double[] {gauss(nozzleSd), gauss(nozzleSd)});
      turnOf.put("nozzle N" + k, 0.0);
    }
    for (int i = 0; i < perBoard; i++) {
      int type = i < types ? i : random.nextInt(types);
      String nozzle = nozzles == 0 ? null : "N" + (nozzlePerType ? type : i % nozzles);
      placements.add(
          new Placement(
              "R" + (i + 1),
              "T" + type,
              new Pose(
                  Math.round(1000 * boardX * random.nextDouble()) / 1000.0,
                  Math.round(1000 * boardY * random.nextDouble()) / 1000.0,
                  Angles.wrap(firstTurn + 90.0 * random.nextInt(turns))),
              Levels.NONE.with(Factor.NOZZLE, nozzle),
              Double.NaN,
              i + 2));
    }
    List<Board> boards = new ArrayList<>();
    for (int r = 1; r <= rows; r++) {
      for (int c = 1; c <= columns; c++) {
        boolean listed = r == 1 && c == 1 || r == rows && c == 1 || r == rows && c == columns;
        boards.add(
            new Board(
                new BoardIndex(c, r),
                new Pose((c - 1) * (boardX + 2), (r - 1) * (boardY + 2), 0),
                listed));
      }
    }
    array = new BoardArray(columns, rows, boards, Set.of(), Double.NaN);
    Map<String, PartType> parts = new HashMap<>();
    for (int k = 0; k < types; k++) {
      parts.put(
          "T" + k,
          new PartType(
              "T" + k,
              JointKind.CHIP,
              1,
              true,
              null,
              Double.NaN,
              List.of(),
              List.of(),
              null,
              tolerances ? new Tolerance(0.2, 0.2, 5) : null));
    }
    double rep = stateRepeatability ? repeatability : Double.NaN;
    job =
        new Job(
            "synthetic",
            Side.TOP,
            stage,
            placements,
            List.of(),
            parts,
            array,
            List.of(),
            2,
            new Machine(resolution, rotationResolution, rep, rep, Double.NaN, accepts),
            new Measurement(reference, uncertainty, Double.NaN, 0),
            List.of());
    return this;
  }

  public Job job() {
    return job;
  }

  /** Systematic deviation of a placement: x, y (mm), rotation (deg). */
  public double[] truth(Board b, Placement p, Pose nominal) {
    double phi = Math.toRadians(rotationDeg);
    double a11 = (1 + scaleX) * Math.cos(phi);
    double a21 = (1 + scaleX) * Math.sin(phi);
    double a12 = (1 + scaleY) * -Math.sin(phi + squareness);
    double a22 = (1 + scaleY) * Math.cos(phi + squareness);
    double x = nominal.xMm();
    double y = nominal.yMm();
    double dx = shiftX + (a11 - 1) * x + a12 * y;
    double dy = shiftY + a21 * x + (a22 - 1) * y;
    dx += columnX * (b.index().column() - 1) + rowX * (b.index().row() - 1);
    dy += columnY * (b.index().column() - 1) + rowY * (b.index().row() - 1);
    double ox = commonX;
    double oy = commonY;
    double dr = rotationDeg + rotationZero;
    for (String key :
        new String[] {"part " + p.part(), "nozzle " + p.levels().get(Factor.NOZZLE)}) {
      double[] o = offset.get(key);
      if (o != null) {
        ox += o[0];
        oy += o[1];
        dr += turnOf.get(key);
      }
    }
    double c = Angles.cosDeg(nominal.rotationDeg());
    double s = Angles.sinDeg(nominal.rotationDeg());
    return new double[] {dx + c * ox - s * oy, dy + s * ox + c * oy, dr};
  }

  /** Scatter of a type along x, mm. */
  public double scatterOf(String part) {
    return of(typeScatter, scatter, part);
  }

  /** Scatter of a type's rotation, degrees. */
  public double rotationScatterOf(String part) {
    return of(typeRotationScatter, rotationScatter, part);
  }

  private static double of(double[] byType, double all, String part) {
    return byType.length == 0 ? all : byType[Integer.parseInt(part.substring(1)) % byType.length];
  }

  /** One more measured panel of the same batch. */
  public Article article(String name) {
    List<Measured> m = new ArrayList<>();
    double regX = gauss(repeatability);
    double regY = gauss(repeatability);
    for (Board b : array.boards()) {
      for (Placement p : placements) {
        Pose nominal = p.pose().seenFrom(b.origin());
        double[] t = truth(b, p, nominal);
        double u = Double.isNaN(uncertainty) ? 0 : uncertainty;
        m.add(
            new Measured(
                "P1",
                b.index(),
                p,
                nominal,
                t[0] + regX + gauss(scatterOf(p.part())) + gauss(u),
                t[1] + regY + gauss(scatterRatioY * scatterOf(p.part())) + gauss(u),
                Angles.wrap(t[2] + gauss(rotationScatterOf(p.part()))),
                Double.NaN,
                Double.NaN,
                p.levels(),
                Double.NaN,
                "",
                m.size() + 2));
      }
    }
    return new Article(name, m, List.of(), false, false, OptionalDouble.empty(), List.of());
  }
}
