package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.padtrue.web.server.WebOptions;

/**
 * The loop on pages: trims of a first article entered, one more panel measured at the same
 * placements, and what is said of it.
 */
class CheckWalkTest {
  @TempDir Path dir;

  private WebServer serve() {
    return WebServer.start(
        WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
  }

  /**
   * The next panel of Boards.article: SOT23 trimmed wrongly by a sign, the rest as it should be.
   */
  private static byte[] second(long seed, double shiftUm, double ownUm) {
    Random random = new Random(seed);
    StringBuilder b = new StringBuilder("ref,dx (um),dy (um),drotation\n");
    for (int k = 0; k < 36; k++) {
      double turn = Math.toRadians(90 * (k % 4));
      double own = k % 3 == 2 ? ownUm : 0;
      b.append(
          String.format(
              Locale.ROOT,
              "%s,%.1f,%.1f,%.2f\n",
              Boards.ref(k),
              shiftUm - own * Math.sin(turn) + 8 * random.nextGaussian(),
              own * Math.cos(turn) + 8 * random.nextGaussian(),
              0.05 * random.nextGaussian()));
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void trimsEnteredOneMorePlacedAndHeld() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      Client c = new Client(s.address());
      c.files(
          "/jobs", Map.of("placements.csv", Boards.placements(), "first.csv", Boards.article(1)));
      b.go(s.address() + "articles/first/result");
      b.says("When they are entered");
      b.accessible("result with the way on");
      b.click("section[aria-labelledby=next] button.main");
      b.says("Where to look next");
      // the same 36 placements; typed by keyboard
      assertThat(b.all("tr[data-key]")).hasSize(36);
      Random random = new Random(7);
      for (int k = 0; k < 36; k++) {
        b.keys(
            String.format(Locale.ROOT, "%.3f", 0.007 * random.nextGaussian()),
            Keys.ENTER,
            String.format(Locale.ROOT, "%.3f", 0.007 * random.nextGaussian()),
            Keys.ENTER,
            String.format(Locale.ROOT, "%.2f", 0.05 * random.nextGaussian()),
            Keys.ENTER);
      }
      b.says("The list is done.");
      b.says("Everything typed is on disk.");
      b.click("#result");
      b.see(".verdict.good");
      b.says("✓ Held");
      b.says("predicted to remain");
      b.says("part frame");
      for (int[] size : new int[][] {{1280, 1000}, {768, 1000}, {390, 844}}) {
        b.size(size[0], size[1]);
        b.fits("check page at " + size[0]);
        b.shot("check-held-" + size[0]);
      }
      b.accessible("check page, held");
    }
  }

  @Test
  void aWrongSignIsNamedAndSaysWhatToAdd() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      Client c = new Client(s.address());
      c.files(
          "/jobs", Map.of("placements.csv", Boards.placements(), "first.csv", Boards.article(1)));
      // a second article sent as a file: it is asked which it is
      c.files("/jobs/placements/files", Map.of("second.csv", second(9, 0, -100)));
      b.go(s.address() + "articles/second/check");
      b.says("Which panel is it?");
      b.accessible("which article it is");
      b.shot("check-which");
      b.click("input[name=kind][value=after]");
      b.click("form.fields button.main");
      b.see(".verdict.bad");
      b.says("wrong sign");
      List<WebElement> bad = b.all(".check.bad");
      assertThat(bad).hasSize(1);
      assertThat(bad.get(0).getText())
          .contains("part type SOT23")
          .containsPattern("entered with the wrong sign; ADD y \\+(9\\d|1[01]\\d) .m");
      b.size(1280, 1000);
      b.accessible("check page, a wrong sign");
      b.shot("check-wrong");
      b.scheme("dark");
      b.accessible("check page, dark");
      b.shot("check-wrong-dark");
      // for programs, by the command's own code
      HttpResponse<String> json = c.get("/articles/second/check.json");
      JsonNode n = new ObjectMapper().readTree(json.body());
      assertThat(n.path("verdict").asText()).isEqualTo("partly");
      assertThat(n.path("analysisHash").asText()).hasSize(64);
      // and back: it was another first article
      assertThat(c.post("/articles/second/after", Map.of("first", "")).statusCode()).isEqualTo(303);
      assertThat(c.get("/articles/second/check").body()).contains("Which panel is it?");
    }
  }

  @Test
  void whatCannotBeIsRefusedInASentence() throws IOException {
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      c.files(
          "/jobs",
          Map.of(
              "placements.csv", Boards.placements(),
              "first.csv", Boards.article(1),
              "again.csv", Boards.article(1)));
      assertThat(c.post("/articles/first/after", Map.of("first", "first")).body())
          .contains("That is no other article of this job.");
      assertThat(c.post("/articles/first/after", Map.of("first", "<script>")).statusCode())
          .isIn(400, 404);
      assertThat(c.post("/articles/first/next", Map.of()).body())
          .contains("No trim is ticked as entered");
      assertThat(c.get("/articles/first/check.json").statusCode()).isEqualTo(404);
      // the same readings again are no second article
      c.post("/articles/again/after", Map.of("first", "first"));
      assertThat(c.get("/articles/again/check").body()).contains("so this is no second article");
    }
  }
}
