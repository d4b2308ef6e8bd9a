package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.bill.BillOption;
import org.padtrue.load.json.Bound;
import org.padtrue.load.json.JsonFields;
import org.padtrue.load.json.JsonText;
import org.padtrue.load.json.JsonValue;
import org.padtrue.load.names.ChipCodes;
import org.padtrue.load.names.TypeTable;
import org.padtrue.load.placement.Axes;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.load.table.Field;
import org.padtrue.load.text.Nearest;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Measurement;
import org.padtrue.panel.PanelLocation;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Side;
import org.padtrue.panel.Stage;
import org.padtrue.panel.TrimKind;
import org.padtrue.problem.AsIs;
import org.padtrue.quantity.LengthUnit;

/** Reads the job file itself. */
public final class JobTextReader {
  private static final List<String> KEYS =
      List.of(
          "name",
          "units",
          "side",
          "stage",
          "placements",
          "columns",
          "axes",
          "sides",
          "decimal",
          "parked",
          "drawings",
          "bom",
          "types",
          "chipCodes",
          "step",
          "parts",
          "panel",
          "acceptanceClass",
          "machine",
          "measurement",
          "asIs");

  private final ProblemList problems;
  private final JsonFields job;

  private JobTextReader(TextFile file, ProblemList problems) {
    this.problems = problems;
    this.job = new JsonFields(JsonText.parse(file), problems, KEYS);
  }

  public static JobText read(TextFile file, ProblemList problems) {
    return new JobTextReader(file, problems).read();
  }

  private JobText read() {
    boolean missing = job.get("placements") == null;
    if (missing && job.value().kind() == JsonValue.Kind.OBJECT) {
      job.complain(job.value(), "\"placements\" is missing", "name the placement file with it");
    }
    @Nullable LengthUnit unit = unit();
    return new JobText(
        job.text("name").orElse(null),
        job.text("placements").orElse(""),
        job.text("parts").orElse(null),
        job.text("step").orElse(null),
        bom(),
        types(),
        job.word(
            "chipCodes",
            ChipCodes.UNKNOWN,
            JobText.words("inch", ChipCodes.INCH, "metric", ChipCodes.METRIC)),
        new PlacementOptions(columns(job), unit, axes(), sides(), decimal(), null, false),
        job.word("side", Side.TOP, JobText.words("top", Side.TOP, "bottom", Side.BOTTOM)),
        job.word("stage", Stage.PASTE, stages()),
        job.word("parked", false, JobText.words("leaveOut", false, "keep", true)),
        job.word("drawings", false, JobText.words("leaveOut", false, "keep", true)),
        PanelTextReader.read(job, problems),
        job.whole("acceptanceClass", 2, 1, 3),
        machine(),
        measurement(),
        asIs());
  }

  private AsIs asIs() {
    Set<String> keys = new TreeSet<>();
    if (job.get("asIs") == null) {
      return AsIs.NOTHING;
    }
    for (JsonValue v : job.list("asIs")) {
      if (v.kind() == JsonValue.Kind.STRING && AsIs.KEYS.contains(v.text())) {
        keys.add(v.text());
      } else {
        List<String> near = Nearest.of(v.text(), AsIs.KEYS, 1);
        job.complain(
            v,
            "\"asIs\" has " + v.shown() + ", which is not known",
            near.isEmpty()
                ? "use " + String.join(", ", AsIs.KEYS)
                : "did you mean \"" + near.get(0) + "\"");
      }
    }
    return new AsIs(keys, false);
  }

  private static Map<String, Stage> stages() {
    Map<String, Stage> m = new LinkedHashMap<>();
    m.put("tape", Stage.TAPE);
    m.put("paste", Stage.PASTE);
    m.put("reflowed", Stage.REFLOWED);
    return m;
  }

