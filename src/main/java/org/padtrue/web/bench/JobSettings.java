package org.padtrue.web.bench;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Properties;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.JobAnswers;
import org.padtrue.load.job.JobDraft;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.web.kept.MachineAnswers;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.StoredText;
import org.padtrue.web.server.TypedNumbers;

/**
 * What a page asks about a placement file that came without a job file, kept beside the job file
 * that is written from it. Texts as the form has them.
 */
public record JobSettings(
    String name,
    String placements,
    String parts,
    String bill,
    String unlisted,
    String units,
    String side,
    String stage,
    String y,
    String rotation,
    String columns,
    String rows,
    String pitchX,
    String pitchY,
    MachineAnswers machine) {
  static final String FILE = "settings.properties";
  public static final List<String> KEYS =
      List.of(
          "name",
          "unlisted",
          "units",
          "side",
          "stage",
          "y",
          "rotation",
          "columns",
          "rows",
          "pitchX",
          "pitchY");
  private static final int MOST_BOARDS = 100;

  static JobSettings of(String name, String placements, String parts) {
    return of(name, placements, parts, "");
  }

  static JobSettings of(String name, String placements, String parts, String bill) {
    return new JobSettings(
        name,
        placements,
        parts,
        bill,
        "",
        "",
        "top",
        "paste",
        "up",
        "counterclockwise",
        "1",
        "1",
        "",
        "",
        MachineAnswers.NONE);
  }

  /** The settings with what a form sent. */
  JobSettings with(UnaryOperator<@Nullable String> form) {
    return new JobSettings(
        text(form, "name", name),
        placements,
        parts,
        bill,
        text(form, "unlisted", unlisted),
        text(form, "units", units),
        text(form, "side", side),
        text(form, "stage", stage),
        text(form, "y", y),
        text(form, "rotation", rotation),
        text(form, "columns", columns),
        text(form, "rows", rows),
        text(form, "pitchX", pitchX),
        text(form, "pitchY", pitchY),
        machine.with(form));
  }

  /** The settings with a bill of materials. */
  JobSettings withBill(String file) {
    return new JobSettings(
        name,
        placements,
        parts,
        file,
        unlisted,
        units,
        side,
        stage,
        y,
        rotation,
        columns,
        rows,
        pitchX,
        pitchY,
        machine);
  }

  private static String text(UnaryOperator<@Nullable String> form, String key, String otherwise) {
    String s = form.apply(key);
    return s == null ? otherwise : s.strip();
  }

  /** The job file's content, or a refusal that names the field. */
  JobDraft draft() {
    int c = count(columns, "columns");
    int r = count(rows, "rows");
    return new JobDraft(
        name.isEmpty() ? "job" : name,
        placements,
        parts.isEmpty() ? null : parts,
        bill.isEmpty() ? null : bill,
        unlisted.equals("leaveOut") || unlisted.equals("keep") ? unlisted : "",
        units.isEmpty() ? null : units,
        side,
        stage,
        y.equals("down"),
        rotation.equals("clockwise"),
        c,
        r,
        pitch(pitchX, c, "x"),
        pitch(pitchY, r, "y"),
        machine.draft());
  }

  private static int count(String text, String what) {
    if (!text.matches("\\d{1,3}") || text.matches("0+") || Integer.parseInt(text) > MOST_BOARDS) {
      throw Refusal.bad(
          "'" + text + "' " + what + " of boards is no number from 1 to " + MOST_BOARDS + ".");
    }
    return Integer.parseInt(text);
  }

  private double pitch(String text, int count, String axis) {
    if (count == 1) {
      return 0;
    }
    LengthUnit unit = LengthUnit.parse(units).orElse(LengthUnit.MM);
    return TypedNumbers.mm(text, unit)
        .orElseThrow(
            () ->
                Refusal.bad(
                    "The distance of the boards along "
                        + axis
                        + " is '"
                        + text
                        + "'; write a length."));
  }

  static JobSettings read(Path folder) throws IOException {
    Properties p;
    try {
      p = StoredText.properties(folder.resolve(FILE));
    } catch (IOException e) {
      throw new InputException(
          Problem.of(FILE, "the answers kept for this job are damaged", "send the files again"));
    }
    JobSettings s =
        of(
            p.getProperty("name", ""),
            p.getProperty("placements", ""),
            p.getProperty("parts", ""),
            p.getProperty("bill", ""));
    return s.with(p::getProperty);
  }

  /** Writes the settings and the job file made of them. */
  void write(Path folder) throws IOException {
    JobDraft draft = draft();
    Set<String> answers = JobAnswers.of(folder.resolve(JobFolder.JOB));
    Properties p = new Properties();
    String[] values = {
      name, unlisted, units, side, stage, y, rotation, columns, rows, pitchX, pitchY
    };
    for (int k = 0; k < values.length; k++) {
      p.setProperty(KEYS.get(k), values[k]);
    }
    machine.put(p);
    p.setProperty("placements", placements);
    p.setProperty("parts", parts);
    p.setProperty("bill", bill);
    StringWriter w = new StringWriter();
    p.store(w, null);
    Files.writeString(folder.resolve(FILE), w.toString());
    draft.write(folder.resolve(JobFolder.JOB));
    JobAnswers.add(folder.resolve(JobFolder.JOB), answers);
  }
}
