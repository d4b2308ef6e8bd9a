package org.padtrue;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.Architectures;

/** Arrows between packages go one way; each outside library has one home. */
@AnalyzeClasses(packages = "org.padtrue", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {
  private static final String[] ROOMS = {
    "fit", "mixed", "drift", "trim", "land", "history", "imaging", "load"
  };

  @ArchTest static final ArchRule layers = layers();

  private static ArchRule layers() {
    Architectures.LayeredArchitecture a =
        Architectures.layeredArchitecture().consideringOnlyDependenciesInLayers();
    a = a.layer("quantity").definedBy("org.padtrue.quantity..");
    a = a.layer("problem").definedBy("org.padtrue.problem..");
    a = a.layer("panel").definedBy("org.padtrue.panel..");
    for (String r : ROOMS) {
      a = a.optionalLayer(r).definedBy("org.padtrue." + r + "..");
    }
    a = a.optionalLayer("analysis").definedBy("org.padtrue.analysis..");
    a = a.optionalLayer("report").definedBy("org.padtrue.report..");
    a = a.optionalLayer("cli").definedBy("org.padtrue.cli..");
    a = a.optionalLayer("web").definedBy("org.padtrue.web..");
    // Rooms do not know each other; analysis joins them.
    for (String r : ROOMS) {
      a = a.whereLayer(r).mayOnlyBeAccessedByLayers("analysis", "report", "cli", "web");
    }
    a = a.whereLayer("analysis").mayOnlyBeAccessedByLayers("report", "cli", "web");
    a = a.whereLayer("report").mayOnlyBeAccessedByLayers("cli", "web");
    a = a.whereLayer("web").mayOnlyBeAccessedByLayers("cli");
    a = a.whereLayer("cli").mayNotBeAccessedByAnyLayer();
    return a;
  }

  @ArchTest
  static final ArchRule quantityImportsNothingOfOurs =
      noClasses()
          .that()
          .resideInAPackage("org.padtrue.quantity..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.padtrue.problem..", "org.padtrue.panel..");

  @ArchTest
  static final ArchRule problemImportsNothingOfOurs =
      noClasses()
          .that()
          .resideInAPackage("org.padtrue.problem..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.padtrue.quantity..", "org.padtrue.panel..");

  @ArchTest
  static final ArchRule noCycles = slices().matching("org.padtrue.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule standardStreamsOnlyInCli =
      noClasses()
          .that()
          .resideOutsideOfPackage("org.padtrue.cli..")
          .should(com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS);

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
          "org.padtrue.trim..",
          "org.padtrue.land..",
          "org.padtrue.imaging..");

  @ArchTest
  static final ArchRule jackson =
      home("com.fasterxml.jackson..", "org.padtrue.load..", "org.padtrue.report..");

  @ArchTest static final ArchRule xchart = home("org.knowm.xchart..", "org.padtrue.report.plot..");

  @ArchTest
  static final ArchRule openhtmltopdf =
      home("com.openhtmltopdf..", "org.padtrue.report.firstarticle..");

  @ArchTest
  static final ArchRule pdfbox = home("org.apache.pdfbox..", "org.padtrue.report.firstarticle..");

  @ArchTest static final ArchRule picocli = home("picocli..", "org.padtrue.cli..");

  @ArchTest static final ArchRule jts = home("org.locationtech.jts..", "org.padtrue.land..");

  @ArchTest static final ArchRule opencv = home("org.opencv..", "org.padtrue.imaging..");

  @ArchTest static final ArchRule javacpp = home("org.bytedeco..", "org.padtrue.imaging..");

  @ArchTest static final ArchRule javalin = home("io.javalin..", "org.padtrue.web..");

  @ArchTest static final ArchRule jetty = home("org.eclipse.jetty..", "org.padtrue.web..");

  @ArchTest static final ArchRule templates = home("gg.jte..", "org.padtrue.web..");

  @ArchTest static final ArchRule markdown = home("org.commonmark..", "org.padtrue.web.help..");

  @ArchTest static final ArchRule sql = home("java.sql..", "org.padtrue.history..");
}
