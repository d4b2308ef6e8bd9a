package org.padtrue.trim;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Kinds of terms, in the order in which a term that cannot be told from others is charged: to the
 * first of them. A shift and a common offset that are one and the same are called shift; a type and
 * the one feeder it comes from are called part.
 */
enum MeasuringPlanFactor {
  SHIFT("shift"),
  ROTATION("rotation"),
  SCALE_X("scale x"),
  SCALE_Y("scale y"),
  SQUARENESS("squareness"),
  ARRAY("array step"),
  COMMON("common"),
  PART("part"),
  NOZZLE("nozzle"),
  FEEDER("feeder"),
  HEAD("head");

  /** Factors with levels, whose offsets have an assumed spread. */
  static final List<MeasuringPlanFactor> LEVELS = List.of(PART, NOZZLE, FEEDER, HEAD);

  private final String word;

  MeasuringPlanFactor(String word) {
    this.word = word;
  }

  /** The trade's word. */
  String word() {
    return word;
  }

  /** True for factors with levels. */
  boolean random() {
    return LEVELS.contains(this);
  }

  /** The level of this factor at a candidate, or null when it has none. */
  @Nullable String level(MeasuringPlanCandidate c) {
    return switch (this) {
      case PART -> c.placement().part();
      case NOZZLE -> c.placement().nozzle();
      case FEEDER -> c.placement().feeder();
      case HEAD -> c.placement().head();
      default -> null;
    };
  }
}