  private @Nullable LengthUnit unit() {
    String text = job.text("units").orElse(null);
    if (text == null) {
      return null;
    }
    LengthUnit unit = LengthUnit.parse(text).orElse(null);
    JsonValue at = job.get("units");
    if (unit == null && at != null) {
      job.complain(
          at, "\"units\" is " + at.shown() + ", which is not known", "use mm, mil, inch or um");
    }
    return unit;
  }

  private @Nullable Character decimal() {
    char c = job.word("decimal", ' ', JobText.words("point", '.', "comma", ','));
    return c == ' ' ? null : c;
  }

  private JobText.@Nullable BomText bom() {
    JsonValue v = job.get("bom");
    if (v == null || v.kind() == JsonValue.Kind.STRING) {
      return job.text("bom")
          .map(f -> new JobText.BomText(f, Map.of(), BillOption.Unlisted.ASK))
          .orElse(null);
    }
    JsonFields f = job.object("bom", List.of("file", "columns", "unlisted")).orElseThrow();
    if (v.kind() == JsonValue.Kind.OBJECT && f.get("file") == null) {
      f.complain(v, "\"file\" is missing", "name the bill of materials with it");
    }
    BillOption.Unlisted unlisted =
        f.word(
            "unlisted",
            BillOption.Unlisted.ASK,
            JobText.words(
                "leaveOut", BillOption.Unlisted.LEAVE_OUT, "keep", BillOption.Unlisted.KEEP));
    Map<Field, String> columns = columns(f);
    return f.text("file").map(n -> new JobText.BomText(n, columns, unlisted)).orElse(null);
  }

  private TypeTable types() {
    JsonValue v = job.get("types");
    List<TypeTable.Rule> rules = new ArrayList<>();
    if (v != null) {
      JsonFields f = new JsonFields(v, problems, List.copyOf(v.members().keySet()));
      for (Map.Entry<String, JsonValue> e : v.members().entrySet()) {
        JsonValue at = e.getValue();
        f.text(e.getKey())
            .ifPresent(
                t -> rules.add(new TypeTable.Rule(e.getKey(), t.trim(), at.line(), at.column())));
      }
    }
    return new TypeTable(rules);
  }

  private static Map<Field, String> columns(JsonFields of) {
    Map<Field, String> m = new EnumMap<>(Field.class);
    JsonValue v = of.get("columns");
    if (v == null) {
      return m;
    }
    JsonFields f = of.object("columns", Field.keys()).orElseThrow();
    for (Map.Entry<String, JsonValue> e : f.value().members().entrySet()) {
      JsonValue name = e.getValue();
      boolean usable =
          (name.kind() == JsonValue.Kind.STRING && !name.text().isBlank())
              || (name.kind() == JsonValue.Kind.NUMBER && name.text().matches("[1-9]\\d{0,3}"));
      if (!usable) {
        f.complain(
            name,
            "\"" + e.getKey() + "\" is " + name.shown() + ", expected the name of a column",
            "write it as in the file's header, or the column's number from 1");
      } else {
        Field.parse(e.getKey()).ifPresent(field -> m.put(field, name.text()));
      }
    }
    return m;
  }

  private Axes axes() {
    JsonFields f = job.object("axes", List.of("y", "rotation", "bottomX")).orElse(null);
    if (f == null) {
      return Axes.withDefaults();
    }
    return new Axes(
        f.word("y", false, JobText.words("up", false, "down", true)),
        f.word("rotation", false, JobText.words("counterclockwise", false, "clockwise", true)),
        f.word("bottomX", true, JobText.words("asSeenFromTop", true, "asSeenFromBottom", false)));
  }

  private Map<String, Side> sides() {
    Map<String, Side> m = new LinkedHashMap<>();
    JsonValue v = job.get("sides");
    if (v == null) {
      return m;
    }
    JsonFields f = new JsonFields(v, problems, List.copyOf(v.members().keySet()));
    for (String word : v.members().keySet()) {
      m.put(word, f.word(word, Side.TOP, JobText.words("top", Side.TOP, "bottom", Side.BOTTOM)));
    }
    return m;
  }

