package org.padtrue.panel;

import java.util.List;
import java.util.Map;

/**
 * A job: what is placed where, and how it is judged.
 *
 * @param name the job's name
 * @param side the side that is placed
 * @param stage what parts sit on when measured
 * @param placements every placement of one board, in file order, board frame
 * @param unplaced rows of the placement file that take no part, with the reason
 * @param parts part types by name; a type that no parts file describes is absent
 * @param array the boards
 * @param fiducials fiducials of panel and boards
 * @param acceptanceClass 1, 2 or 3
 * @param machine the machine
 * @param measurement how articles are measured
 * @param notes what a reader should know about how the files were understood, one sentence each
 */
public record Job(
    String name,
    Side side,
    Stage stage,
    List<Placement> placements,
    List<Unplaced> unplaced,
    Map<String, PartType> parts,
    BoardArray array,
    List<Fiducial> fiducials,
    int acceptanceClass,
    Machine machine,
    Measurement measurement,
    List<String> notes) {

  public Job {
    placements = List.copyOf(placements);
    unplaced = List.copyOf(unplaced);
    parts = Map.copyOf(parts);
    fiducials = List.copyOf(fiducials);
    notes = List.copyOf(notes);
  }

  /** The part type with a name; one that is judged by nothing when no file describes it. */
  public PartType partType(String partName) {
    PartType t = parts.get(partName);
    return t != null ? t : PartType.unknown(partName);
  }

  /** The same job, measured against something else. */
  public Job against(Reference other) {
    return new Job(
        name,
        side,
        stage,
        placements,
        unplaced,
        parts,
        array,
        fiducials,
        acceptanceClass,
        machine,
        new Measurement(
            other,
            measurement.uncertaintyMm(),
            measurement.rotationUncertaintyDeg(),
            measurement.biasMm()),
        notes);
  }
}
