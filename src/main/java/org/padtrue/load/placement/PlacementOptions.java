package org.padtrue.load.placement;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.bill.BillOption;
import org.padtrue.load.table.Field;
import org.padtrue.panel.Side;
import org.padtrue.quantity.LengthUnit;

/**
 * What the job says about its placement file.
 *
 * @param columns our name to the file's, or to the number of the column, where not recognised
 * @param unit unit where the file states none; null when the job does not say either
 * @param axes how the file's axes run
 * @param sides words of the file's side column that do not say by themselves which side they mean
 * @param decimal decimal sign where the file leaves it open; null when not said
 * @param bill the bill of materials beside the file, or null
 * @param typeless true where a list without any column of part types will do
 */
public record PlacementOptions(
    Map<Field, String> columns,
    @Nullable LengthUnit unit,
    Axes axes,
    Map<String, Side> sides,
    @Nullable Character decimal,
    @Nullable BillOption bill,
    boolean typeless) {

  public PlacementOptions {
    columns = Map.copyOf(columns);
    sides = Map.copyOf(sides);
  }

  /** Nothing said: the file must speak for itself. */
  public static PlacementOptions withDefaults() {
    return new PlacementOptions(Map.of(), null, Axes.withDefaults(), Map.of(), null, null, false);
  }

  /** The same with a bill of materials. */
  public PlacementOptions with(@Nullable BillOption other) {
    return new PlacementOptions(columns, unit, axes, sides, decimal, other, typeless);
  }

  /** The same where a list without any column of part types will do. */
  public PlacementOptions withoutTypes() {
    return new PlacementOptions(columns, unit, axes, sides, decimal, bill, true);
  }
}
