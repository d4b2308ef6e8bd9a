package org.padtrue;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noCodeUnits;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import com.tngtech.archunit.library.Architectures;
import java.util.List;

/** Arrows between packages go one way; each outside library has one home. */
@AnalyzeClasses(packages = "org.padtrue", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {
  /** Rooms of one row do not know each other, nor any room of a later row. */
  private static final List<List<String>> ROWS =
      List.of(
          List.of("quantity", "problem", "numeric", "trim"),
          List.of("panel"),
          List.of("fit", "mixed", "land", "drift", "history", "imaging", "load", "plan", "door"),
          List.of("firstarticle", "compare", "gauge"),
          List.of("check", "enough", "log", "room"),
          List.of("report"),
          List.of("apply"),
          List.of("web"),
          List.of("cli"));

  @ArchTest static final ArchRule layers = layers();

  private static ArchRule layers() {
    Architectures.LayeredArchitecture a =
        Architectures.layeredArchitecture().consideringOnlyDependenciesInLayers();
    for (List<String> row : ROWS) {
      for (String room : row) {
        a = a.layer(room).definedBy("org.padtrue." + room + "..");
      }
    }
    for (int i = 0; i < ROWS.size(); i++) {
      String[] later =
          ROWS.subList(i + 1, ROWS.size()).stream().flatMap(List::stream).toArray(String[]::new);
      for (String room : ROWS.get(i)) {
        a =
            later.length == 0
                ? a.whereLayer(room).mayNotBeAccessedByAnyLayer()
                : a.whereLayer(room).mayOnlyBeAccessedByLayers(later);
      }
    }
    return a;
  }

  @ArchTest
  static final ArchRule everyRoomHasItsRow =
      classes()
          .should()
          .resideInAnyPackage(
              ROWS.stream()
                  .flatMap(List::stream)
                  .map(room -> "org.padtrue." + room + "..")
                  .toArray(String[]::new));

  /** Sub-packages too: none knows one that knows it. */
  @ArchTest
  static final ArchRule noCycles = slices().matching("org.padtrue.(**)").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule standardStreamsOnlyInCli =
      noClasses()
          .that()
          .resideOutsideOfPackage("org.padtrue.cli..")
          .should(com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS);

  /** A fault of the program must never be told as a fault of the data. */
  @ArchTest
  static final ArchRule misuseIsNeverTakenForTooFewData =
      noCodeUnits()
          .that()
          .areDeclaredInClassesThat()
          .resideOutsideOfPackage("org.padtrue.web.server..")
          .should(catchMisuse());

  private static ArchCondition<JavaCodeUnit> catchMisuse() {
    return new ArchCondition<>("catch IllegalArgumentException") {
      @Override
      public void check(JavaCodeUnit unit, ConditionEvents events) {
        boolean caught =
            unit.getTryCatchBlocks().stream()
                .flatMap(b -> b.getCaughtThrowables().stream())
                .anyMatch(t -> t.isEquivalentTo(IllegalArgumentException.class));
        events.add(new SimpleConditionEvent(unit, caught, unit.getFullName()));
      }
    };
  }

  private static ArchRule home(String library, String... homes) {
    return noClasses()
        .that()
        .resideOutsideOfPackages(homes)
        .should()
        .dependOnClassesThat()
        .resideInAPackage(library);
  }

  @ArchTest
  static final ArchRule commonsMath =
      home(
          "org.apache.commons.math3..",
          "org.padtrue.numeric..",
          "org.padtrue.fit..",
          "org.padtrue.mixed..",
          "org.padtrue.drift..",
          "org.padtrue.plan..",
          "org.padtrue.check..",
          "org.padtrue.gauge..",
          "org.padtrue.land..",
          "org.padtrue.imaging..");

  @ArchTest
  static final ArchRule jackson =
      home("com.fasterxml.jackson..", "org.padtrue.load..", "org.padtrue.report..");

  @ArchTest static final ArchRule xchart = home("org.knowm.xchart..", "org.padtrue.report.plot..");

  @ArchTest
  static final ArchRule openhtmltopdf =
      home("com.openhtmltopdf..", "org.padtrue.report.record.print..");

  @ArchTest
  static final ArchRule pdfbox = home("org.apache.pdfbox..", "org.padtrue.report.record.print..");

  @ArchTest static final ArchRule picocli = home("picocli..", "org.padtrue.cli..");

  @ArchTest static final ArchRule jts = home("org.locationtech.jts..", "org.padtrue.land..");

  @ArchTest static final ArchRule ojalgo = home("org.ojalgo..", "org.padtrue.room..");

  @ArchTest static final ArchRule opencv = home("org.opencv..", "org.padtrue.imaging..");

  @ArchTest static final ArchRule javacpp = home("org.bytedeco..", "org.padtrue.imaging..");

  @ArchTest static final ArchRule pool = home("com.zaxxer..", "org.padtrue.history..");

  @ArchTest static final ArchRule javalin = home("io.javalin..", "org.padtrue.web..");

  @ArchTest static final ArchRule jetty = home("org.eclipse.jetty..", "org.padtrue.web..");

  @ArchTest static final ArchRule templates = home("gg.jte..", "org.padtrue.web..");

  @ArchTest static final ArchRule markdown = home("org.commonmark..", "org.padtrue.web.help..");

  @ArchTest static final ArchRule sql = home("java.sql..", "org.padtrue.history..");
}
