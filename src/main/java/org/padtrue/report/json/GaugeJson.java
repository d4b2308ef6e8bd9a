package org.padtrue.report.json;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.gauge.GaugeAxis;
import org.padtrue.gauge.GaugeBias;
import org.padtrue.gauge.GaugeComponents;
import org.padtrue.gauge.GaugeStudy;
import org.padtrue.report.file.OutputFolder;

/** {@code gauge.json}: a gauge study for other programs; mm and degrees, unknown is null. */
public final class GaugeJson {
  /** Value of the key {@code schema}. */
  public static final String SCHEMA = "padtrue/gauge/1";

  private GaugeJson() {}

  /**
   * Writes gauge.json into a folder.
   *
   * @param study what was found
   * @param partKnown false when nothing says where the placements belong, so that how they differ
   *     is not known
   * @param folder where to
   * @return the file
   */
  public static Path write(GaugeStudy study, boolean partKnown, Path folder) {
    try (OutputFolder out = new OutputFolder(folder)) {
      out.write("gauge.json", s -> write(study, partKnown, s));
      return out.commit().get(0);
    }
  }

  /**
   * Writes gauge.json into a stream, which is closed; as {@link #write(GaugeStudy, boolean, Path)}.
   */
  public static void write(GaugeStudy study, boolean partKnown, OutputStream stream)
      throws IOException {
    boolean operators = study.operators() > 1;
    boolean parts = partKnown && study.placements() > 1;
    try (JsonOut out = new JsonOut(stream)) {
      out.begin();
      out.text("schema", SCHEMA);
      out.text("verdict", partKnown ? study.verdict().key() : judged(study));
      out.whole("placements", study.placements())
          .whole("operators", study.operators())
          .whole("readings", study.readings())
          .flag("balanced", study.balanced());
      out.list("axes", study.axes(), (o, a) -> axis(o, a, parts, operators));
      bias(out, study.bias());
      out.begin("measurement")
          .number("uncertainty", study.uncertaintyMm())
          .number("rotationUncertainty", study.rotationUncertaintyDeg())
          .number("bias", study.bias() == null ? Double.NaN : study.bias().biasMm())
          .end();
      out.texts("suspects", study.suspects());
      out.texts("notes", study.notes());
      out.end();
    }
  }

  /** Without part-to-part variation only a tolerance can judge. */
  private static String judged(GaugeStudy study) {
    boolean tolerance = study.axes().stream().anyMatch(a -> !Double.isNaN(a.shareOfTolerance()));
    return tolerance ? study.verdict().key() : "notJudged";
  }

  /**
   * With one operator nothing is known of how operators differ, and with one placement likewise.
   */
  private static void axis(JsonOut out, GaugeAxis a, boolean partKnown, boolean operators)
      throws IOException {
    GaugeComponents c = a.components();
    boolean judged = partKnown || !Double.isNaN(a.shareOfTolerance());
    out.text("axis", a.axis())
        .number("repeatability", c.repeatability())
        .number("reproducibility", operators ? c.reproducibility() : Double.NaN)
        .number("interaction", operators ? c.interaction() : Double.NaN)
        .number("gauge", c.gauge())
        .number("part", partKnown ? c.part() : Double.NaN)
        .number("total", partKnown ? c.total() : Double.NaN)
        .number("shareOfTolerance", a.shareOfTolerance())
        .text("verdict", judged ? a.verdict().key() : "notJudged")
        .text("unit", a.unit())
        .text("method", a.anova() == null ? "reml" : "anova")
        .number("registration", c.registration())
        .number("shareOfStudy", partKnown ? a.shareOfStudy() : Double.NaN)
        .number("distinctCategories", partKnown ? a.distinctCategories() : Double.NaN)
        .number("degreesOfFreedom", a.repeatabilityDegreesOfFreedom())
        .number("repeatabilityLow95", a.repeatabilityLow())
        .number("repeatabilityHigh95", a.repeatabilityHigh());
    GaugeComponents r = a.reml();
    out.begin("reml")
        .number("repeatability", r.repeatability())
        .number("reproducibility", operators ? r.reproducibility() : Double.NaN)
        .number("interaction", operators ? r.interaction() : Double.NaN)
        .number("part", partKnown ? r.part() : Double.NaN)
        .end();
  }

  private static void bias(JsonOut out, @Nullable GaugeBias b) throws IOException {
    if (b == null) {
      out.nothing("bias");
      return;
    }
    out.begin("bias")
        .number("x", b.xMm())
        .number("y", b.yMm())
        .number("standardErrorX", b.standardErrorXMm())
        .number("standardErrorY", b.standardErrorYMm());
    List<GaugeBias.ByOperator> by = b.byOperator();
    out.list(
        "operators",
        by,
        (o, x) ->
            o.text("operator", x.operator())
                .whole("placements", x.placements())
                .number("x", x.xMm())
                .number("y", x.yMm()));
    out.end();
  }
}
