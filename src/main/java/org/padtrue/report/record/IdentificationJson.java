package org.padtrue.report.record;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import org.padtrue.report.json.JsonOut;

/** Writes an identification as {@link IdentificationFile} reads it. */
public final class IdentificationJson {
  private IdentificationJson() {}

  /** The file; fields that nobody gave are not in it. */
  public static byte[] bytes(Identification i) {
    ByteArrayOutputStream stream = new ByteArrayOutputStream();
    try (JsonOut out = new JsonOut(stream)) {
      out.begin();
      for (IdentificationField f : IdentificationField.values()) {
        if (i.value(f).isPresent()) {
          out.text(f.key(), i.value(f).get());
        }
      }
      out.list("tools", i.tools(), IdentificationJson::tool);
      out.list(
          "nonconformances",
          i.nonconformances(),
          (o, t) -> o.text("placement", t.placement()).text("number", t.text()));
      out.list(
          "designators",
          i.designators(),
          (o, t) -> o.text("placement", t.placement()).text("designator", t.text()));
      out.end();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return stream.toByteArray();
  }

  private static void tool(JsonOut out, MeasuringTool t) throws IOException {
    out.text("name", t.name());
    if (t.id() != null) {
      out.text("id", t.id());
    }
    if (t.calibratedUntil() != null) {
      out.text("calibratedUntil", t.calibratedUntil());
    }
    if (!t.measures().isEmpty()) {
      out.texts("measures", t.measures().stream().sorted().map(CharacteristicKind::key).toList());
    }
  }
}
