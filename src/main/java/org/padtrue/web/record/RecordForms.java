package org.padtrue.web.record;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.padtrue.report.record.CharacteristicKind;
import org.padtrue.report.record.DecisionRule;
import org.padtrue.report.record.Identification;
import org.padtrue.report.record.IdentificationField;
import org.padtrue.report.record.MeasuringTool;
import org.padtrue.report.record.PlacementText;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/** Reads the form of a record. */
final class RecordForms {
  /** Rows for tools on the form. */
  static final int TOOLS = 4;

  private static final int MOST_COVERAGE = 10;

  private RecordForms() {}

  static RecordSheet of(Context ctx, String check) {
    Identification i = Identification.none();
    for (IdentificationField f : IdentificationField.values()) {
      String v =
          f == IdentificationField.COMMENTS ? Fields.note(ctx, f.key()) : Fields.line(ctx, f.key());
      if (!v.isEmpty()) {
        i = i.with(f, v);
      }
    }
    return new RecordSheet(
        new Identification(
            i.values(), tools(ctx), about(ctx, "nonconformances"), about(ctx, "designators")),
        rule(Fields.line(ctx, "rule")),
        coverage(Fields.line(ctx, "coverage")),
        check);
  }

  private static DecisionRule rule(String text) {
    for (DecisionRule r : DecisionRule.values()) {
      if (r.key().equals(text) || text.isEmpty() && r == DecisionRule.SIMPLE) {
        return r;
      }
    }
    throw Refusal.bad("The decision rule is simple or guarded.");
  }

  private static double coverage(String text) {
    double k = text.isEmpty() ? 2 : TypedNumbers.plain(text).orElse(Double.NaN);
    if (!(k > 0 && k <= MOST_COVERAGE)) {
      throw Refusal.bad("'" + text + "' is no coverage factor; 2 and 3 are usual.");
    }
    return k;
  }

  private static List<MeasuringTool> tools(Context ctx) {
    List<MeasuringTool> all = new ArrayList<>();
    for (int k = 1; k <= TOOLS; k++) {
      String name = Fields.line(ctx, "tool" + k);
      String id = Fields.line(ctx, "toolId" + k);
      String until = Fields.line(ctx, "toolUntil" + k);
      if (name.isEmpty()) {
        if (!id.isEmpty() || !until.isEmpty()) {
          throw Refusal.bad(
              "Tool " + k + " has a number or a date, and no name; write what it is.");
        }
        continue;
      }
      Set<CharacteristicKind> measures = EnumSet.noneOf(CharacteristicKind.class);
      for (String m : ctx.formParams("toolMeasures" + k)) {
        measures.add(
            CharacteristicKind.parse(m)
                .orElseThrow(() -> Refusal.bad("A tool measures x, y or rotation.")));
      }
      all.add(
          new MeasuringTool(
              name, id.isEmpty() ? null : id, until.isEmpty() ? null : until, measures));
    }
    return all;
  }

  /** One a line: placement, then what is said of it, with '=' or a blank between. */
  private static List<PlacementText> about(Context ctx, String name) {
    List<PlacementText> all = new ArrayList<>();
    for (String line : Fields.note(ctx, name).lines().filter(l -> !l.isBlank()).toList()) {
      String[] two = line.strip().split("\\s*=\\s*|\\s+", 2);
      if (two.length < 2 || two[0].isEmpty() || two[1].isBlank()) {
        throw Refusal.bad("'" + line.strip() + "': write the placement, then =, then the text.");
      }
      all.add(new PlacementText(two[0], two[1].strip()));
    }
    return all;
  }
}
