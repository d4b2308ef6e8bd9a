package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.camera.ReversalResult;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.MarkReport;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.problem.Question;

/**
 * Everything that detection found.
 *
 * @param readings one for every expected placement and panel, in the job's order
 * @param maps how each picture lies on its panel
 * @param reversal what turned pictures told about the device, if there were any
 * @param notes what a reader should know, one sentence each
 * @param taught looks by which types of the job were measured
 */
public record DetectionResult(
    List<PlacementReading> readings,
    List<MapReport> maps,
    Optional<ReversalResult> reversal,
    List<String> notes,
    List<TaughtLook> taught) {

  private static final int LEAST = 4;
  private static final double MOST_OF = 0.5;
  private static final Pose NOT_MEASURED = new Pose(Double.NaN, Double.NaN, Double.NaN);

  public DetectionResult {
    readings = List.copyOf(readings);
    maps = List.copyOf(maps);
    notes = List.copyOf(notes);
    taught = List.copyOf(taught);
  }

  /** The look by which a type was measured, or null. */
  @Nullable TaughtLook look(String part) {
    return taught.stream().filter(t -> t.part().equals(part)).findFirst().orElse(null);
  }

  /** Looks that the pictures of this run taught. */
  public List<TaughtLook> learnt() {
    return taught.stream().filter(TaughtLook::fresh).toList();
  }

  /** Types that were measured against a sample of which nobody knows where it stood. */
  public List<String> typesWithoutOffset() {
    return taught.stream().filter(t -> !t.placeKnown()).map(TaughtLook::part).sorted().toList();
  }

  /** True when some picture was registered on the parts: panel shift and rotation are not known. */
  public boolean partsRegistered() {
    return maps.stream().anyMatch(m -> m.registeredOn() == RegisteredOn.PARTS);
  }

  /**
   * True when some picture was registered on lands: board stretch and scale cannot be told apart.
   */
  public boolean landsRegistered() {
    return maps.stream().anyMatch(m -> m.registeredOn() == RegisteredOn.LANDS);
  }

  /** How many readings have a status. */
  public long count(ReadingStatus s) {
    return readings.stream().filter(r -> r.status() == s).count();
  }

  /**
   * What is asked where most placements are not where the job has them: fiducials of one panel are
   * often those of another.
   *
   * @param file the picture, as the user gave it
   * @param closeUps true when each picture shows one placement, at a scale that the user gave
   */
  public Optional<Question> question(String file, boolean closeUps) {
    long here = readings.stream().filter(PlacementReading::lookedFor).count();
    long there = readings.stream().filter(PlacementReading::belongs).count();
    if (here < LEAST || there >= MOST_OF * here) {
      return Optional.empty();
    }
    List<String> others = new ArrayList<>();
    for (ReadingStatus s :
        List.of(ReadingStatus.DOUBTFUL, ReadingStatus.NOT_FOUND, ReadingStatus.MISSING)) {
      if (count(s) > 0) {
        others.add(count(s) + " " + s.words());
      }
    }
    return Optional.of(
        new Question(
            "otherBoard",
            file,
            "only "
                + there
                + " of "
                + here
                + " placements are seen where the job has them ("
                + String.join(", ", others)
                + "), so this looks like another board, side or revision than the job's"
                + (closeUps ? ", or another scale" : ""),
            closeUps
                ? "give pictures of this board, or its job, and look at --scale and --turned"
                : "give the picture of this board, or its job; a picture may be too coarse, too"));
  }

  /**
   * Rows of the article: every expected placement, then the fiducials of the job that were used.
   * What was not measured has no position and its note says why. Doubtful ones are left to a person
   * and carry a position only with {@code withDoubtful}. Fiducials that only the placement file
   * lists are left out: an article knows those of the job.
   */
  public List<ArticleRow> rows(Job job, boolean withDoubtful) {
    List<ArticleRow> out = new ArrayList<>();
    for (PlacementReading r : readings) {
      boolean wanted =
          r.status() == ReadingStatus.FOUND || withDoubtful && r.status() == ReadingStatus.DOUBTFUL;
      Pose seen = r.pose();
      boolean measured = wanted && seen != null;
      Pose p = wanted && seen != null ? seen : NOT_MEASURED;
      String note = r.status() == ReadingStatus.FOUND ? r.note() : remark(r);
      out.add(
          new ArticleRow(
              r.panel(),
              r.board().column(),
              r.board().row(),
              r.placement().ref(),
              p.xMm(),
              p.yMm(),
              p.rotationDeg(),
              measured ? r.uMm() : Double.NaN,
              measured ? r.uRotationDeg() : Double.NaN,
              note));
    }
    Set<String> names = job.fiducials().stream().map(Fiducial::name).collect(Collectors.toSet());
    for (int i = 0; i < maps.size(); i++) {
      addFiducials(maps.get(i), panelOf(i), names, out);
    }
    return out;
  }

  private static String remark(PlacementReading r) {
    return r.note().isEmpty() ? r.status().words() : r.status().words() + ": " + r.note();
  }

  private String panelOf(int picture) {
    return readings.stream()
        .filter(r -> r.picture() == picture)
        .map(PlacementReading::panel)
        .findFirst()
        .orElse(readings.isEmpty() ? "P1" : readings.get(0).panel());
  }

  private static void addFiducials(
      MapReport m, String panel, Set<String> names, List<ArticleRow> out) {
    for (MarkReport f : m.marks()) {
      String name = f.fiducial();
      boolean listed =
          out.stream()
              .anyMatch(
                  r ->
                      r.panel().equals(panel)
                          && r.ref().equals(name)
                          && r.column() == f.board().column()
                          && r.row() == f.board().row());
      if (f.used() && !listed && names.contains(name)) {
        out.add(
            new ArticleRow(
                panel,
                f.board().column(),
                f.board().row(),
                name,
                f.xMm(),
                f.yMm(),
                Double.NaN,
                f.uMm(),
                Double.NaN,
                ""));
      }
    }
  }

  /** Readings a person should look at first: rejected ones, then by falling doubt. */
  public List<PlacementReading> worstFirst() {
    return readings.stream()
        .filter(r -> r.status() != ReadingStatus.NO_GEOMETRY)
        .sorted(
            Comparator.comparingInt((PlacementReading r) -> rank(r.status()))
                .thenComparingDouble(PlacementReading::score))
        .toList();
  }

  private static int rank(ReadingStatus s) {
    return switch (s) {
      case NOT_FOUND -> 0;
      case DOUBTFUL -> 1;
      case MISSING -> 2;
      case OUT_OF_PICTURE -> 3;
      case FOUND -> 4;
      case NO_GEOMETRY -> 5;
    };
  }
}
