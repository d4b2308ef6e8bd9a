package org.padtrue.load.job;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.bill.BillOption;
import org.padtrue.load.names.LandPatternNames;
import org.padtrue.load.names.NameMatch;
import org.padtrue.load.names.TypeTable;
import org.padtrue.load.part.PartsLoader;
import org.padtrue.load.part.StarterLibrary;
import org.padtrue.load.placement.Bills;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Unplaced;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.WithProblems;

/**
 * Reads a job: the job file and the placement and parts files that it names, relative to it.
 *
 * <p>The job file is one JSON object; only {@code placements} is required. Beside the keys of the
 * job's contract it may have {@code sides} (which words of the side column mean top and bottom),
 * {@code decimal} (point or comma, where a file leaves it open) and {@code parked} (leaveOut or
 * keep), and {@code asIs} (answers to questions about articles). {@code units} is the unit of a
 * placement file that states none; {@code panel}, {@code machine} and {@code measurement} are in
 * mm.
 */
public final class JobLoader {
  private final Path path;
  private final ProblemList problems;
  private final List<String> notes = new ArrayList<>();

  private JobLoader(Path path) {
    this.path = path;
    this.problems = new ProblemList(path.toString());
  }

  /**
   * Reads a job.
   *
   * @return the job, and the problems of single values and rows
   * @throws InputException when there is no job to speak of: a file is missing or no table, the job
   *     file is no JSON or names no placement file
   */
  public static WithProblems<Job> load(Path jobFile) {
    WithProblems<LoadedJob> all = loadWithFile(jobFile);
    return new WithProblems<>(all.value().job(), all.problems());
  }

  /** As {@link #load}, with the placement file, for writing it again. */
  public static WithProblems<LoadedJob> loadWithFile(Path jobFile) {
    JobLoader loader = new JobLoader(jobFile);
    LoadedJob job = loader.read();
    return new WithProblems<>(job, loader.problems.all());
  }

  private LoadedJob read() {
    JobText text = JobTextReader.read(TextFile.read(path), problems);
    Map<String, PartType> parts = parts(text);
    PlacementFile file = placements(text, bill(text));
    problems.addAll(file.problems());
    List<Fiducial> fiducials = fiducials(text, file);
    parts = file.standard().isEmpty() ? parts : StandardPanel.parts(file.standard().get(), parts);
    Set<String> names = fiducials.stream().map(Fiducial::name).collect(Collectors.toSet());
    checkTypes(text, file);
    Selection selection = Selection.of(file, text, names);
    Layout layout = withBoards(text, file, Layout.of(text, file, selection, problems));
    PanelUnits.check(text, layout, fiducials, problems);
    notes.addAll(0, file.understood().notes());
    notes.addAll(layout.notes());
    if (!text.keepDrawings()) {
      ListedFiducials listed = ListedFiducials.of(layout);
      layout = listed.layout();
      fiducials = withListed(file.name(), fiducials, listed.fiducials());
    }
    noteUnplaced(file.name(), selection);
    noteTypes(text, file);
    parts = withNamed(text, parts, layout.placements());
    noteParts(text, parts, layout.placements());
    Job job =
        new Job(
            text.name() == null ? stem() : text.name(),
            text.side(),
            text.stage(),
            layout.placements(),
            selection.unplaced(),
            parts,
            layout.array(),
            fiducials,
            text.acceptanceClass(),
            text.machine(),
            text.measurement(),
            notes);
    return new LoadedJob(job, file, layout.placed(), layout.wholePanel(), text.asIs());
  }

  private String stem() {
    String s = String.valueOf(path.getFileName());
    int dot = s.lastIndexOf('.');
    return dot > 0 ? s.substring(0, dot) : s;
  }

  private Map<String, PartType> parts(JobText text) {
    if (text.parts() == null) {
      return Map.of();
    }
    try {
      WithProblems<Map<String, PartType>> parts = PartsLoader.load(beside(text.parts()));
      problems.addAll(parts.problems());
      return parts.value();
    } catch (InputException e) {
      problems.addAll(e.problems());
      return Map.of();
    }
  }

  private Path beside(String relative) {
    try {
      return path.resolveSibling(relative);
    } catch (InvalidPathException e) {
      throw new InputException(
          Problem.of(
              path.toString(),
              TextPieces.quoted(relative) + " is no path of a file",
              "correct it in the job"));
    }
  }

