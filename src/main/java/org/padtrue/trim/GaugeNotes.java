package org.padtrue.trim;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The sentences of a gauge study. */
final class GaugeNotes {
  private static final int FEW_OPERATORS = 3;
  private static final double FEW_DEGREES = 20;
  private static final double SURE = 2;

  private GaugeNotes() {}

  static String verdict(
      String axis,
      String unit,
      GaugeVerdict verdict,
      double share,
      boolean ofTolerance,
      double gauge) {
    if (verdict == GaugeVerdict.NOT_JUDGED) {
      return axis
          + ": not judged, there is neither a tolerance nor variation between placements to compare"
          + " with.";
    }
    String does =
        switch (verdict) {
          case FIT -> "fit to decide by";
          case CONDITIONAL -> "conditionally fit: decide only on what is clearly larger";
          default -> "not fit to decide by";
        };
    return String.format(
        Locale.ROOT,
        "%s: %s; the gauge (standard deviation %s %s) takes %.0f %% of %s (below 10 %% fit, above"
            + " 30 %% unfit: AIAG, Measurement Systems Analysis).",
        axis,
        does,
        small(gauge),
        unit,
        100 * share,
        ofTolerance ? "the tolerance" : "the study variation");
  }

  static List<String> of(List<GaugeAxis> axes, GaugeSeries x, @Nullable GaugeBias bias) {
    List<String> s = new ArrayList<>();
    for (GaugeAxis a : axes) {
      s.add(method(a));
    }
    int operators = x.operators().size();
    if (operators == 1) {
      s.add("One operator: how persons differ is not known; reproducibility is counted as 0.");
    } else if (operators <= FEW_OPERATORS) {
      s.add(operators + " operators tell little of how persons differ in general.");
    }
    double df = axes.get(0).repeatabilityDegreesOfFreedom();
    if (df < FEW_DEGREES) {
      s.add(
          String.format(
              Locale.ROOT,
              "Repeatability rests on %.0f degrees of freedom: it may truly be anything from %.0f to"
                  + " %.0f %% of what is printed (95 %%).",
              df,
              100 * axes.get(0).repeatabilityLow() / axes.get(0).components().repeatability(),
              100 * axes.get(0).repeatabilityHigh() / axes.get(0).components().repeatability()));
    }
    s.add(registration(axes.get(0), axes.get(1)));
    s.add(bias(bias));
    return s;
  }

  private static String method(GaugeAxis a) {
    if (a.anova() == null) {
      return a.axis()
          + ": not every operator read every placement equally often, so the parts are estimated by"
          + " restricted maximum likelihood (REML).";
    }
    if (Double.isNaN(a.anova().interaction().meanSquare())) {
      return a.axis() + ": one-way analysis of variance.";
    }
    double p = a.anova().interaction().p();
    if (Double.isNaN(p)) {
      return a.axis()
          + ": analysis of variance; without repeats the interaction of person and placement cannot"
          + " be told from repeatability and is counted in it.";
    }
    return String.format(
        Locale.ROOT,
        "%s: analysis of variance; interaction of person and placement p = %.3f, %s (rule: pooled"
            + " above %.2f, Bancroft 1964).",
        a.axis(),
        p,
        a.anova().pooled() ? "pooled with repeatability" : "kept",
        GaugeAnova.POOL_ABOVE);
  }

  private static String registration(GaugeAxis x, GaugeAxis y) {
    double rx = x.components().registration();
    double ry = y.components().registration();
    if (rx > 0 || ry > 0) {
      return String.format(
          Locale.ROOT,
          "Of the repeatability, registering the panel anew makes x %s mm, y %s mm: all readings of"
              + " one session share it, so more placements do not average it out.",
          small(rx),
          small(ry));
    }
    return "Repeats show what was repeated: if the panel was not registered anew between trials,"
        + " registering is not in these numbers.";
  }

  private static String bias(@Nullable GaugeBias b) {
    if (b == null) {
      return "No placement was read with the panel turned by 180 degrees: a bias of camera or person"
          + " is not in these numbers, and it does not average out.";
    }
    boolean sure =
        Math.abs(b.xMm()) > SURE * b.standardErrorXMm()
            || Math.abs(b.yMm()) > SURE * b.standardErrorYMm();
    return String.format(
        Locale.ROOT,
        "Bias of camera and person from turning: x %s mm (standard error %s), y %s mm (standard"
            + " error %s); %s.%s",
        small(b.xMm()),
        small(b.standardErrorXMm()),
        small(b.yMm()),
        small(b.standardErrorYMm()),
        sure
            ? "it does not average out: enter " + small(b.biasMm()) + " as measurement.bias"
            : "not clearly different from none",
        b.registrationSeen()
            ? ""
            : " The standard errors rest on the spread between placements only; what registering"
                + " anew changes is not in them.");
  }

  private static String small(double v) {
    return Double.isNaN(v) ? "unknown" : String.format(Locale.ROOT, "%.4f", v);
  }
}
