package org.padtrue.land;

import java.util.List;

/**
 * Linear expansion of a material, for telling a warm board from a warm machine.
 *
 * @param material name, as in {@code shared/expansion.csv}
 * @param low low end of the published range, 1e-6 per kelvin
 * @param high high end, 1e-6 per kelvin
 * @param value value to start with, 1e-6 per kelvin
 * @param source where it is from, with 'from memory' where so
 */
public record ThermalExpansion(
    String material, double low, double high, double value, String source) {
  private static final int COLUMNS = 5;

  /** Every material of the bundled table. */
  public static List<ThermalExpansion> published() {
    List<DataLines.Row> rows = DataLines.bundled("expansion.csv", COLUMNS);
    return rows.stream().skip(1).map(ThermalExpansion::row).toList();
  }

  private static ThermalExpansion row(DataLines.Row r) {
    List<String> c = r.cells();
    return new ThermalExpansion(
        c.get(0),
        Double.parseDouble(c.get(1)),
        Double.parseDouble(c.get(2)),
        Double.parseDouble(c.get(3)),
        c.get(4));
  }
}