  private @Nullable BillOption bill(JobText text) {
    JobText.BomText bom = text.bom();
    if (bom == null) {
      return null;
    }
    try {
      TextFile file =
          TextFile.read(
              beside(bom.file()), "\"bom\" in the job names it, relative to the job file");
      return new BillOption(Bills.read(file, bom.columns()), bom.unlisted());
    } catch (InputException e) {
      problems.addAll(e.problems());
      return null;
    }
  }

  private PlacementFile placements(JobText text, @Nullable BillOption bill) {
    if (text.placements().isEmpty() || (text.bom() != null && bill == null)) {
      throw new InputException(problems.all());
    }
    try {
      return PlacementFile.read(
          beside(text.placements()),
          text.options().with(bill),
          text.step(),
          "\"placements\" in the job names it, relative to the job file");
    } catch (InputException e) {
      problems.addAll(e.problems());
      throw new InputException(problems.all());
    }
  }

  /** The job's fiducials, or those of a standard file when the job has none. */
  private List<Fiducial> fiducials(JobText text, PlacementFile file) {
    List<Fiducial> own = JobFiducials.of(file, text, problems);
    if (!own.isEmpty() || file.standard().isEmpty()) {
      return own;
    }
    List<Fiducial> found = StandardPanel.fiducials(file.standard().get(), text.side());
    if (!found.isEmpty()) {
      notes.add(
          file.name()
              + " gives the fiducials "
              + names(found.stream().map(Fiducial::name).toList())
              + ".");
    }
    return found;
  }

  /** The boards of a standard file when the job lists none. */
  private Layout withBoards(JobText text, PlacementFile file, Layout layout) {
    if (file.standard().isEmpty() || layout.wholePanel()) {
      return layout;
    }
    JobText.PanelText panel = text.panel();
    boolean own = panel != null && (panel.sized() || !panel.listed().isEmpty());
    ProblemList ofFile = new ProblemList(file.name());
    BoardArray array = StandardPanel.array(file.standard().get(), text.side(), ofFile);
    if (own) {
      String differs =
          array == null ? "" : StandardPanel.difference(file.name(), layout.array(), array);
      if (!differs.isEmpty()) {
        notes.add(differs);
      }
      return layout;
    }
    problems.addAll(ofFile.all());
    if (array == null) {
      return layout;
    }
    notes.add(
        file.name() + " gives a panel of " + array.columns() + " x " + array.rows() + " boards.");
    return new Layout(layout.placements(), array, layout.placed(), false, layout.notes());
  }

  /** The job's fiducials; those of the list too where the job's do not hold a picture. */
  private List<Fiducial> withListed(String file, List<Fiducial> own, List<Fiducial> listed) {
    if (listed.isEmpty()) {
      return own;
    }
    boolean taken = own.size() < 2;
    notes.add(
        file
            + " lists the fiducials "
            + names(listed.stream().map(Fiducial::name).toList())
            + (taken
                ? "; they are not placed."
                : "; they are not placed, and the job's are used."));
    return taken ? Stream.concat(own.stream(), listed.stream()).toList() : own;
  }

  /** A table of names that contradicts itself is asked about, all of it at once. */
  private void checkTypes(JobText text, PlacementFile file) {
    for (TypeTable.Conflict c : text.types().conflicts(partNames(file))) {
      problems.add(
          c.second().line(),
          String.valueOf(c.second().column()),
          "\"types\" says of "
              + TextPieces.quoted(c.name())
              + " both "
              + TextPieces.quoted(c.first().type())
              + " ("
              + TextPieces.quoted(c.first().pattern())
              + ") and "
              + TextPieces.quoted(c.second().type())
              + " ("
              + TextPieces.quoted(c.second().pattern())
              + ")",
          "name " + TextPieces.quoted(c.name()) + " in full");
    }
  }

  private static Set<String> partNames(PlacementFile file) {
    Set<String> all = new TreeSet<>();
    file.rows().forEach(r -> all.add(r.part()));
    return all;
  }

  private void noteTypes(JobText text, PlacementFile file) {
    if (text.types().isEmpty()) {
      return;
    }
    Map<String, Set<String>> byType = new TreeMap<>();
    Set<String> all = partNames(file);
    for (String n : all) {
      TypeTable.Rule r = text.types().rule(n);
      if (r != null && !r.type().equals(n)) {
        byType.computeIfAbsent(r.type(), t -> new TreeSet<>()).add(n);
      }
    }
    byType.forEach(
        (type, names) ->
            notes.add(
                "Part type "
                    + type
                    + " stands for "
                    + names(List.copyOf(names))
                    + " of the placement file, as \"types\" says."));
    List<String> unused =
        text.types().unused(all).stream()
            .map(TypeTable.Rule::pattern)
            .map(TextPieces::quoted)
            .toList();
    if (!unused.isEmpty()) {
      notes.add("\"types\" has names that no placement has: " + names(unused) + ".");
    }
  }

