package org.padtrue.web.record;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.padtrue.report.record.CharacteristicKind;
import org.padtrue.report.record.Identification;
import org.padtrue.report.record.IdentificationField;
import org.padtrue.report.record.MeasuringTool;
import org.padtrue.report.record.PlacementText;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.server.ShownNumbers;

/** Makes the form of a record as it was filled in. */
final class RecordSheetViews {
  private final BenchArticle article;
  private final String jobName;
  private final RecordSheet sheet;
  private final RecordSheet stands;

  RecordSheetViews(BenchArticle article, String jobName, RecordSheet sheet, RecordSheet stands) {
    this.article = article;
    this.jobName = jobName;
    this.sheet = sheet;
    this.stands = stands;
  }

  RecordSheetView of(
      List<String> problems,
      String summary,
      List<RecordSheetView.Check> checks,
      List<RecordSheetView.File> attached)
      throws IOException {
    Identification i = sheet.identification();
    return new RecordSheetView(
        article.id(),
        article.about().name(),
        article.about().job(),
        jobName,
        problems,
        groups(i),
        tools(i),
        lines(i.nonconformances()),
        lines(i.designators()),
        sheet.rule() == org.padtrue.report.record.DecisionRule.GUARDED,
        ShownNumbers.number(sheet.coverage(), 3),
        checks,
        attached,
        !RecordSheet.identificationFile(article.folder()).isEmpty(),
        summary,
        stands.mark(),
        sheet == stands ? List.of() : clashes());
  }

  /** Where something else stands on disk than was typed, one sentence each. */
  private List<String> clashes() {
    Identification mine = sheet.identification();
    Identification theirs = stands.identification();
    List<String> all = new ArrayList<>();
    for (IdentificationField f : IdentificationField.values()) {
      differ(f.label(), theirs.value(f).orElse(""), mine.value(f).orElse(""), all);
    }
    differ("Measured with", tools(theirs.tools()), tools(mine.tools()), all);
    differ("Nonconformances", lines(theirs.nonconformances()), lines(mine.nonconformances()), all);
    differ("Designators", lines(theirs.designators()), lines(mine.designators()), all);
    differ("Decision rule", stands.rule().key(), sheet.rule().key(), all);
    differ(
        "Coverage factor",
        ShownNumbers.number(stands.coverage(), 3),
        ShownNumbers.number(sheet.coverage(), 3),
        all);
    differ("Check of the trims", stands.check(), sheet.check(), all);
    return all;
  }

  private static void differ(String what, String theirs, String mine, List<String> all) {
    if (!theirs.equals(mine)) {
      all.add(what + ": another page kept " + said(theirs) + "; you typed " + said(mine) + ".");
    }
  }

  private static String said(String text) {
    return text.isEmpty() ? "nothing" : "\u201c" + text.replace("\n", ", ") + "\u201d";
  }

  private static String tools(List<MeasuringTool> tools) {
    return tools.stream()
        .map(
            t ->
                String.join(
                    " ",
                    t.name(),
                    t.id() == null ? "" : t.id(),
                    t.calibratedUntil() == null ? "" : t.calibratedUntil(),
                    t.measures().stream()
                        .sorted()
                        .map(CharacteristicKind::key)
                        .collect(Collectors.joining(" "))))
        .map(String::strip)
        .collect(Collectors.joining("; "));
  }

  private static List<RecordSheetView.Group> groups(Identification i) {
    return List.of(
        group(i, "Part", IdentificationField.PART_NUMBER, IdentificationField.ADDITIONAL_CHANGES),
        group(
            i,
            "Process",
            IdentificationField.PROCESS_REFERENCE,
            IdentificationField.NONCONFORMANCE),
        group(
            i,
            "Placing and measuring",
            IdentificationField.MACHINE,
            IdentificationField.CONDITIONS),
        group(i, "People", IdentificationField.VERIFIED_BY, IdentificationField.COMMENTS));
  }

  /** Fields from one to another, in the order of the form. */
  private static RecordSheetView.Group group(
      Identification i, String name, IdentificationField from, IdentificationField to) {
    List<RecordSheetView.Field> fields = new ArrayList<>();
    for (IdentificationField f : IdentificationField.values()) {
      if (f.compareTo(from) >= 0 && f.compareTo(to) <= 0) {
        fields.add(
            new RecordSheetView.Field(
                f.key(),
                f.label() + (f.form1() > 0 ? " (field " + f.form1() + ")" : ""),
                i.value(f).orElse(""),
                f == IdentificationField.COMMENTS));
      }
    }
    return new RecordSheetView.Group(name, fields);
  }

  private static List<RecordSheetView.Tool> tools(Identification i) {
    List<RecordSheetView.Tool> all = new ArrayList<>();
    for (int k = 1; k <= RecordForms.TOOLS; k++) {
      MeasuringTool t = k <= i.tools().size() ? i.tools().get(k - 1) : null;
      all.add(
          t == null
              ? new RecordSheetView.Tool(k, "", "", "", List.of())
              : new RecordSheetView.Tool(
                  k,
                  t.name(),
                  t.id() == null ? "" : t.id(),
                  t.calibratedUntil() == null ? "" : t.calibratedUntil(),
                  t.measures().stream().sorted().map(CharacteristicKind::key).toList()));
    }
    return all;
  }

  private static String lines(List<PlacementText> all) {
    return all.stream()
        .map(t -> t.placement() + " = " + t.text())
        .collect(Collectors.joining("\n"));
  }
}
