package org.padtrue.load.placement;

import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.padtrue.load.bill.Bill;
import org.padtrue.load.bill.BillLine;
import org.padtrue.load.bill.BillOption;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Table;
import org.padtrue.load.table.TableSpec;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.problem.InputException;

/** Joins a bill of materials to the rows of a placement file. */
public final class Bills {
  private static final int SHOWN = 5;

  private Bills() {}

  /** A bill given on the command line; refs that it does not name are asked about. */
  public static BillOption read(Path path) {
    return new BillOption(read(TextFile.read(path), Map.of()), BillOption.Unlisted.ASK);
  }

  /** True for a file that reads as a bill of materials and has no positions. */
  public static boolean is(Path path) {
    TextFile file;
    try {
      file = TextFile.read(path);
      read(file, Map.of());
    } catch (InputException e) {
      return false;
    }
    return !reads(file, TableSpec.placements(Map.of(), null))
        && !reads(file, TableSpec.article(Map.of(), null));
  }

  private static boolean reads(TextFile file, TableSpec spec) {
    try {
      Table.of(file, spec);
      return true;
    } catch (InputException e) {
      return false;
    }
  }

  public static Bill read(TextFile file, Map<Field, String> columns) {
    return Bill.read(file, columns, YesNoWords::notFittedWithin, YesNoWords::yes, YesNoWords::no);
  }

  /**
   * Gives rows without a part type the one that the bill has for their ref, and marks those as not
   * fitted that it says are not.
   *
   * @param rows changed in place
   * @param parked rows far off the board: nobody places them, so nothing is asked about them
   * @param notes what a reader should know is added
   * @param problems what cannot be told is added, all at once
   */
  static void join(
      BillOption option,
      List<PlacementRow> rows,
      Parked parked,
      String listName,
      List<String> notes,
      ProblemList problems) {
    Set<String> refs = new LinkedHashSet<>();
    rows.forEach(r -> refs.add(r.ref()));
    Bill.Joined j = option.bill().join(refs, listName);
    problems.addAll(j.problems());
    notes.addAll(j.notes());
    if (!j.problems().isEmpty()) {
      return;
    }
    Set<String> asked = new LinkedHashSet<>();
    for (int i = 0; i < rows.size(); i++) {
      PlacementRow r = rows.get(i);
      BillLine line = j.lines().get(r.ref());
      // a line with neither package, part nor value says nothing of what is placed
      if (line != null && !(line.fitted() && r.part().isEmpty() && line.type().isEmpty())) {
        String part = r.part().isEmpty() ? line.type() : r.part();
        rows.set(i, with(r, part, r.fitted() && line.fitted()));
      } else if (!Drawings.is(r.ref(), r.part()) && r.fitted()) {
        rows.set(i, unlisted(r, parked.is(i), option.unlisted(), asked));
      }
    }
    if (!asked.isEmpty()) {
      problems.add(
          TextPieces.list(asked, SHOWN)
              + (asked.size() == 1 ? " is" : " are")
              + (asked.stream().allMatch(j.lines()::containsKey)
                  ? " without a type in "
                  : " not in ")
              + option.bill().name()
              + ", so what is placed there is not known",
          "say \"bom\": {\"file\": \""
              + option.bill().name().replaceAll(".*[/\\\\]", "")
              + "\", \"unlisted\": \"leaveOut\"} in the job if nothing is, or \"keep\"");
    }
  }

  private static PlacementRow unlisted(
      PlacementRow r, boolean parked, BillOption.Unlisted what, Set<String> asked) {
    boolean silent = parked && what == BillOption.Unlisted.ASK;
    return switch (silent ? BillOption.Unlisted.KEEP : what) {
      case LEAVE_OUT -> with(r, r.part().isEmpty() ? r.ref() : r.part(), false);
      case KEEP -> with(r, r.part().isEmpty() ? r.ref() : r.part(), true);
      case ASK -> {
        if (r.part().isEmpty()) {
          asked.add(r.ref());
        }
        yield r;
      }
    };
  }

  private static PlacementRow with(PlacementRow r, String part, boolean fitted) {
    return new PlacementRow(
        r.ref(), part, r.side(), r.filePose(), fitted, r.levels(), r.order(), r.line());
  }
}
