package org.padtrue.land.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LandFit;
import org.padtrue.land.Overhang;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/** The starter library: made by the rule, complete, and its parts sit on their own lands. */
class PartsLibraryTest {
  private static final AcceptanceLimits LIMITS = AcceptanceLimits.published();
  private static final Map<String, PartType> PARTS = new LinkedHashMap<>();

  @BeforeAll
  static void read() throws IOException {
    JsonNode root = new ObjectMapper().readTree(Path.of("shared/parts.json").toFile());
    for (JsonNode p : root.get("parts")) {
      PartType t = part(p);
      assertThat(PARTS.put(t.name(), t)).as(t.name()).isNull();
    }
  }

  private static PartType part(JsonNode p) {
    JsonNode body = p.get("body");
    JsonNode e = p.get("envelope");
    return new PartType(
        p.get("name").asText(),
        kind(p.get("kind").asText()),
        p.get("symmetry").asInt(),
        p.get("selfCentres").asBoolean(),
        new Rect(0, 0, body.get("length").asDouble(), body.get("width").asDouble()),
        body.get("height").asDouble(),
        rects(p.get("terminations")),
        rects(p.get("lands")),
        new Envelope(
            e.get("length").asDouble(),
            e.get("width").asDouble(),
            e.get("zMin").asDouble(),
            e.get("zMax").asDouble()),
        null);
  }

  private static JointKind kind(String key) {
    return switch (key) {
      case "chip" -> JointKind.CHIP;
      case "melf" -> JointKind.MELF;
      case "gullWing" -> JointKind.GULL_WING;
      case "noLead" -> JointKind.NO_LEAD;
      case "ball" -> JointKind.BALL;
      case "other" -> JointKind.OTHER;
      default -> throw new IllegalArgumentException(key);
    };
  }

  private static List<Rect> rects(JsonNode list) {
    List<Rect> out = new ArrayList<>();
    for (JsonNode r : list) {
      out.add(
          new Rect(
              r.get("x").asDouble(),
              r.get("y").asDouble(),
              r.get("length").asDouble(),
              r.get("width").asDouble()));
    }
    return out;
  }

  @Test
  void fileIsWhatTheRuleGives() throws IOException {
    assertThat(Files.readString(Path.of("shared/parts.json")))
        .isEqualTo(LibraryGenerator.generate(Path.of("shared/outlines.csv")));
  }

  @Test
  void familiesAreComplete() {
    assertThat(PARTS.keySet())
        .contains("R01005", "R0201", "R0402", "R0603", "R0805", "R1206", "R1210", "R2010", "R2512")
        .contains("C0402", "C0603", "MELF-0204", "SOD-123", "SOD-323", "SOT-23", "SOT-223")
        .contains("SOIC-8", "SOIC-16W", "TSSOP-16", "LQFP-48", "LQFP-144", "QFN-16-3x3")
        .contains("BGA-256-P1.0", "HDR-2x05-P2.54-CAP");
  }

  /** Where nothing deviates every termination lies over its land, and class 3 leaves room. */
  @Test
  void everyPartSitsOnItsLands() {
    PARTS.forEach(
        (name, p) -> {
          for (int cls = 1; cls <= 3; cls++) {
            double margin = LandFit.of(p, LIMITS, cls).margin(0, 0, 0);
            // less than this and a good machine (scatter 0.015 mm) could not hold class 3
            assertThat(margin).as(name + " class " + cls).isGreaterThan(0.05);
          }
          for (Overhang o : Overhang.of(p, 0, 0, 0)) {
            if (p.kind() != JointKind.BALL && !Double.isNaN(o.endMm())) {
              assertThat(o.endMm()).as(name).isNegative();
              assertThat(o.sideMm()).as(name).isLessThan(0.02);
              assertThat(o.overlapMm()).as(name).isGreaterThan(0.05);
            }
          }
        });
  }

  /** Turned by a few degrees a chip still sits; by a quarter turn a chip never does. */
  @Test
  void quarterTurnsAreOutsideUnlessTheyLookTheSame() {
    PARTS.values().stream()
        .filter(p -> p.terminations().size() == 2)
        .forEach(
            p -> {
              LandFit fit = LandFit.of(p, LIMITS, 2);
              assertThat(fit.margin(0, 0, 1)).as(p.name()).isPositive();
              assertThat(fit.margin(0, 0, 90)).as(p.name()).isNegative();
            });
  }

  /** A part that is said to look the same after a turn does, terminations and lands alike. */
  @Test
  void symmetryHoldsForTheGeometry() {
    PARTS.forEach(
        (name, p) -> {
          for (int turn = 1; turn < p.symmetry(); turn++) {
            int quarters = turn * 4 / p.symmetry();
            assertThat(turned(p.terminations(), quarters))
                .as(name)
                .containsAll(turned(p.terminations(), 0));
            assertThat(turned(p.lands(), quarters)).as(name).containsAll(turned(p.lands(), 0));
          }
        });
  }

  private static List<String> turned(List<Rect> all, int quarters) {
    List<String> out = new ArrayList<>();
    for (Rect r : all) {
      double[] v = {r.xMm(), r.yMm(), r.lengthMm(), r.widthMm()};
      for (int q = 0; q < quarters; q++) {
        v = new double[] {-v[1], v[0], v[3], v[2]};
      }
      out.add(
          String.format(
                  java.util.Locale.ROOT, "%.3f %.3f %.3f %.3f", v[0] + 0.0, v[1] + 0.0, v[2], v[3])
              .replace("-0.000", "0.000"));
    }
    return out;
  }