  private void noteUnplaced(String file, Selection s) {
    if (!s.marks().isEmpty()) {
      notes.add(file + ": fiducials are not placed (" + names(s.marks()) + ").");
    }
    noteUnplaced(file, s, Unplaced.Reason.NOT_FITTED, "marked as not fitted");
    noteUnplaced(file, s, Unplaced.Reason.PARKED, "parked far off the board");
    noteUnplaced(file, s, Unplaced.Reason.DRAWING, "without a part to place");
    noteUnplaced(file, s, Unplaced.Reason.OTHER_SIDE, "of the other side");
  }

  private void noteUnplaced(String file, Selection s, Unplaced.Reason reason, String words) {
    List<String> refs =
        s.unplaced().stream().filter(u -> u.reason() == reason).map(Unplaced::ref).toList();
    if (!refs.isEmpty()) {
      notes.add(
          file
              + ": "
              + TextPieces.count(refs.size(), "placement")
              + " "
              + words
              + " left out ("
              + names(refs)
              + ").");
    }
  }

  private static String names(List<String> refs) {
    String first = refs.stream().limit(8).collect(Collectors.joining(", "));
    return refs.size() > 8 ? first + " and " + (refs.size() - 8) + " more" : first;
  }

  /**
   * Names of placements that mean a part type of the job's parts file by a standard's naming take
   * it; others that seem to are told, and asked about, but not used.
   */
  private Map<String, PartType> withNamed(
      JobText text, Map<String, PartType> parts, List<Placement> placements) {
    if (text.parts() == null || parts.isEmpty()) {
      return parts;
    }
    Map<String, Set<String>> refs = new TreeMap<>();
    placements.forEach(
        p -> {
          if (!parts.containsKey(p.part())) {
            refs.computeIfAbsent(p.part(), n -> new TreeSet<>()).add(p.ref());
          }
        });
    if (refs.isEmpty()) {
      return parts;
    }
    LandPatternNames names =
        new LandPatternNames(parts.values(), StarterLibrary.aliases(), text.chipCodes());
    Map<String, PartType> all = new LinkedHashMap<>(parts);
    List<String> taken = new ArrayList<>();
    List<String> open = new ArrayList<>();
    List<String> codes = new ArrayList<>();
    refs.forEach(
        (name, of) -> {
          NameMatch m = names.match(name, of);
          PartType t = m.part();
          if (m.certain() && t != null) {
            all.put(name, t);
            taken.add(name + " as " + m.type());
          } else if (m.level() == NameMatch.Level.LIKELY) {
            open.add("\"" + name + "\": \"" + m.type() + "\"");
          } else if (m.level() == NameMatch.Level.TWO_WAYS
              && m.candidates().stream().anyMatch(c -> c.endsWith(")"))) {
            codes.add(name);
          }
        });
    Path file = beside(text.parts());
    if (!taken.isEmpty()) {
      notes.add(file + ": taken by standard naming are " + names(taken) + ".");
    }
    if (!open.isEmpty()) {
      notes.add(
          "Part types that look like some of "
              + file
              + " are not judged unless you agree: \"types\": {"
              + String.join(", ", open.subList(0, Math.min(8, open.size())))
              + "} in the job.");
    }
    if (!codes.isEmpty()) {
      notes.add(
          "The chip codes "
              + names(codes)
              + " can be inch or metric (0603 is 1.6 x 0.8 mm or 0.6 x 0.3 mm) and are not judged;"
              + " say \"chipCodes\": \"inch\" or \"metric\" in the job.");
    }
    return all;
  }

  private void noteParts(JobText text, Map<String, PartType> parts, List<Placement> placements) {
    if (text.parts() == null) {
      return;
    }
    Path file = beside(text.parts());
    Set<String> without = new TreeSet<>();
    placements.forEach(p -> without.add(p.part()));
    List<String> open =
        without.stream().filter(n -> PartType.unknown(n).equals(parts.get(n))).toList();
    if (!open.isEmpty()) {
      notes.add(
          file
              + " leaves "
              + TextPieces.count(open.size(), "part type")
              + " to complete ("
              + names(open)
              + "); they are not judged.");
    }
    without.removeAll(parts.keySet());
    if (!without.isEmpty()) {
      notes.add(
          file
              + " does not describe "
              + TextPieces.count(without.size(), "part type")
              + " ("
              + names(List.copyOf(without))
              + "); they are not judged.");
    }
  }
}
