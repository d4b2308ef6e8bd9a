package org.padtrue.web.bench;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.padtrue.load.article.ArticleExtras;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.text.TextFile;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.panel.article.FaultKind;
import org.padtrue.panel.article.MeasuredFault;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.web.kept.SavedCsv;
import org.padtrue.web.server.FileNames;

/** An article in work: an uploaded file, if there is one, and what was entered on top of it. */
public final class BenchArticle {
  static final String JOURNAL = "entries.log";
  private static final String HEAD =
      "panel,column,row,ref,dx (mm),dy (mm),drotation,u (mm),urotation\n";

  private final String id;
  private final Path folder;
  private final EntryJournal journal;
  private ArticleAbout about;

  private BenchArticle(String id, Path folder, ArticleAbout about, EntryJournal journal) {
    this.id = id;
    this.folder = folder;
    this.about = about;
    this.journal = journal;
  }

  /**
   * The article of a folder.
   *
   * @throws InputException when the folder's files cannot be read
   */
  public static BenchArticle open(String id, Path folder) {
    try {
      return new BenchArticle(
          id, folder, ArticleAbout.read(folder), EntryJournal.open(folder.resolve(JOURNAL)));
    } catch (IOException | DateTimeException e) {
      throw new InputException(
          Problem.of(id, "its files cannot be read", "mend them or move the folder away"));
    }
  }

  public String id() {
    return id;
  }

  public Path folder() {
    return folder;
  }

  public ArticleAbout about() {
    return about;
  }

  public EntryJournal journal() {
    return journal;
  }

  /** Takes an article file that stands in the article's folder as what was measured so far. */
  public void takeFile(String name) throws IOException {
    about = about.withFile(name);
    about.write(folder);
  }

  /** Says which article's trims were entered before this panel was placed. */
  public void placeAfter(String article) throws IOException {
    about = about.placedAfter(article);
    about.write(folder);
  }

  /** Says what the panel is, other than placed after trims. */
  public void markKind(PanelKind kind) throws IOException {
    about = about.ofKind(kind);
    about.write(folder);
  }

  /** Keeps what pictures say of the whole article, such as what they were registered on. */
  public void remark(List<String> remarks) throws IOException {
    if (!about.remarks().containsAll(remarks)) {
      about = about.remarking(remarks);
      about.write(folder);
    }
  }

  /** What stands now, by placement: the last measurement that was not withdrawn. */
  public Map<String, Entry> measured() {
    return standing(Entry.Kind.MEASURED);
  }

  /** Faults that stand now, by placement. */
  Map<String, Entry> faults() {
    return standing(Entry.Kind.LEFT_OUT);
  }

  /** Placements of which the last word is of a kind. */
  private Map<String, Entry> standing(Entry.Kind kind) {
    Map<String, Entry> m = new LinkedHashMap<>();
    for (Entry e : journal.since(0)) {
      switch (e.kind()) {
        case MEASURED, CLEARED, LEFT_OUT -> {
          if (e.kind() == kind) {
            m.put(e.placement(), e);
          } else {
            m.remove(e.placement());
          }
        }
        case PLANNED, TAKEN_IN -> {}
      }
    }
    return m;
  }

  /** What was lost to damage on the disk, one sentence each. */
  List<String> damage() {
    return Damage.sentences(journal.damaged(), measured());
  }

  /** Placements that were withdrawn and not measured again; they hide rows of the file too. */
  private Set<String> cleared() {
    Set<String> s = new LinkedHashSet<>();
    for (Entry e : journal.since(0)) {
      if (e.kind() == Entry.Kind.CLEARED) {
        s.add(e.placement());
      } else if (e.kind() == Entry.Kind.MEASURED) {
        s.remove(e.placement());
      }
    }
    return s;
  }

  /** Placements to measure, in walking order: panel/column/row/ref. */
  List<String> planned() {
    List<String> all = new ArrayList<>();
    for (Entry e : journal.since(0)) {
      if (e.kind() == Entry.Kind.PLANNED && !all.contains(e.placement())) {
        all.add(e.placement());
      }
    }
    return all;
  }

  /**
   * What another panel is measured at to be held against this one: the list, or what was measured;
   * column/row/ref, each once however many panels there are.
   */
  public List<String> listed(LoadedJob job) {
    List<String> planned = planned();
    return planned.isEmpty()
        ? article(job).measured().stream()
            .map(m -> m.board() + "/" + m.placement().ref())
            .distinct()
            .toList()
        : planned.stream().map(Places::onPanel).distinct().toList();
  }

  /**
   * Names of the article's panels: those on the list and measured, else those of its file, else
   * one.
   */
  List<String> panels(LoadedJob job) {
    List<String> listed =
        Stream.concat(planned().stream(), measured().keySet().stream())
            .map(Places::panel)
            .distinct()
            .toList();
    List<String> all =
        listed.isEmpty() && !about.file().isEmpty()
            ? article(job).measured().stream().map(Measured::panel).distinct().toList()
            : listed;
    return all.isEmpty() ? List.of("P1") : all;
  }

