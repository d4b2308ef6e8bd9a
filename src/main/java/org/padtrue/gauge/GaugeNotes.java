package org.padtrue.gauge;

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

  /**
   * The verdict in words.
   *
   * @param share the gauge's share, 1 = all
   * @param plusMinus the tolerance that it is a share of, to either side; NaN when it is one of the
   *     study variation
   * @param part part type whose tolerance that is; empty when not known
   * @param gauge standard deviation
   */
  static String verdict(
      String axis,
      String unit,
      GaugeVerdict verdict,
      double share,
      double plusMinus,
      String part,
      double gauge) {
    if (verdict == GaugeVerdict.NOT_JUDGED) {
      return axis
          + ": not judged, there is neither a tolerance nor variation between placements to compare"
          + " with.";
    }
    String does =
        switch (verdict) {
          case FIT -> "";
          case CONDITIONAL -> " (decide only on what is clearly larger than its spread)";
          default -> " (do not decide by it)";
        };
    String of =
        Double.isNaN(plusMinus)
            ? "the study variation"
            : String.format(
                Locale.ROOT,
                "the tightest tolerance, %s %s to either side%s",
                number(plusMinus),
                unit,
                part.isEmpty() ? "" : " (part type " + part + ")");
    return String.format(
        Locale.ROOT,
        "%s: measurement system %s%s; six of its standard deviations of %s %s take %.0f %% of %s."
            + " Below 10 %% acceptable, above 30 %% not acceptable (AIAG, Measurement Systems"
            + " Analysis).",
        axis,
        verdict.words(),
        does,
        small(gauge),
        unit,
        100 * share,
        of);
  }

  private static String number(double v) {
    return String.format(Locale.ROOT, "%.3g", v);
  }

  static List<String> of(List<GaugeAxis> axes, GaugeSeries x, @Nullable GaugeBias bias) {
    List<String> s = new ArrayList<>();
    for (GaugeAxis a : axes) {
      s.add(method(a));
    }
    int operators = x.operators().size();
    if (operators == 1) {
      s.add(
          "One operator: how persons differ is not known, and reproducibility is counted as 0; have"
              + " two more persons read the same placements.");
    } else if (operators <= FEW_OPERATORS) {
      s.add(
          operators
              + " operators tell little of how persons differ in general; where reproducibility"
              + " decides, have more persons read the same placements.");
    }
    double df = axes.get(0).repeatabilityDegreesOfFreedom();
    if (df < FEW_DEGREES) {
      s.add(
          String.format(
              Locale.ROOT,
              "Repeatability rests on %.0f degrees of freedom: it may truly be anything from %.0f"
                  + " to %.0f %% of what is printed (95 %% interval); more placements or trials"
                  + " narrow it.",
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
          + " be told from repeatability and is counted in it; to tell them apart, have each person"
          + " read each placement twice.";
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
        + " registering is not in these numbers; to have it in, take the panel out and register it"
        + " anew before every session.";
  }

  private static String bias(@Nullable GaugeBias b) {
    if (b == null) {
      return "No placement was read with the panel turned by 180 degrees: a bias of camera or"
          + " person is not in these numbers, and it does not average out; read the same"
          + " placements once more with the panel turned.";
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
