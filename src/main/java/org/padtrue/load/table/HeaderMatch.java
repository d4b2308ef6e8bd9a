package org.padtrue.load.table;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.quantity.LengthUnit;

/** Matches the cells of a header line to fields. */
final class HeaderMatch {
  private record Candidate(int column, HeaderName name, Spelling spelling) {}

  private final TableSpec spec;
  private final List<HeaderName> names;
  private final Map<Field, List<Candidate>> candidates = new EnumMap<>(Field.class);
  private final Map<Field, Integer> chosen = new EnumMap<>(Field.class);
  private final Map<Field, String> unmatched = new EnumMap<>(Field.class);
  private final List<Field> twice = new ArrayList<>();

  HeaderMatch(List<String> cells, TableSpec spec) {
    this.spec = spec;
    this.names = cells.stream().map(HeaderName::of).toList();
    takeMapped();
    takeKnown();
    choose();
  }

  private void takeMapped() {
    spec.mapping()
        .forEach(
            (f, wanted) -> {
              int c = find(wanted);
              if (c >= 0) {
                chosen.put(f, c);
              } else {
                unmatched.put(f, wanted);
              }
            });
  }

  private int find(String wanted) {
    for (int i = 0; i < names.size(); i++) {
      if (names.get(i).text().equalsIgnoreCase(wanted.trim())) {
        return i;
      }
    }
    for (int i = 0; i < names.size(); i++) {
      if (names.get(i).letters().equals(HeaderName.of(wanted).letters())) {
        return i;
      }
    }
    return wanted.matches("[1-9]\\d{0,3}") && Integer.parseInt(wanted) <= names.size()
        ? Integer.parseInt(wanted) - 1
        : -1;
  }

  private void takeKnown() {
    for (int i = 0; i < names.size(); i++) {
      int column = i;
      HeaderName n = names.get(i);
      Optional<Spelling> meaning = chosen.containsValue(i) ? Optional.empty() : n.meaning();
      meaning
          .filter(s -> spec.known().contains(s.field()) && !chosen.containsKey(s.field()))
          .ifPresent(
              s ->
                  candidates
                      .computeIfAbsent(s.field(), f -> new ArrayList<>())
                      .add(new Candidate(column, n, s)));
    }
    candidates.values().forEach(l -> l.sort(Comparator.comparingInt(c -> c.spelling.rank())));
  }

  private void choose() {
    pair(Field.X, Field.Y);
    pair(Field.DX, Field.DY);
    candidates.forEach(
        (f, list) -> {
          if (!chosen.containsKey(f) && !list.get(0).spelling.weak()) {
            take(f, list.get(0));
          }
        });
    nameAsPart();
  }

  /** Beside a ref, "Name" is the part where nothing else is (common practice). */
  private void nameAsPart() {
    boolean open =
        chosen.containsKey(Field.REF)
            && spec.known().contains(Field.PART)
            && spec.needed().stream().allMatch(n -> n.contains(Field.X))
            && !chosen.containsKey(Field.PART)
            && !chosen.containsKey(Field.PACKAGE)
            && !chosen.containsKey(Field.VALUE);
    if (open) {
      candidates.getOrDefault(Field.REF, List.of()).stream()
          .filter(c -> isName(c.name.letters()) && !chosen.containsValue(c.column))
          .findFirst()
          .ifPresent(c -> chosen.put(Field.PART, c.column));
    }
  }

  private static boolean isName(String letters) {
    return letters.equals("name") || letters.equals("compname") || letters.equals("componentname");
  }

  private void take(Field f, Candidate c) {
    chosen.put(f, c.column);
    if (candidates.getOrDefault(f, List.of()).stream().filter(o -> same(o, c)).count() > 1) {
      twice.add(f);
    }
  }

  private static boolean same(Candidate a, Candidate b) {
    return a.name.letters().equals(b.name.letters());
  }

  /** Takes x and y from one pair of names where the file has several. */
  private void pair(Field x, Field y) {
    for (Candidate a : candidates.getOrDefault(x, List.of())) {
      for (Candidate b : candidates.getOrDefault(y, List.of())) {
        if (a.spelling.family().equals(b.spelling.family()) && !chosen.containsKey(x)) {
          take(x, a);
          take(y, b);
        }
      }
    }
  }