  /** The article as it stands. */
  public Article article(LoadedJob job) {
    Map<String, Measured> rows = new LinkedHashMap<>();
    Article base = null;
    if (!about.file().isEmpty()) {
      base = ArticleLoader.load(FileNames.within(folder, about.file()), job).orThrow();
      base.measured().forEach(m -> rows.put(key(m), m));
    }
    cleared().forEach(rows::remove);
    Article typed = ArticleLoader.load(TextFile.of("entries", typedCsv()), job).orThrow();
    typed.measured().forEach(m -> rows.put(key(m), m));
    List<MeasuredFault> faults = new ArrayList<>();
    for (Entry e : faults().values()) {
      rows.remove(e.placement());
      FaultKind.parse(e.text()).flatMap(k -> fault(e, k, job)).ifPresent(faults::add);
    }
    if (base != null) {
      base.faults().stream()
          .filter(f -> !rows.containsKey(key(f)) && !faults().containsKey(key(f)))
          .forEach(faults::add);
    }
    return base == null
        ? new Article(
            name(),
            List.copyOf(rows.values()),
            List.of(),
            false,
            typed.partsRegistered(),
            OptionalDouble.empty(),
            List.of(),
            typed.relativeTypes(),
            typed.landsRegistered(),
            LengthUnit.MM,
            faults)
        : new Article(
            name(),
            List.copyOf(rows.values()),
            base.fiducials(),
            base.poses(),
            base.partsRegistered() || typed.partsRegistered(),
            base.temperatureC(),
            base.notes(),
            both(base.relativeTypes(), typed.relativeTypes()),
            base.landsRegistered() || typed.landsRegistered(),
            base.unit(),
            faults);
  }

  private static Set<String> both(Set<String> a, Set<String> b) {
    Set<String> all = new LinkedHashSet<>(a);
    all.addAll(b);
    return all;
  }

  private static Optional<MeasuredFault> fault(Entry e, FaultKind kind, LoadedJob job) {
    double none = Double.NaN;
    return Places.of(job.job())
        .find(e.placement())
        .map(
            p ->
                new MeasuredFault(
                    e.placement().split("/", 2)[0],
                    p.board(),
                    p.placement(),
                    p.nominal(),
                    kind,
                    Typed.fault(e),
                    none,
                    none,
                    none,
                    0));
  }

  /** What was typed as an article file of its own. */
  String typedCsv() {
    StringBuilder b = new StringBuilder(HEAD);
    about.remarks().forEach(r -> b.append("# ").append(r).append('\n'));
    for (Entry e : measured().values()) {
      String[] at = e.placement().split("/", 4);
      b.append('"')
          .append(at[0].replace("\"", "\"\""))
          .append("\",")
          .append(at[1])
          .append(',')
          .append(at[2])
          .append(',');
      b.append('"').append(at[3].replace("\"", "\"\"")).append("\",");
      b.append(SavedCsv.number(e.dxMm())).append(',').append(SavedCsv.number(e.dyMm())).append(',');
      b.append(SavedCsv.number(e.dRotationDeg())).append(',');
      b.append(SavedCsv.number(e.uMm()))
          .append(',')
          .append(SavedCsv.number(e.uRotationDeg()))
          .append('\n');
    }
    return b.toString();
  }

  private static String key(MeasuredFault f) {
    return f.panel() + "/" + f.id();
  }

  /** panel/column/row/ref. */
  static String key(Measured m) {
    return m.panel() + "/" + m.board() + "/" + m.placement().ref();
  }

  private String name() {
    return about.file().isEmpty() ? about.name() : about.file();
  }

  /**
   * Everything measured, as a file that reads as the article does: the uploaded file itself while
   * nothing was entered on top of it.
   */
  public byte[] csv(LoadedJob job) throws IOException {
    boolean asSent =
        !about.file().isEmpty()
            && about.remarks().isEmpty()
            && measured().isEmpty()
            && cleared().isEmpty();
    if (asSent) {
      return Files.readAllBytes(FileNames.within(folder, about.file()));
    }
    ArticleExtras extras =
        about.file().isEmpty()
            ? new ArticleExtras(List.of(), Map.of())
            : ArticleExtras.read(TextFile.read(FileNames.within(folder, about.file())), job);
    Map<String, Instant> times = new HashMap<>();
    measured().forEach((placement, e) -> times.put(placement, e.at()));
    return SavedCsv.of(article(job), extras, times).getBytes(StandardCharsets.UTF_8);
  }

  /** Name under which {@link #csv} is kept: that of the uploaded file, else one of its own. */
  public String csvName() {
    return about.file().isEmpty() ? id + ".csv" : about.file();
  }
}
