package org.padtrue.load.part;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.json.Bound;
import org.padtrue.load.json.JsonFields;
import org.padtrue.load.json.JsonText;
import org.padtrue.load.json.JsonValue;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Tolerance;
import org.padtrue.problem.WithProblems;

/**
 * Reads part types: an object with a list {@code parts}; lengths in mm, angles in degrees. Of a
 * part type only {@code name} is required; {@code kind} is other, {@code symmetry} 1 and {@code
 * selfCentres} false where they are not given. {@code note} is for people; a part type with {@code
 * complete}, which says what is still to be filled in or checked, counts as not known.
 *
 * <pre>
 * {"parts": [{"name": "R0603", "kind": "chip", "symmetry": 2, "selfCentres": true,
 *   "body": {"length": 1.6, "width": 0.8, "height": 0.45},
 *   "tolerance": {"x": 0.2, "y": 0.2, "rotation": 5}}]}
 * </pre>
 */
public final class PartsLoader {
  private static final List<String> KEYS =
      List.of(
          "name",
          "kind",
          "symmetry",
          "selfCentres",
          "body",
          "terminations",
          "lands",
          "envelope",
          "tolerance",
          "note",
          "complete");
  private static final List<String> RECT = List.of("x", "y", "length", "width");

  private final ProblemList problems;
  private final Map<String, PartType> parts = new LinkedHashMap<>();

  private PartsLoader(ProblemList problems) {
    this.problems = problems;
  }

  /** Reads a parts file that a job names. */
  public static WithProblems<Map<String, PartType>> load(Path path) {
    return load(TextFile.read(path, "\"parts\" in the job names it, relative to the job file"));
  }

  /** Reads part types from a text. */
  public static WithProblems<Map<String, PartType>> load(TextFile file) {
    PartsLoader loader = new PartsLoader(new ProblemList(file.name()));
    JsonFields top = new JsonFields(JsonText.parse(file), loader.problems, List.of("parts"));
    if (top.value().kind() == JsonValue.Kind.OBJECT && top.get("parts") == null) {
      top.complain(top.value(), "\"parts\" is missing", "list the part types in it");
    }
    top.objects("parts", KEYS).forEach(loader::part);
    return new WithProblems<>(loader.parts, loader.problems.all());
  }

  /** Words for kinds of joints, as files spell them. */
  static Map<String, JointKind> kinds() {
    Map<String, JointKind> m = new LinkedHashMap<>();
    m.put("chip", JointKind.CHIP);
    m.put("melf", JointKind.MELF);
    m.put("gullWing", JointKind.GULL_WING);
    m.put("jLead", JointKind.J_LEAD);
    m.put("noLead", JointKind.NO_LEAD);
    m.put("ball", JointKind.BALL);
    m.put("throughHole", JointKind.THROUGH_HOLE);
    m.put("other", JointKind.OTHER);
    return m;
  }

  private void part(JsonFields f) {
    String name = f.text("name").map(String::trim).orElse("");
    if (name.isEmpty()) {
      if (f.get("name") == null) {
        f.complain(f.value(), "the part type has no \"name\"", "name it as the placements do");
      }
      return;
    }
    int symmetry = f.whole("symmetry", 1, 1, 4);
    if (symmetry == 3) {
      f.complain(
          f.value(), "\"symmetry\" of " + TextPieces.quoted(name) + " is 3", "use 1, 2 or 4");
    }
    double[] body = body(f);
    PartType t =
        new PartType(
            name,
            f.word("kind", JointKind.OTHER, kinds()),
            symmetry,
            f.flag("selfCentres", false),
            body == null ? null : new Rect(0, 0, body[0], body[1]),
            body == null ? Double.NaN : body[2],
            rects(f, "terminations"),
            rects(f, "lands"),
            envelope(f),
            tolerance(f));
    checkCounts(f, t);
    f.text("note");
    // what is still to be checked or filled in judges nothing
    t = f.text("complete").isPresent() ? PartType.unknown(name) : t;
    if (parts.putIfAbsent(name, t) != null) {
      f.complain(
          f.value(), "the part type " + TextPieces.quoted(name) + " is there twice", "keep one");
    }
  }

  private double @Nullable [] body(JsonFields part) {
    return part.object("body", List.of("length", "width", "height"))
        .map(
            b ->
                new double[] {
                  b.needed("length", Bound.POSITIVE),
                  b.needed("width", Bound.POSITIVE),
                  b.number("height", Double.NaN, Bound.POSITIVE)
                })
        .orElse(null);
  }

  private List<Rect> rects(JsonFields part, String key) {
    List<Rect> all = new ArrayList<>();
    for (JsonFields r : part.objects(key, RECT)) {
      all.add(
          new Rect(
              r.needed("x", Bound.ANY),
              r.needed("y", Bound.ANY),
              r.needed("length", Bound.POSITIVE),
              r.needed("width", Bound.POSITIVE)));
    }
    return all;
  }

  private void checkCounts(JsonFields f, PartType t) {
    int ends = t.terminations().size();
    int lands = t.lands().size();
    if (ends > 0 && lands > 0 && ends != lands) {
      f.complain(
          f.value(),
          TextPieces.quoted(t.name())
              + " has "
              + TextPieces.count(ends, "termination")
              + " and "
              + TextPieces.count(lands, "land"),
          "give one land for each termination, in the same order");
    }
  }

  private @Nullable Envelope envelope(JsonFields part) {
    return part.object("envelope", List.of("length", "width", "zMin", "zMax"))
        .map(
            e -> {
              double low = e.number("zMin", 0);
              double high = e.needed("zMax", Bound.ANY);
              if (high <= low) {
                e.complain(
                    e.value(), "\"zMax\" is not above \"zMin\"", "give the height range in mm");
              }
              return new Envelope(
                  e.needed("length", Bound.POSITIVE), e.needed("width", Bound.POSITIVE), low, high);
            })
        .orElse(null);
  }

  /** A direction that is left out is not judged: its tolerance is infinite. */
  private @Nullable Tolerance tolerance(JsonFields part) {
    return part.object("tolerance", List.of("x", "y", "rotation"))
        .map(
            t ->
                new Tolerance(
                    t.number("x", Double.POSITIVE_INFINITY, Bound.POSITIVE),
                    t.number("y", Double.POSITIVE_INFINITY, Bound.POSITIVE),
                    t.number("rotation", Double.POSITIVE_INFINITY, Bound.POSITIVE)))
        .orElse(null);
  }
}
