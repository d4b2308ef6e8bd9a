package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.WebElement;
import org.padtrue.web.server.WebOptions;

/** Somebody says with which values the trims were entered, and the check follows it. */
class EnteredWalkTest {
  @TempDir Path dir;
  private Client client;

  private WebServer serve() {
    return WebServer.start(
        WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
  }

  /** SOT23 was off by -50 um in its y; 20 um were added, so -30 um remain. Scatter 4 um. */
  private static byte[] second() {
    Random random = new Random(11);
    StringBuilder b = new StringBuilder("ref,dx (um),dy (um),drotation\n");
    for (int k = 0; k < 36; k++) {
      double turn = Math.toRadians(90 * (k % 4));
      double own = k % 3 == 2 ? -30 : 0;
      b.append(
          String.format(
              Locale.ROOT,
              "%s,%.1f,%.1f,%.2f\n",
              Boards.ref(k),
              -own * Math.sin(turn) + 4 * random.nextGaussian(),
              own * Math.cos(turn) + 4 * random.nextGaussian(),
              0.05 * random.nextGaussian()));
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  private WebServer begun() throws IOException {
    WebServer s = serve();
    client = new Client(s.address());
    client.files(
        "/jobs", Map.of("placements.csv", Boards.placements(), "first.csv", Boards.article(1)));
    client.files("/jobs/placements/files", Map.of("second.csv", second()));
    client.post("/articles/second/after", Map.of("first", "first"));
    return s;
  }

  @BeforeEach
  void clean() {
    client = null;
  }

  @Test
  void otherValuesAreSaidAndTheCheckFollows() throws IOException {
    try (WebServer s = begun();
        Browser b = Browser.open()) {
      b.go(s.address() + "articles/second/check");
      b.see(".verdict.bad");
      b.driver.findElement(By.partialLinkText("Were other values entered")).click();
      b.says("What was entered before second");
      b.accessible("what was entered");
      WebElement sot = b.driver.findElement(By.xpath("//fieldset[contains(., 'part type SOT23')]"));
      WebElement y = sot.findElement(By.cssSelector("input[name^=y]"));
      assertThat(Double.parseDouble(y.getAttribute("value"))).isBetween(0.04, 0.06);
      y.clear();
      y.sendKeys("20 um");
      for (int[] size : new int[][] {{390, 844}, {768, 1000}, {1280, 1000}}) {
        b.size(size[0], size[1]);
        b.fits("what was entered at " + size[0]);
        b.shot("entered-" + size[0]);
      }
      b.click("form.entered button.main");
      b.see(".verdict.good");
      b.says("Part type SOT23 was entered otherwise than proposed:");
      assertThat(b.body()).containsPattern("y \\+20\\.0 .m");
      // it is on disk and stands after a reload
      b.go(s.address() + "articles/second/entered");
      assertThat(Files.readString(dir.resolve("ws/articles/second/entered.values")))
          .contains(" 0.02 ");
      b.scheme("dark");
      b.accessible("what was entered, dark");
      b.shot("entered-dark");
    }
  }

  @Test
  void whatCannotBeIsRefusedAndNothingIsKept() throws IOException {
    try (WebServer s = begun()) {
      Path file = dir.resolve("ws/articles/second/entered.values");
      String at = "/articles/second/entered";
      assertThat(client.post(at, Map.of()).body()).contains("No trim is ticked as entered");
      for (String bad : new String[] {"ten", "1e9", "<script>alert(1)</script>", "1001", "NaN"}) {
        var r = client.post(at, Map.of("entered0", "yes", "x0", bad, "y0", "0"));
        assertThat(r.statusCode()).as(bad).isEqualTo(400);
        assertThat(r.body()).doesNotContain("<script>alert");
      }
      assertThat(client.post(at, Map.of("entered0", "x".repeat(3000))).statusCode()).isEqualTo(400);
      assertThat(client.post("/articles/first/entered", Map.of("entered0", "yes")).statusCode())
          .isEqualTo(404);
      assertThat(file).doesNotExist();
      // a line not ticked counts as not entered
      assertThat(client.post(at, Map.of("entered0", "yes", "x0", "0.01", "y0", "0")).statusCode())
          .isEqualTo(303);
      assertThat(client.get("/articles/second/check").body()).contains("was not entered");
      // a file cut short is said
      Files.writeString(file, "true 0.1");
      assertThat(client.get("/articles/second/check").body())
          .contains("what was entered in the machine cannot be read");
    }
  }
}
