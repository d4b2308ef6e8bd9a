package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.padtrue.web.server.WebOptions;

/** A job made on a page asks for the machine and the measuring, and decides as one with a file. */
class MachineFormTest {
  @TempDir Path dir;

  private WebServer serve() {
    return WebServer.start(
        WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
  }

  private static final Map<String, String> ANSWERS =
      Map.of(
          "machineAsked", "yes",
          "resolution", "0,01",
          "rotationResolution", "0.1",
          "panelRotationResolution", "0.002\u00b0",
          "uncertainty", "8 um",
          "rotationUncertainty", "0.1",
          "accepts", "part");

  @Test
  void answersLandInTheJobFileAndAreShownAgain() throws IOException {
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      String at =
          Client.to(
              c.files(
                  "/jobs",
                  new LinkedHashMap<>(
                      Map.of("placements.csv", Boards.placements(), "m.csv", Boards.article(1)))));
      assertThat(c.get(at).body()).contains("Nobody has said yet in which steps");
      String job = "/jobs/placements";
      assertThat(c.get(job).body()).contains("id=\"machine\" open");
      assertThat(c.post(job + "/settings", ANSWERS).statusCode()).isEqualTo(303);
      JsonNode json = new ObjectMapper().readTree(c.get(job + "/job.json").body());
      assertThat(json.at("/machine/resolution").asDouble()).isEqualTo(0.01);
      assertThat(json.at("/machine/rotationResolution").asDouble()).isEqualTo(0.1);
      assertThat(json.at("/machine/panelRotationResolution").asDouble()).isEqualTo(0.002);
      assertThat(json.at("/machine/accepts")).hasSize(1);
      assertThat(json.at("/measurement/uncertainty").asDouble()).isEqualTo(0.008);
      assertThat(json.at("/measurement/rotationUncertainty").asDouble()).isEqualTo(0.1);
      String page = c.get(job).body();
      assertThat(page)
          .contains("value=\"0,01\"")
          .contains("value=\"8 um\"")
          .contains("value=\"part\" checked")
          .doesNotContain("value=\"scale\" checked")
          .doesNotContain("id=\"machine\" open");
      assertThat(c.get(at).body()).doesNotContain("Nobody has said yet");
      // another form of the page leaves them alone
      c.post(job + "/settings", Map.of("name", "Other"));
      assertThat(c.get(job + "/job.json").body()).contains("0.008").contains("Other");
      for (String wrong : List.of("0", "-1", "x", "5")) {
        assertThat(
                c.post(job + "/settings", Map.of("machineAsked", "yes", "resolution", wrong))
                    .statusCode())
            .as(wrong)
            .isEqualTo(400);
      }
      assertThat(c.get(job + "/job.json").body()).contains("0.008");
    }
  }

  /** What the form says decides exactly as the same keys of a job file. */
  @Test
  void theFormDecidesAsAJobFileWould() throws IOException {
    ObjectMapper json = new ObjectMapper();
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put("placements.csv", Boards.placements());
    files.put("m.csv", Boards.article(1));
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      String page = Client.to(c.files("/jobs", files)).replace("/result", "/analysis.json");
      JsonNode before = json.readTree(c.get(page).body());
      assertThat(c.post("/jobs/placements/settings", ANSWERS).statusCode()).isEqualTo(303);
      JsonNode answered = json.readTree(c.get(page).body());
      String own =
          "{\"placements\": \"placements.csv\", \"machine\": {\"resolution\": 0.01,"
              + " \"rotationResolution\": 0.1, \"panelRotationResolution\": 0.002, \"accepts\":"
              + " [\"part\"]}, \"measurement\": {\"uncertainty\": 0.008,"
              + " \"rotationUncertainty\": 0.1}}";
      files.put("job.json", own.getBytes(java.nio.charset.StandardCharsets.UTF_8));
      String other = Client.to(c.files("/jobs", files)).replace("/result", "/analysis.json");
      JsonNode byFile = json.readTree(c.get(other).body());
      for (String key : List.of("batchTrim", "groups", "scatter", "acceptance")) {
        assertThat(answered.get(key)).as(key).isEqualTo(byFile.get(key));
      }
      assertThat(before.at("/batchTrim/shift/decision").asText()).isEqualTo("trim");
      assertThat(answered.at("/batchTrim/shift/decision").asText()).isEqualTo("notAccepted");
    }
  }

  @Test
  void walk() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      new Client(s.address()).files("/jobs", Map.of("placements.csv", Boards.placements()));
      b.go(s.address() + "jobs/placements");
      for (int width : new int[] {1280, 768, 390}) {
        for (String scheme : List.of("light", "dark")) {
          b.size(width, 1400);
          b.scheme(scheme);
          b.fits("job " + width);
          b.accessible("job " + width + " " + scheme);
          b.shot("machine-" + width + "-" + scheme);
        }
      }
      b.see("#resolution").sendKeys("0.01");
      b.driver.findElement(By.cssSelector("input[value=scale]")).click();
      b.driver.findElement(By.cssSelector("#machine button")).click();
      b.says("Machine and measuring");
      b.until(() -> !b.see("#machine summary").getText().isEmpty());
      b.click("#machine summary");
      assertThat(b.see("#resolution").getDomProperty("value")).isEqualTo("0.01");
      assertThat(b.see("input[value=scale]").isSelected()).isFalse();
      assertThat(b.see("input[value=part]").isSelected()).isTrue();
    }
  }
}
