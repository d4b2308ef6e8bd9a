package org.padtrue.load.job;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import org.jspecify.annotations.Nullable;

/**
 * A job file for a placement file that came without one: the few things that such a file seldom
 * says itself.
 *
 * @param name name of the job
 * @param placements placement file beside the job file
 * @param parts parts file beside it, or null
 * @param bill bill of materials beside it, or null
 * @param unlisted what holds for refs that the bill does not name: leaveOut, keep, or empty to be
 *     asked
 * @param units mm, mil, inch or um where the file states none; null when it does
 * @param side top or bottom
 * @param stage tape, paste or reflowed
 * @param yDown true when the file's y grows downwards
 * @param clockwise true when the file's rotation grows clockwise
 * @param columns boards along x, 1 or more
 * @param rows boards along y, 1 or more
 * @param pitchX distance of the boards along x, mm; used when columns exceed 1
 * @param pitchY the same along y, mm
 * @param machine what is said of the machine and the measuring
 */
public record JobDraft(
    String name,
    String placements,
    @Nullable String parts,
    @Nullable String bill,
    String unlisted,
    @Nullable String units,
    String side,
    String stage,
    boolean yDown,
    boolean clockwise,
    int columns,
    int rows,
    double pitchX,
    double pitchY,
    MachineDraft machine) {

  /** Writes the job file, whole or not at all. */
  public void write(Path file) throws IOException {
    DefaultPrettyPrinter pretty =
        new DefaultPrettyPrinter(
            Separators.createDefaultInstance()
                .withObjectFieldValueSpacing(Separators.Spacing.AFTER));
    pretty.indentArraysWith(DefaultIndenter.SYSTEM_LINEFEED_INSTANCE);
    Path part = file.resolveSibling(file.getFileName() + ".part");
    Files.writeString(part, new ObjectMapper().writer(pretty).writeValueAsString(json()) + "\n");
    Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
  }

  private ObjectNode json() {
    ObjectNode job = new ObjectMapper().createObjectNode();
    job.put("name", name);
    if (units != null) {
      job.put("units", units);
    }
    job.put("side", side).put("stage", stage).put("placements", placements);
    if (parts != null) {
      job.put("parts", parts);
    }
    if (bill != null && unlisted.isEmpty()) {
      job.put("bom", bill);
    } else if (bill != null) {
      job.putObject("bom").put("file", bill).put("unlisted", unlisted);
    }
    ObjectNode axes = job.putObject("axes");
    axes.put("y", yDown ? "down" : "up");
    axes.put("rotation", clockwise ? "clockwise" : "counterclockwise");
    if (columns * rows > 1) {
      panel(job.putObject("panel"));
    }
    machine.write(job);
    return job;
  }

  private void panel(ObjectNode panel) {
    panel.put("columns", columns).put("rows", rows);
    ArrayNode boards = panel.putArray("boards");
    board(boards, 1, 1);
    if (columns > 1) {
      board(boards, columns, 1);
    }
    if (rows > 1) {
      board(boards, 1, rows);
    }
  }

  private void board(ArrayNode boards, int column, int row) {
    ObjectNode b = boards.addObject().put("column", column).put("row", row);
    b.put("x", (column - 1) * pitchX).put("y", (row - 1) * pitchY);
  }
}