  private Machine machine() {
    Machine d = Machine.withDefaults();
    JsonFields f =
        job.object(
                "machine",
                List.of(
                    "resolution",
                    "rotationResolution",
                    "panelRotationResolution",
                    "panelRepeatability",
                    "panelLocation",
                    "accepts",
                    "nozzles"))
            .orElse(null);
    if (f == null) {
      return d;
    }
    JsonFields r = f.object("panelRepeatability", List.of("x", "y", "rotation")).orElse(null);
    return new Machine(
        f.number("resolution", d.resolutionMm(), Bound.POSITIVE),
        f.number("rotationResolution", d.rotationResolutionDeg(), Bound.POSITIVE),
        f.number("panelRotationResolution", d.panelRotationResolutionDeg(), Bound.POSITIVE),
        repeatability(r, "x"),
        repeatability(r, "y"),
        repeatability(r, "rotation"),
        f.word("panelLocation", d.location(), locations()),
        accepts(f, d.accepts()),
        nozzles(f));
  }

  private static Map<String, Double> nozzles(JsonFields machine) {
    Map<String, Double> m = new LinkedHashMap<>();
    for (JsonFields n : machine.objects("nozzles", List.of("name", "diameter"))) {
      String name = n.text("name").orElse("");
      double diameter = n.needed("diameter", Bound.POSITIVE);
      if (name.isEmpty()) {
        n.complain(n.value(), "a nozzle has no \"name\"", "name it as the placement file does");
      } else if (m.put(name, diameter) != null) {
        n.complain(n.value(), "nozzle '" + name + "' is listed twice", "leave one of the two");
      }
    }
    return m;
  }

  private static Map<String, PanelLocation> locations() {
    Map<String, PanelLocation> m = new LinkedHashMap<>();
    for (PanelLocation l : PanelLocation.values()) {
      m.put(l.key(), l);
    }
    return m;
  }

  private static double repeatability(@Nullable JsonFields f, String key) {
    return f == null ? Double.NaN : f.number(key, Double.NaN, Bound.NOT_NEGATIVE);
  }

  private Set<TrimKind> accepts(JsonFields machine, Set<TrimKind> all) {
    if (machine.get("accepts") == null) {
      return all;
    }
    Set<TrimKind> kinds = EnumSet.noneOf(TrimKind.class);
    List<String> known = java.util.Arrays.stream(TrimKind.values()).map(TrimKind::key).toList();
    for (JsonValue v : machine.list("accepts")) {
      TrimKind k = TrimKind.parse(v.text()).orElse(null);
      if (k != null) {
        kinds.add(k);
      } else {
        List<String> near = Nearest.of(v.text(), known, 1);
        machine.complain(
            v,
            "\"accepts\" has " + v.shown() + ", which is not known",
            near.isEmpty()
                ? "use " + String.join(", ", known)
                : "did you mean \"" + near.get(0) + "\"");
      }
    }
    return kinds;
  }

  private Measurement measurement() {
    Measurement d = Measurement.withDefaults();
    JsonFields f =
        job.object(
                "measurement", List.of("reference", "uncertainty", "rotationUncertainty", "bias"))
            .orElse(null);
    if (f == null) {
      return d;
    }
    Map<String, Reference> references = new LinkedHashMap<>();
    references.put("lands", Reference.LANDS);
    references.put("fiducials", Reference.FIDUCIALS);
    references.put("machine", Reference.MACHINE);
    return new Measurement(
        f.word("reference", d.reference(), references),
        f.number("uncertainty", d.uncertaintyMm(), Bound.NOT_NEGATIVE),
        f.number("rotationUncertainty", d.rotationUncertaintyDeg(), Bound.NOT_NEGATIVE),
        f.number("bias", d.biasMm(), Bound.NOT_NEGATIVE));
  }
}
