package org.padtrue.report.record;

import java.util.List;
import org.padtrue.panel.BoardIndex;

/**
 * One line of the accountability table. Values are in the unit of its kind; NaN does not apply or
 * is not known.
 *
 * @param number its number, from 1 (AS9102 form 3, field 5)
 * @param panel panel
 * @param board board of the panel
 * @param ref reference designator of the placement
 * @param part part type
 * @param kind what is measured
 * @param designator key, critical and the like, as the user says; empty for none (field 7)
 * @param nominal where it should be (field 8)
 * @param lower lower limit
 * @param upper upper limit
 * @param result what was measured (field 9)
 * @param deviation result minus nominal, as the analysis gives it
 * @param expandedUncertainty of the result
 * @param conformity what the decision rule says
 * @param tools numbers of the tools, from 1; empty when none is named (field 10)
 * @param nonconformance number of its document; empty for none (field 11)
 * @param comment what a reader should know; empty for nothing (field 12)
 */
public record Characteristic(
    int number,
    String panel,
    BoardIndex board,
    String ref,
    String part,
    CharacteristicKind kind,
    String designator,
    double nominal,
    double lower,
    double upper,
    double result,
    double deviation,
    double expandedUncertainty,
    Conformity conformity,
    List<Integer> tools,
    String nonconformance,
    String comment) {
  public Characteristic {
    tools = List.copyOf(tools);
  }

  /** Reference location within the panel: column/row/ref (field 6). */
  public String location() {
    return board + "/" + ref;
  }
}
