package org.padtrue.load.part;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.load.names.ChipCodes;
import org.padtrue.load.names.LandPatternNames;
import org.padtrue.load.names.NameMatch;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.panel.Job;

/**
 * The part types of a list, each with the refs under which it stands and what its name means in the
 * starter library; most frequent first. Rows that stand for no part, lie parked or are not fitted
 * are left out.
 *
 * @param entries one for each name
 */
public record PartNames(List<Entry> entries) {
  /**
   * A name.
   *
   * @param count placements of it
   * @param refs their refs
   * @param match what it means
   */
  public record Entry(int count, List<String> refs, NameMatch match) {}

  public PartNames {
    entries = List.copyOf(entries);
  }

  /** The names of a placement file, both sides. */
  public static PartNames of(PlacementFile file, ChipCodes codes) {
    Map<String, List<String>> refs = new LinkedHashMap<>();
    for (int i = 0; i < file.rows().size(); i++) {
      PlacementRow r = file.rows().get(i);
      boolean placed = r.fitted() && !file.drawings().is(i) && !file.parked().is(i);
      if (placed && !r.part().isEmpty()) {
        refs.computeIfAbsent(r.part(), p -> new ArrayList<>()).add(r.ref());
      }
    }
    return of(refs, codes);
  }

  /** The names of a job's placements, as its table of names has them. */
  public static PartNames of(Job job, ChipCodes codes) {
    Map<String, List<String>> refs = new LinkedHashMap<>();
    job.placements()
        .forEach(p -> refs.computeIfAbsent(p.part(), n -> new ArrayList<>()).add(p.ref()));
    return of(refs, codes);
  }

  private static PartNames of(Map<String, List<String>> refs, ChipCodes codes) {
    LandPatternNames names = StarterLibrary.names(codes);
    List<Entry> all = new ArrayList<>();
    refs.forEach((name, of) -> all.add(new Entry(of.size(), of, names.match(name, of))));
    all.sort(Comparator.comparingInt(Entry::count).reversed().thenComparing(e -> e.match().name()));
    return new PartNames(all);
  }

  /** Names that are matched in a way. */
  public List<Entry> at(NameMatch.Level... levels) {
    return entries.stream().filter(e -> List.of(levels).contains(e.match().level())).toList();
  }
}
