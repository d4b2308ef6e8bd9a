package org.padtrue.load.part;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.padtrue.load.names.NameMatch;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/**
 * Writes a parts file for the part types of a list. What is sure carries its geometry and a note;
 * what a person has to agree to carries it too, and {@code complete} says what to look at; the rest
 * is a name with {@code complete}. A part type judges nothing while {@code complete} is there.
 */
public final class PartsText {
  private static final String AGAIN =
      "run parts again with --chip-codes inch or --chip-codes metric";

  private PartsText() {}

  /** The file. */
  public static String of(PartNames names) {
    return "{\"parts\": [\n"
        + names.entries().stream().map(PartsText::part).collect(Collectors.joining(",\n"))
        + "\n]}\n";
  }

  private static String part(PartNames.Entry e) {
    NameMatch m = e.match();
    PartType t = m.part();
    String library = m.type() + " of the starter library, " + m.how();
    return switch (m.level()) {
      case SAME_NAME, STANDARD -> t == null ? name(m) + "}" : body(t, "note", library);
      case LIKELY ->
          t == null
              ? name(m) + "}"
              : body(t, "complete", "looks like " + library + "; if it is, remove this line");
      case TWO_WAYS ->
          name(m)
              + ",\n \"complete\": "
              + text("the code is " + String.join(" or ", m.candidates()) + "; " + AGAIN)
              + "}";
      case NONE ->
          name(m)
              + ",\n \"complete\": "
              + text(
                  m.how()
                      + (m.candidates().isEmpty()
                          ? "; give"
                          : "; name the one it is by \"types\" in the job, or give")
                      + " kind, body, terminations and lands, or a tolerance")
              + "}";
    };
  }

  private static String name(NameMatch m) {
    return "{\"name\": " + text(m.name());
  }

  private static String body(PartType t, String key, String says) {
    StringBuilder b = new StringBuilder();
    b.append("{\"name\": ").append(text(t.name()));
    b.append(", \"kind\": ").append(text(kind(t.kind())));
    b.append(", \"symmetry\": ").append(t.symmetry());
    b.append(", \"selfCentres\": ").append(t.selfCentres());
    b.append(",\n \"").append(key).append("\": ").append(text(says));
    Rect body = t.body();
    if (body != null) {
      b.append(",\n \"body\": {\"length\": ").append(n(body.lengthMm()));
      b.append(", \"width\": ").append(n(body.widthMm()));
      if (!Double.isNaN(t.bodyHeightMm())) {
        b.append(", \"height\": ").append(n(t.bodyHeightMm()));
      }
      b.append("}");
    }
    b.append(",\n \"terminations\": ").append(rects(t.terminations()));
    b.append(",\n \"lands\": ").append(rects(t.lands()));
    Envelope e = t.envelope();
    if (e != null) {
      b.append(",\n \"envelope\": {\"length\": ").append(n(e.lengthMm()));
      b.append(", \"width\": ").append(n(e.widthMm()));
      b.append(", \"zMin\": ").append(n(e.zMinMm()));
      b.append(", \"zMax\": ").append(n(e.zMaxMm())).append("}");
    }
    return b.append("}").toString();
  }

  private static String rects(List<Rect> all) {
    return all.stream()
        .map(
            r ->
                "{\"x\": "
                    + n(r.xMm())
                    + ", \"y\": "
                    + n(r.yMm())
                    + ", \"length\": "
                    + n(r.lengthMm())
                    + ", \"width\": "
                    + n(r.widthMm())
                    + "}")
        .collect(Collectors.joining(", ", "[", "]"));
  }

  private static String kind(JointKind kind) {
    return PartsLoader.kinds().entrySet().stream()
        .filter(e -> e.getValue() == kind)
        .map(Map.Entry::getKey)
        .findFirst()
        .orElse("other");
  }

  private static String text(String s) {
    try {
      return new ObjectMapper().writeValueAsString(s);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String n(double v) {
    BigDecimal d = BigDecimal.valueOf(v).setScale(4, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return (d.scale() < 0 ? d.setScale(0) : d).toPlainString();
  }
}
