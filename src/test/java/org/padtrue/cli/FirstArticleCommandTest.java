package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.report.record.print.PdfReading;

/** {@code firstarticle} on the sample: three files that say what analysis.json says. */
class FirstArticleCommandTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final double SUM_TOL = 1e-9;
  private static final String IDENTIFICATION =
      """
      {"partNumber": "TG-4711-3", "partName": "Tide gauge logger", "serialNumber": "P-0017",
       "recordNumber": "FAIR-31", "organisation": "K\u00fcste & S\u00f6hne <Messger\u00e4te> \\"Nord\\"",
       "operator": "",
       "tools": [{"name": "Measuring microscope", "id": "M-12", "calibratedUntil": "2026-09-30",
                  "measures": ["x", "y", "landFit"]},
                 {"name": "Goniometer eyepiece", "measures": ["rotation"]}],
       "nonconformances": [{"placement": "3/1/D2", "number": "NC-17"}]}
      """;

  @TempDir private static Path dir;
  private static Path identification;
  private static JsonNode analysis;
  private static JsonNode record;
  private static List<Map<String, String>> rows;
  private static PdfReading pdf;
  private static Run run;

  @BeforeAll
  static void recordTheSampleOnce() throws IOException {
    identification = Files.writeString(dir.resolve("part.json"), IDENTIFICATION);
    run =
        Run.of(
            "firstarticle",
            SampleRun.JOB,
            SampleRun.analysis(),
            "--identification",
            identification,
            "--field",
            "serialNumber=P-0018",
            "--check",
            SampleRun.check(),
            "--attach",
            SampleRun.ARTICLE,
            "--out",
            dir.resolve("out"));
    assertThat(run.code()).as(run.err()).isZero();
    analysis = JSON.readTree(SampleRun.analysis().toFile());
    record = JSON.readTree(dir.resolve("out/first-article.json").toFile());
    pdf = PdfReading.of(Files.readAllBytes(dir.resolve("out/first-article.pdf")));
    try (MappingIterator<Map<String, String>> it =
        new CsvMapper()
            .readerFor(Map.class)
            .with(CsvSchema.emptySchema().withHeader())
            .readValues(dir.resolve("out/first-article.csv").toFile())) {
      rows = it.readAll();
    }
  }

  private static String key(JsonNode n) {
    return n.path("column").asInt() + "/" + n.path("row").asInt() + "/" + n.path("ref").asText();
  }

  private static Map<String, JsonNode> characteristics() {
    Map<String, JsonNode> m = new HashMap<>();
    record
        .path("characteristics")
        .forEach(c -> m.put(key(c) + " " + c.path("characteristic").asText(), c));
    return m;
  }

  /** Numbers run from 1 without a gap, and every placement has x, y and rotation. */
  @Test
  void everyPlacementIsAccountedFor() {
    JsonNode all = record.path("characteristics");
    for (int i = 0; i < all.size(); i++) {
      assertThat(all.get(i).path("number").asInt()).isEqualTo(i + 1);
    }
    Map<String, JsonNode> m = characteristics();
    assertThat(analysis.path("placements").size()).isEqualTo(360);
    for (JsonNode p : analysis.path("placements")) {
      assertThat(m).containsKeys(key(p) + " x", key(p) + " y", key(p) + " rotation");
    }
    assertThat(m).hasSize(all.size());
  }

  @Test
  void resultsAreThoseOfTheAnalysis() {
    Map<String, JsonNode> m = characteristics();
    int compared = 0;
    for (JsonNode p : analysis.path("placements")) {
      for (String axis : List.of("x", "y", "rotation")) {
        JsonNode c = m.get(key(p) + " " + axis);
        JsonNode deviation = p.path("deviation").path(axis);
        assertThat(c.path("deviation")).isEqualTo(deviation);
        if (!deviation.isNull()) {
          compared++;
          assertThat(c.path("result").asDouble())
              .isCloseTo(
                  p.path("nominal").path(axis).asDouble() + deviation.asDouble(), within(SUM_TOL));
        }
      }
      JsonNode fit = m.get(key(p) + " landFit");
      if (fit != null) {
        assertThat(fit.path("result")).isEqualTo(p.path("margin"));
      }
    }
    assertThat(compared).isGreaterThan(1000);
  }

  /** A placement is outside in the analysis exactly where one of its characteristics is. */
  @Test
  void conformityAgreesWithTheVerdicts() {
    Set<String> outside = new HashSet<>();
    Set<String> slips = new HashSet<>();
    for (JsonNode c : record.path("characteristics")) {
      switch (c.path("conformity").asText()) {
        case "outside" -> outside.add(key(c));
        case "slip" -> slips.add(key(c));
        default -> {}
      }
    }
    Set<String> verdicts = new HashSet<>();
    analysis
        .path("placements")
        .forEach(
            p -> {
              if (p.path("verdict").asText().equals("outside")) {
                verdicts.add(key(p));
              }
            });
    assertThat(verdicts).hasSize(13);
    assertThat(outside).isEqualTo(verdicts);
    // planted, samples/README.md
    assertThat(slips).containsExactlyInAnyOrder("1/2/C14", "1/2/C15", "2/2/R16", "2/1/R12");
  }

  @Test
  void tableSaysTheSameAsTheJson() {
    JsonNode all = record.path("characteristics");
    assertThat(rows).hasSize(all.size());
    for (int i = 0; i < rows.size(); i++) {
      Map<String, String> row = rows.get(i);
      JsonNode c = all.get(i);
      for (String k : List.of("number", "panel", "ref", "part")) {
        assertThat(row.get(k)).isEqualTo(c.path(k).asText());
      }
      for (String k : List.of("characteristic", "conformity")) {
        String words = c.path(k).asText().replaceAll("(?<=[a-z])(?=[A-Z])", " ");
        assertThat(row.get(k))
            .endsWith(words.equals("slip") ? "error" : words.toLowerCase(Locale.ROOT));
      }
      for (String k : List.of("nominal", "lower", "upper", "result", "deviation")) {
        if (c.path(k).isNull()) {
          assertThat(row.get(k)).isEmpty();
        } else {
          assertThat(Double.parseDouble(row.get(k))).isCloseTo(c.path(k).asDouble(), within(1e-6));
        }
      }
      assertThat(row.get("comment")).isEqualTo(c.path("comment").asText(""));
    }
  }

  /** The printed table, read back: requirement and result of every placement. */
  @Test
  void pdfShowsEveryResult() {
    Pattern line =
        Pattern.compile("^(\\d+) (\\d/\\d/\\S+) (\\S+) (x|y|rotation) (-?[\\d.]+)\\D.*$");
    Map<String, String> printed = new HashMap<>();
    for (String s : pdf.text().split("\\R")) {
      Matcher m = line.matcher(s.strip());
      if (m.matches()) {
        printed.putIfAbsent(m.group(2) + " " + m.group(4), s.strip());
      }
    }
    Map<String, JsonNode> m = characteristics();
    for (JsonNode p : analysis.path("placements")) {
      for (String axis : List.of("x", "y", "rotation")) {
        String row = printed.get(key(p) + " " + axis);
        String format = axis.equals("rotation") ? "%.2f" : "%.3f";
        double nominal = p.path("nominal").path(axis).asDouble();
        assertThat(row)
            .as("%s %s", key(p), axis)
            .startsWith(m.get(key(p) + " " + axis).path("number").asText() + " ")
            .contains(" " + axis + " " + requirement(m.get(key(p) + " " + axis), format));
        JsonNode deviation = p.path("deviation").path(axis);
        if (deviation.isNull()) {
          assertThat(row).contains("not measured");
        } else {
          String result = String.format(Locale.ROOT, format, nominal + deviation.asDouble());
          assertThat(row).contains(" " + result.replaceAll("^-(0\\.0+)$", "$1") + " ");
        }
      }
    }
  }

  /** Its limits, or the nominal alone where nothing limits it by itself. */
  private static String requirement(JsonNode c, String format) {
    boolean limits = c.path("lower").isNumber();
    String first =
        String.format(Locale.ROOT, format, c.path(limits ? "lower" : "nominal").asDouble() + 0.0);
    return limits
        ? first + " to " + String.format(Locale.ROOT, format, c.path("upper").asDouble())
        : first;
  }

  @Test
  void pdfIsLaidOutForTheFile() {
    int pages = pdf.pages().size();
    assertThat(pages).isBetween(20, 40);
    for (int i = 0; i < pages; i++) {
      String page = pdf.pages().get(i);
      assertThat(page)
          .contains("page " + (i + 1) + " of " + pages)
          .contains("1 Part number: TG-4711-3", "3 Serial number: P-0018");
      if (i > 4) {
        assertThat(page).as("repeated head").contains("8 Requirement", "9 Result");
      }
    }
    // ISO 216: A4 is 210 x 297 mm
    assertThat(pdf.widthMm()).isCloseTo(210, within(0.1));
    assertThat(pdf.heightMm()).isCloseTo(297, within(0.1));
    assertThat(pdf.edgesMm()[0]).isGreaterThan(12);
    assertThat(pdf.edgesMm()[1]).isGreaterThan(12);
    assertThat(pdf.fonts()).isNotEmpty();
    assertThat(pdf.fonts().values()).as("%s", pdf.fonts()).containsOnly(true);
    assertThat(pdf.title()).isEqualTo("First article record, TG-4711-3");
    assertThat(pdf.bookmarks())
        .contains("Identification", "Signatures", "Accountability of characteristics");
  }

  @Test
  void pdfSaysWhatASignerNeeds() {
    String text = pdf.text().replaceAll("\\s+", " ");
    assertThat(text)
        .contains("14 of 1410 characteristics (360 placements) are outside the limits")
        .contains("K\u00fcste & S\u00f6hne <Messger\u00e4te> \"Nord\"")
        .contains("M-12", "2026-09-30", "NC-17")
        .contains("coverage factor k = 2", "Simple acceptance (ILAC-G8:09/2019, 4.2.1)")
        // the job states 0.006 mm and 0.08 degrees
        .contains("0.012 mm for a coordinate, 0.16\u00b0 for a rotation")
        .contains("registration \u221260 \u00b5m", "81 \u00b5m RMS")
        .contains("the trims held in part", "wrong sign")
        .contains("3/1/D2 is turned by 180\u00b0")
        .contains("20 Verified by", "Signature", "24 Customer approval", "25 Date")
        .contains("Acceptance follows the customer's contract", "interlocks and lockout");
  }

  /** The same in JSON, CSV and on the page: what is out, and which placement was left out why. */
  @Test
  void whatIsOutSaysWhy() {
    int out = 0;
    for (JsonNode c : record.path("characteristics")) {
      String conformity = c.path("conformity").asText();
      if (List.of("outside", "conditionallyOutside", "slip").contains(conformity)) {
        out++;
        assertThat(c.path("comment").asText()).as("%s", c).isNotEmpty();
        assertThat(rows.get(c.path("number").asInt() - 1).get("comment"))
            .isEqualTo(c.path("comment").asText());
      }
    }
    assertThat(out).isGreaterThan(14);
    Map<String, JsonNode> m = characteristics();
    assertThat(m.get("3/1/D2 rotation").path("comment").asText())
        .startsWith("3/1/D2 is turned by 180 degrees")
        .contains("; rotation is off by ");
    assertThat(m.get("1/1/U1 landFit").path("comment").asText())
        .matches(
            "the part is turned by \\+(89|90)\\.\\d degrees on its lands; the whole type QFN32 is"
                + " turned by 90 degrees: another zero component orientation \\(IPC-7351\\) in its"
                + " library");
    assertThat(pdf.text().replaceAll("\\s+", " ")).contains("the whole type QFN32 is turned by 90");
  }

  @Test
  void attachmentsAreToldByTheirHash() throws Exception {
    Map<String, String> byFile = new HashMap<>();
    record
        .path("attachments")
        .forEach(a -> byFile.put(a.path("file").asText(), a.path("sha256").asText()));
    List<Path> files =
        List.of(
            SampleRun.JOB,
            SampleRun.JOB.resolveSibling("placements.csv"),
            SampleRun.JOB.resolveSibling("parts.json"),
            SampleRun.ARTICLE,
            SampleRun.analysis(),
            SampleRun.check(),
            identification);
    assertThat(byFile).hasSize(files.size());
    for (Path f : files) {
      byte[] hash = MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(f));
      assertThat(byFile).containsEntry(f.getFileName().toString(), HexFormat.of().formatHex(hash));
      assertThat(pdf.text()).contains(HexFormat.of().formatHex(hash));
    }
  }

  @Test
  void emptyFieldsStayEmpty() {
    JsonNode i = record.path("identification");
    assertThat(i.path("operator").isNull()).isTrue();
    assertThat(i.path("drawingNumber").isNull()).isTrue();
    assertThat(i.path("serialNumber").asText()).isEqualTo("P-0018");
    assertThat(record.path("characteristics").get(0).path("tools").get(0).asInt()).isEqualTo(1);
    assertThat(record.path("characteristics").get(2).path("tools").get(0).asInt()).isEqualTo(2);
  }

  @Test
  void consoleSaysWhatCameOut() {
    assertThat(run.out()).contains("1410 characteristics", "14 outside", "RECORD", "Sign it");
  }

  // ---- bad input ----

  private List<String> refused(Object... options) {
    List<Object> all =
        new ArrayList<>(List.of("firstarticle", SampleRun.JOB, SampleRun.analysis()));
    all.addAll(List.of(options));
    all.addAll(List.of("--out", dir.resolve("none")));
    Run r = Run.of(all.toArray());
    assertThat(r.code()).as(r.out()).isEqualTo(2);
    assertThat(dir.resolve("none")).doesNotExist();
    return r.err().lines().toList();
  }

  @Test
  void everyProblemOfTheIdentificationIsOneSentence() throws IOException {
    Path f =
        Files.writeString(
            dir.resolve("bad.json"),
            "{\"partNumbr\": \"1\", \"partName\": 7,\n"
                + " \"tools\": [{\"id\": \"M\", \"measures\": [\"z\"]}],\n"
                + " \"nonconformances\": [{\"placement\": \"R1\"}]}");
    assertThat(refused("--identification", f))
        .containsExactlyInAnyOrder(
            f
                + ", line 1, column 2: the key \"partNumbr\" is not known here; did you mean"
                + " \"partNumber\"",
            f + ", line 1, column 32: \"partName\" is 7, expected a text",
            f
                + ", line 2, column 37: \"measures\" has 'z', which is not known; use x, y,"
                + " rotation, partX, partY, landFit",
            f + ", line 2, column 12: \"name\" is missing; add it",
            f + ", line 3, column 22: \"number\" is missing; add it");
  }

  @Test
  void badOptionsAreRefused() throws IOException {
    assertThat(refused("--field", "partNumbr=1"))
        .containsExactly(
            "padtrue: --field partNumbr is not known; did you mean partNumber; see 'padtrue"
                + " firstarticle --help'");
    assertThat(refused("--coverage", "0").get(0)).contains("is no coverage factor");
    assertThat(refused("--attach", dir.resolve("gone.csv")).get(0)).contains("cannot be read");
    assertThat(refused("--check", SampleRun.analysis()).get(0))
        .contains("the schema is 'padtrue/analysis/1', expected 'padtrue/check/1'");
    Path other =
        Files.writeString(
            dir.resolve("check.json"),
            Files.readString(SampleRun.check()).replace("Tide gauge logger", "Rain gauge"));
    assertThat(refused("--check", other).get(0)).contains("this is the check of job 'Rain gauge");
    String check = Files.readString(SampleRun.check());
    String hash = JSON.readTree(check).path("analysisHash").asText();
    Path foreign = dir.resolve("foreign.json");
    Files.writeString(foreign, check.replace(hash, "0".repeat(64)));
    assertThat(refused("--check", foreign).get(0))
        .contains("it belongs to another analysis than the one given", "run 'check' again");
    Files.writeString(foreign, check.replaceFirst("\\s*\"analysisHash\": \"[0-9a-f]+\",", ""));
    assertThat(refused("--check", foreign).get(0))
        .contains("it does not say which analysis it belongs to (key 'analysisHash')");
    Path who =
        Files.writeString(
            dir.resolve("who.json"),
            "{\"designators\": [{\"placement\": \"X9\", \"designator\": \"key\"}]}");
    assertThat(refused("--identification", who).get(0))
        .contains("names the placement 'X9', which the analysis does not have");
  }

  /**
   * What stands in the way of one file leaves the others unwritten, and the old ones as they were.
   */
  @Test
  void nothingHalfWritten() throws IOException {
    Path out = Files.createDirectories(dir.resolve("blocked/first-article.pdf")).getParent();
    Run r = Run.of("firstarticle", SampleRun.JOB, SampleRun.analysis(), "--out", out, "--quiet");
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).contains("first-article.pdf: the file cannot be written");
    assertThat(out.toFile().list()).containsExactly("first-article.pdf");
  }

  /** Other commands start as fast as before: no class of the PDF libraries is loaded. */
  @Test
  void otherCommandsLoadNoPdfClasses() throws Exception {
    Path java = Path.of(System.getProperty("java.home"), "bin", "java");
    Path log = dir.resolve("classes.txt");
    Process p =
        new ProcessBuilder(
                java.toString(),
                "-XX:TieredStopAtLevel=1",
                "-Xlog:class+load:file=" + log.getFileName(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                "org.padtrue.cli.Main",
                "inspect",
                Path.of("samples/main-job/placements.csv").toAbsolutePath().toString())
            .directory(dir.toFile())
            .redirectErrorStream(true)
            .redirectOutput(dir.resolve("printed.txt").toFile())
            .start();
    assertThat(p.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(p.exitValue()).as(Files.readString(dir.resolve("printed.txt"))).isZero();
    assertThat(Files.readString(log))
        .contains("org.padtrue.cli.FirstArticleCommand")
        .doesNotContain("com.openhtmltopdf", "org.apache.pdfbox", "org.apache.fontbox");
  }
}