  /**
   * IPC-7351: the courtyard holds the part and its lands with an excess of 0.10 mm at least; so the
   * envelope holds body and terminations, and lands reach no farther than 1 mm beyond it.
   */
  @Test
  void envelopesHoldBodyAndTerminations() {
    PARTS.forEach(
        (name, p) -> {
          double x = p.envelope().lengthMm() / 2 + 1e-9;
          double y = p.envelope().widthMm() / 2 + 1e-9;
          assertThat(p.body().lengthMm() / 2).as(name).isLessThanOrEqualTo(x);
          assertThat(p.body().widthMm() / 2).as(name).isLessThanOrEqualTo(y);
          assertThat(p.envelope().zMaxMm()).as(name).isGreaterThanOrEqualTo(p.bodyHeightMm());
          assertThat(p.envelope().zMinMm()).as(name).isZero();
          for (int i = 0; i < p.lands().size(); i++) {
            Rect t = p.terminations().get(i);
            Rect l = p.lands().get(i);
            assertThat(Math.abs(t.xMm()) + t.lengthMm() / 2).as(name).isLessThanOrEqualTo(x);
            assertThat(Math.abs(t.yMm()) + t.widthMm() / 2).as(name).isLessThanOrEqualTo(y + 0.1);
            assertThat(Math.abs(l.xMm()) + l.lengthMm() / 2).as(name).isLessThan(x + 1);
            assertThat(Math.abs(l.yMm()) + l.widthMm() / 2).as(name).isLessThan(y + 1);
          }
        });
  }

  @Test
  void landsOfOnePartDoNotTouchEachOther() {
    PARTS.forEach(
        (name, p) -> {
          List<Rect> l = p.lands();
          for (int i = 0; i < l.size(); i++) {
            for (int j = i + 1; j < l.size(); j++) {
              double x = Math.abs(l.get(i).xMm() - l.get(j).xMm());
              double y = Math.abs(l.get(i).yMm() - l.get(j).yMm());
              double gapX = x - (l.get(i).lengthMm() + l.get(j).lengthMm()) / 2;
              double gapY = y - (l.get(i).widthMm() + l.get(j).widthMm()) / 2;
              assertThat(Math.max(gapX, gapY)).as(name).isGreaterThan(0.09);
            }
          }
        });
  }

  /** Counts and published numbers that can be seen in a name or in the project's reference list. */
  @Test
  void outlinesCarryTheirPublishedNumbers() {
    PartType r0603 = PARTS.get("R0603");
    assertThat(r0603.body()).isEqualTo(new Rect(0, 0, 1.6, 0.8));
    // EIA 0603: termination 0.30 from the end, so centres at 0.65
    assertThat(r0603.terminations().get(0)).isEqualTo(new Rect(-0.65, 0, 0.3, 0.8));
    PartType soic = PARTS.get("SOIC-8");
    assertThat(soic.terminations()).hasSize(8);
    // JEDEC MS-012: pitch 1.27, span 6.00; pin 1 upper left, pin 8 upper right
    assertThat(soic.terminations().get(0).xMm()).isNegative();
    assertThat(soic.terminations().get(0).yMm()).isCloseTo(1.905, within(1e-9));
    assertThat(soic.terminations().get(7).xMm()).isPositive();
    assertThat(soic.terminations().get(7).yMm()).isCloseTo(1.905, within(1e-9));
    assertThat(PARTS.get("LQFP-144").terminations()).hasSize(144);
    assertThat(PARTS.get("QFN-16-3x3").terminations()).hasSize(17);
    assertThat(PARTS.get("BGA-256-P1.0").terminations()).hasSize(256);
    assertThat(PARTS.get("SOT-23-5").terminations()).hasSize(5);
    PARTS.forEach(
        (name, p) -> {
          int leads = p.terminations().size();
          if (name.matches("(LQFP|SOIC|TSSOP|TSOP|QSOP|BGA|SSOP|MSOP)-\\d+.*")) {
            int middle = name.endsWith("-EP") ? 1 : 0;
            assertThat(leads - middle)
                .isEqualTo(Integer.parseInt(name.replaceAll("^\\D+(\\d+).*$", "$1")));
          }
          assertThat(p.lands()).hasSize(leads);
        });
  }

  /** The cap counts: a header's envelope is taller than its body. */
  @Test
  void pickUpCapsAreInTheEnvelope() {
    PartType h = PARTS.get("HDR-2x05-P2.54-CAP");
    assertThat(h.envelope().zMaxMm()).isGreaterThan(h.bodyHeightMm());
  }

  /** IPC-7351 worked by hand for SOIC-8: Z = 5.8 + 0.7 + sqrt(0.16 + 0.0125) = 6.9153. */
  @Test
  void landRuleWorkedByHand() {
    Rect land = PARTS.get("SOIC-8").lands().get(0);
    assertThat(-land.xMm() + land.lengthMm() / 2).isCloseTo(6.92 / 2, within(1e-4));
    // X = 0.31 + 0.06 + sqrt(0.04 + 0.0125) = 0.5991
    assertThat(land.widthMm()).isCloseTo(0.60, within(1e-9));
  }

  @Test
  void everyOutlineNamesItsDrawing() throws IOException {
    List<String> rows =
        Files.readAllLines(Path.of("shared/outlines.csv")).stream()
            .filter(l -> !l.startsWith("#") && !l.startsWith("name,"))
            .toList();
    assertThat(rows).hasSize(PARTS.size());
    for (String row : rows) {
      assertThat(row.split(",", 22)[21]).containsAnyOf("from memory", "common practice");
    }
  }
}
