package org.padtrue.report.record;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What people say about the article; the program adds nothing to it.
 *
 * @param values fields that were given
 * @param tools measuring tools, in the order in which the table numbers them
 * @param nonconformances numbers of nonconformance documents, by placement
 * @param designators key, critical and the like, by placement
 */
public record Identification(
    Map<IdentificationField, String> values,
    List<MeasuringTool> tools,
    List<PlacementText> nonconformances,
    List<PlacementText> designators) {
  public Identification {
    values = Map.copyOf(values);
    tools = List.copyOf(tools);
    nonconformances = List.copyOf(nonconformances);
    designators = List.copyOf(designators);
  }

  /** Nothing given: every field is a line to fill in. */
  public static Identification none() {
    return new Identification(Map.of(), List.of(), List.of(), List.of());
  }

  /** A field's value. */
  public Optional<String> value(IdentificationField field) {
    return Optional.ofNullable(values.get(field));
  }

  /** The same with one field more, or another value for it. */
  public Identification with(IdentificationField field, String value) {
    Map<IdentificationField, String> all = new EnumMap<>(IdentificationField.class);
    all.putAll(values);
    all.put(field, value);
    return new Identification(all, tools, nonconformances, designators);
  }
}
