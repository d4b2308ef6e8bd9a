package org.padtrue.load.placement;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.padtrue.load.bill.BillOption;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.table.Table;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Side;

/** Puts together what a placement file was understood to say. */
final class UnderstoodReport {
  private static final int SAMPLE = 5;

  private final Table table;
  private final PlacementOptions options;
  private final List<Field> partSources;
  private final UnitCheck unit;
  private final int mended;
  private final List<String> notes = new ArrayList<>();

  UnderstoodReport(
      Table table, PlacementOptions options, List<Field> partSources, UnitCheck unit, int mended) {
    this.table = table;
    this.options = options;
    this.partSources = partSources;
    this.unit = unit;
    this.mended = mended;
  }

  Understood of(
      List<PlacementRow> rows,
      Drawings drawings,
      Parked parked,
      RefCounts refs,
      List<String> more) {
    int[] counts = counts(rows);
    int boards = refs.timesEveryRef();
    notes(rows, boards);
    notes.addAll(more);
    return new Understood(
        table.file().name(),
        table.file().encodingWords(),
        table.delimiterWords(),
        table.decimal(),
        table.header().line(),
        columns(),
        table.header().unused(),
        partFrom(),
        unit.bareUnit(),
        unit.source(),
        sides(rows),
        options.axes().words(),
        rows.size(),
        counts[0],
        counts[1],
        counts[2],
        parked.count(),
        drawings.count(),
        boards,
        extents(rows, parked, drawings),
        rows.subList(0, Math.min(SAMPLE, rows.size())),
        notes);
  }

  private void notes(List<PlacementRow> rows, int boards) {
    String name = table.file().name();
    if (table.file().fellBackToLatin1()) {
      notes.add(name + " has bytes that are no UTF-8; it was read as Latin-1.");
    }
    if (unit.assumed() && unit.problems().isEmpty() && !rows.isEmpty()) {
      notes.add(name + " states no unit; millimetres were taken, as its extents suggest.");
    }
    if (mended > 0) {
      notes.add(
          name
              + ": in "
              + TextPieces.count(mended, "row")
              + " a quote or delimiter within a text was taken as part of the text.");
    }
    if (table.header().line() == 0) {
      notes.add(name + " has no header line; its columns were told by their values.");
    }
    if (!partSources.isEmpty() && partSources.get(0) == Field.VALUE && options.bill() == null) {
      table.header().unused().stream()
          .filter(c -> c.toLowerCase(Locale.ROOT).startsWith("desc"))
          .findFirst()
          .ifPresent(c -> notes.add(name + byValue(c)));
    }
    String mirrored = Mirrored.hint(rows, options.axes());
    if (!mirrored.isEmpty()) {
      notes.add(name + mirrored);
    }
    if (boards > 1) {
      notes.add(name + " holds every ref " + boards + " times: it is a file of a whole panel.");
    }
  }

  private String partFrom() {
    BillOption bill = options.bill();
    String own = partSources.isEmpty() ? "" : partSources.get(0).key();
    if (bill == null) {
      // of a list that names none
      return own;
    }
    return (own.isEmpty() ? "" : own + ", else ") + "the bill " + bill.bill().name();
  }

  private String byValue(String description) {
    return ": part types are told by "
        + TextPieces.quoted(table.header().name(Field.VALUE))
        + "; where "
        + TextPieces.quoted(description)
        + " names the package, say \"columns\": {\"package\": \""
        + description
        + "\"} in the job.";
  }

  private Map<String, String> columns() {
    Header h = table.header();
    Map<String, String> m = new LinkedHashMap<>();
    h.columns().entrySet().stream()
        .sorted(Comparator.comparingInt(Map.Entry::getValue))
        .forEach(e -> m.put(e.getKey().key(), h.names().get(e.getValue())));
    return m;
  }

  private String sides(List<PlacementRow> rows) {
    Header h = table.header();
    if (h.has(Field.SIDE) || h.has(Field.MIRRORED)) {
      return "by column " + h.name(h.has(Field.SIDE) ? Field.SIDE : Field.MIRRORED);
    }
    boolean banner = rows.stream().anyMatch(r -> r.side() != null);
    return banner ? "by a banner line" : "stated nowhere, taken as the job's side";
  }

  /** Rows that say top, that say bottom, that are not fitted. */
  private static int[] counts(List<PlacementRow> rows) {
    int[] n = new int[3];
    for (PlacementRow r : rows) {
      n[0] += r.side() == Side.TOP ? 1 : 0;
      n[1] += r.side() == Side.BOTTOM ? 1 : 0;
      n[2] += r.fitted() ? 0 : 1;
    }
    return n;
  }

  static Understood.Extents extents(List<PlacementRow> rows, Parked parked, Drawings drawings) {
    double[] box = {Double.NaN, Double.NaN, Double.NaN, Double.NaN};
    for (int i = 0; i < rows.size(); i++) {
      PlacementRow r = rows.get(i);
      if (r.fitted() && !parked.is(i) && !drawings.is(i)) {
        double x = r.filePose().xMm();
        double y = r.filePose().yMm();
        box[0] = Double.isNaN(box[0]) ? x : Math.min(box[0], x);
        box[1] = Double.isNaN(box[1]) ? y : Math.min(box[1], y);
        box[2] = Double.isNaN(box[2]) ? x : Math.max(box[2], x);
        box[3] = Double.isNaN(box[3]) ? y : Math.max(box[3], y);
      }
    }
    return new Understood.Extents(box[0], box[1], box[2], box[3]);
  }
}
