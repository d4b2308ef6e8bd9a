package org.padtrue.report.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * What a room.json says.
 *
 * @param file where it was read from
 * @param job the job's name; empty in a file from elsewhere
 * @param gapMm gap that was wanted, mm; NaN in a file from elsewhere
 * @param groups the groups
 */
public record StoredRoom(String file, String job, double gapMm, List<Group> groups) {
  private static final String MEND = "give the room.json that 'room' wrote";

  public StoredRoom {
    groups = List.copyOf(groups);
  }

  /**
   * One group.
   *
   * @param pairs ids of its pairs, column/row/ref
   * @param moves values to ADD
   * @param solved true when they leave every gap and every limit
   * @param sentence what was said of it
   */
  public record Group(List<Pair> pairs, List<Move> moves, boolean solved, String sentence) {
    public Group {
      pairs = List.copyOf(pairs);
      moves = List.copyOf(moves);
    }
  }

  /**
   * A pair.
   *
   * @param a id
   * @param b id
   * @param gapMm before, mm; negative = overlap
   * @param gapAfterMm expected after, mm
   */
  public record Pair(String a, String b, double gapMm, double gapAfterMm) {}

  /**
   * A move.
   *
   * @param ref ref, or column/row/ref where boards were moved by themselves
   * @param add mm and degrees, in the placement list's own axes, of an unturned board
   */
  public record Move(String ref, Xyr add) {}

  /** Moves of the groups that are solved: those that may be put into a list. */
  public List<Move> solvedMoves() {
    return solved().flatMap(g -> g.moves().stream()).toList();
  }

  /** Pairs of the groups that are solved. */
  public List<Pair> solvedPairs() {
    return solved().flatMap(g -> g.pairs().stream()).toList();
  }

  private Stream<Group> solved() {
    return groups.stream().filter(Group::solved);
  }

  /** What was said of the groups whose moves are left out. */
  public List<String> unsolved() {
    return groups.stream().filter(g -> !g.solved()).map(Group::sentence).toList();
  }

  /** Reads a room.json; bad input is an {@link InputException}. */
  public static StoredRoom read(Path path) {
    String name = path.toString();
    return read(name, AnalysisJsonReader.tree(path, name, MEND));
  }

  /** The same of a file in memory. */
  public static StoredRoom read(String name, byte[] json) throws IOException {
    return read(name, new ObjectMapper().readTree(json));
  }

  private static StoredRoom read(String name, JsonNode tree) {
    JsonIn in = new JsonIn(name, "", tree, MEND);
    String schema = in.text("schema");
    if (!schema.equals(RoomJson.SCHEMA)) {
      throw new InputException(
          Problem.of(
              name, "the schema is '" + schema + "', expected '" + RoomJson.SCHEMA + "'", MEND));
    }
    return new StoredRoom(
        name, in.text("job", ""), in.numberOrNaN("gap"), in.list("groups", StoredRoom::group));
  }

  private static Group group(JsonIn in) {
    return new Group(
        in.list(
            "pairs",
            p -> new Pair(p.text("a"), p.text("b"), p.number("gap"), p.number("gapAfter"))),
        in.list("moves", m -> new Move(m.text("ref"), m.xyr())),
        in.flag("solved", false),
        in.text("sentence", ""));
  }
}
