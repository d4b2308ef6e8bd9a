package org.padtrue.plan.model;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Factor;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.TermFamily;

/**
 * Kinds of terms, in the order in which a term that cannot be told from others is charged: to the
 * first of them. A shift and a common offset that are one and the same are called shift; a type and
 * the one feeder it comes from are called part.
 */
public final class MeasuringPlanFactor implements Comparable<MeasuringPlanFactor> {
  /** Kinds of terms; those of levels are told apart by their factor. */
  public enum Kind {
    SHIFT,
    ROTATION,
    SCALE_X,
    SCALE_Y,
    SQUARENESS,
    ARRAY,
    COMMON,
    LEVEL
  }

  private static final List<MeasuringPlanFactor> ALL = new ArrayList<>();

  public static final MeasuringPlanFactor SHIFT =
      new MeasuringPlanFactor(Kind.SHIFT, TermFamily.SHIFT);
  public static final MeasuringPlanFactor ROTATION =
      new MeasuringPlanFactor(Kind.ROTATION, TermFamily.ROTATION);
  public static final MeasuringPlanFactor SCALE_X =
      new MeasuringPlanFactor(Kind.SCALE_X, FixedTerm.SCALE_X.label(), null);
  public static final MeasuringPlanFactor SCALE_Y =
      new MeasuringPlanFactor(Kind.SCALE_Y, FixedTerm.SCALE_Y.label(), null);
  public static final MeasuringPlanFactor SQUARENESS =
      new MeasuringPlanFactor(Kind.SQUARENESS, FixedTerm.SQUARENESS.label(), null);
  public static final MeasuringPlanFactor ARRAY =
      new MeasuringPlanFactor(Kind.ARRAY, TermFamily.ARRAY.key() + " step", null);
  public static final MeasuringPlanFactor COMMON =
      new MeasuringPlanFactor(Kind.COMMON, TermFamily.COMMON);

  /** Factors with levels, whose offsets have an assumed spread. */
  public static final List<MeasuringPlanFactor> LEVELS =
      Factor.carried().stream().map(f -> new MeasuringPlanFactor(Kind.LEVEL, f.key(), f)).toList();

  private final Kind kind;
  private final String word;
  private final @Nullable Factor factor;
  private final int rank;

  private MeasuringPlanFactor(Kind kind, TermFamily family) {
    this(kind, family.key(), null);
  }

  private MeasuringPlanFactor(Kind kind, String word, @Nullable Factor factor) {
    this.kind = kind;
    this.word = word;
    this.factor = factor;
    rank = ALL.size();
    ALL.add(this);
  }

  /** All of them, in order. */
  static List<MeasuringPlanFactor> values() {
    return List.copyOf(ALL);
  }

  public Kind kind() {
    return kind;
  }

  /** The trade's word. */
  public String word() {
    return word;
  }

  /** The factor of a term of a level. */
  public Factor factor() {
    if (factor == null) {
      throw new IllegalStateException(word + " has no levels");
    }
    return factor;
  }

  /** True for factors with levels. */
  public boolean random() {
    return factor != null;
  }

  /** True for the terms of part types. */
  public boolean part() {
    return factor == Factor.PART;
  }

  /** The level of this factor at a candidate, or null when it has none. */
  public @Nullable String level(MeasuringPlanCandidate c) {
    return factor == null ? null : factor.level(c.placement());
  }

  @Override
  public int compareTo(MeasuringPlanFactor o) {
    return Integer.compare(rank, o.rank);
  }

  @Override
  public String toString() {
    return word;
  }
}