  /** How many fields are recognised. */
  int score() {
    return chosen.size() + (chosen.containsKey(Field.REF) || weakRefs().isEmpty() ? 0 : 1);
  }

  /** Columns that are the ref only when nothing else is and their values do not repeat. */
  List<Integer> weakRefs() {
    List<Integer> weak = new ArrayList<>();
    if (!chosen.containsKey(Field.REF)) {
      candidates.getOrDefault(Field.REF, List.of()).forEach(c -> weak.add(c.column));
      if (chosen.containsKey(Field.PART) && !spec.mapping().containsKey(Field.PART)) {
        weak.add(chosen.get(Field.PART));
      }
    }
    return weak;
  }

  /** True when the header has what a reader needs. */
  boolean usable() {
    return spec.needed().stream().anyMatch(s -> missing(s).isEmpty());
  }

  private List<Field> missing(Set<Field> needed) {
    List<Field> missing = new ArrayList<>();
    for (Field f : Field.values()) {
      boolean standIn = f == Field.REF && !weakRefs().isEmpty();
      if (needed.contains(f) && !chosen.containsKey(f) && !standIn) {
        missing.add(f);
      }
    }
    return missing;
  }

  /** Needed fields that are missing from the alternative that comes nearest. */
  List<Field> missing() {
    return spec.needed().stream()
        .map(this::missing)
        .min(Comparator.comparingInt(List::size))
        .orElse(List.of());
  }

  /** The user's name for a field's column that the header lacks; empty when there is none. */
  Optional<String> unmatched(Field f) {
    return Optional.ofNullable(unmatched.get(f));
  }

  /** The file's names of all columns. */
  List<String> texts() {
    return names.stream().map(HeaderName::text).toList();
  }

  /** The header; adds what is wrong with it. */
  Header header(int line, ProblemList problems) {
    for (Field f : twice) {
      if (f.numeric() || f == Field.REF || f == Field.PART || f == Field.SIDE) {
        problems.add(
            line,
            names.get(chosen.getOrDefault(f, 0)).text(),
            "two columns have this name",
            "say which one is "
                + f.key()
                + " by its number, \"columns\": {\""
                + f.key()
                + "\": N}, in the job");
      }
    }
    if (spec.mappingRequired()) {
      unmatched.forEach((f, wanted) -> complain(line, f, wanted, problems));
    }
    return new Header(line, texts(), chosen, units(line, problems));
  }

  private void complain(int line, Field f, String wanted, ProblemList problems) {
    problems.add(line, lacks(f, wanted), "the header has " + TextPieces.list(texts(), 12));
  }

  /** Says that the header lacks a column that the user named. */
  static String lacks(Field f, String wanted) {
    return "the job takes "
        + f.key()
        + " from a column "
        + TextPieces.quoted(wanted)
        + " that the header does not have";
  }

  private Map<Field, LengthUnit> units(int line, ProblemList problems) {
    Map<Field, LengthUnit> units = new HashMap<>();
    chosen.forEach(
        (f, column) -> {
          String unit = names.get(column).unitText();
          if (unit == null || unit.isEmpty()) {
            return;
          }
          Optional<LengthUnit> length = LengthUnit.parse(unit);
          if (f.kind() == Field.Kind.LENGTH && length.isPresent()) {
            units.put(f, length.get());
          } else if (f.kind() == Field.Kind.LENGTH && !isAxis(unit)) {
            problems.add(
                line,
                names.get(column).text(),
                TextPieces.quoted(unit) + " is no unit of length that is known here",
                "use mm, um, mil or inch");
          } else if (f.kind() == Field.Kind.ANGLE && !HeaderName.isDegrees(unit)) {
            problems.add(
                line,
                names.get(column).text(),
                TextPieces.quoted(unit) + " is no unit of angle that is known here",
                "give degrees");
          }
        });
    return units;
  }

  /** Brackets may hold a remark, "Mid (X)". */
  private static boolean isAxis(String unit) {
    return unit.length() > 8 || unit.equalsIgnoreCase("x") || unit.equalsIgnoreCase("y");
  }
}
