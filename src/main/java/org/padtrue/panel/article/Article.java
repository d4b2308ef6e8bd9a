package org.padtrue.panel.article;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import org.padtrue.panel.Measured;
import org.padtrue.quantity.LengthUnit;

/**
 * One measured file: one panel, or several told apart by name.
 *
 * @param file file name without folders
 * @param measured measured placements in file order
 * @param fiducials measured fiducials
 * @param poses true when the file gave measured poses, false when it gave deviations
 * @param partsRegistered true when the article says it was registered on the parts themselves, so
 *     that panel shift and rotation cannot be known
 * @param temperatureC temperature stated in the file, if any
 * @param notes what a reader should know about how the file was understood
 * @param relativeTypes part types that the article says were measured against a sample of which
 *     nobody knows where it stood: their offsets cannot be known, only scatter
 * @param landsRegistered true when the article says it was registered on lands
 * @param unit the unit in which numbers without one were taken
 * @param faults placements whose status says that they are wrong; none of them is in {@code
 *     measured}
 */
public record Article(
    String file,
    List<Measured> measured,
    List<MeasuredFiducial> fiducials,
    boolean poses,
    boolean partsRegistered,
    OptionalDouble temperatureC,
    List<String> notes,
    Set<String> relativeTypes,
    boolean landsRegistered,
    LengthUnit unit,
    List<MeasuredFault> faults) {

  public Article {
    faults = List.copyOf(faults);
    measured = List.copyOf(measured);
    fiducials = List.copyOf(fiducials);
    notes = List.copyOf(notes);
    relativeTypes = Set.copyOf(relativeTypes);
  }

  /** An article in mm in which no placement is marked as wrong. */
  public Article(
      String file,
      List<Measured> measured,
      List<MeasuredFiducial> fiducials,
      boolean poses,
      boolean partsRegistered,
      OptionalDouble temperatureC,
      List<String> notes,
      Set<String> relativeTypes,
      boolean landsRegistered) {
    this(
        file,
        measured,
        fiducials,
        poses,
        partsRegistered,
        temperatureC,
        notes,
        relativeTypes,
        landsRegistered,
        LengthUnit.MM,
        List.of());
  }

  /** An article that was not registered on lands. */
  public Article(
      String file,
      List<Measured> measured,
      List<MeasuredFiducial> fiducials,
      boolean poses,
      boolean partsRegistered,
      OptionalDouble temperatureC,
      List<String> notes,
      Set<String> relativeTypes) {
    this(
        file,
        measured,
        fiducials,
        poses,
        partsRegistered,
        temperatureC,
        notes,
        relativeTypes,
        false);
  }

  /** An article in which the offset of every type can be known. */
  public Article(
      String file,
      List<Measured> measured,
      List<MeasuredFiducial> fiducials,
      boolean poses,
      boolean partsRegistered,
      OptionalDouble temperatureC,
      List<String> notes) {
    this(file, measured, fiducials, poses, partsRegistered, temperatureC, notes, Set.of());
  }
}
