package org.padtrue.web.record;

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

  RecordSheetViews(BenchArticle article, String jobName, RecordSheet sheet) {
    this.article = article;
    this.jobName = jobName;
    this.sheet = sheet;
  }

  RecordSheetView of(
      List<String> problems,
      String summary,
      List<RecordSheetView.Check> checks,
      List<RecordSheetView.File> attached) {
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
        summary);
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
