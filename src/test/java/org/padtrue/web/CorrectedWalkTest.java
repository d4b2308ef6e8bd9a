package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.padtrue.cli.Program;
import org.padtrue.web.server.WebOptions;

/** The corrected placement list from a page: what changes is listed, the file is the command's. */
class CorrectedWalkTest {
  @TempDir Path dir;

  private WebServer serve() {
    return WebServer.start(
        WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
  }

  private byte[] byCommand(Client c, String... more) throws IOException {
    Files.writeString(dir.resolve("analysis.json"), c.get("/articles/first/analysis.json").body());
    Path out = dir.resolve("by-command.csv");
    String[] args = {
      "apply",
      dir.resolve("ws/jobs/placements/job.json").toString(),
      dir.resolve("analysis.json").toString(),
      "--out",
      out.toString()
    };
    String[] all = java.util.Arrays.copyOf(args, args.length + more.length);
    System.arraycopy(more, 0, all, args.length, more.length);
    Program.run(all);
    return Files.readAllBytes(out);
  }

  @Test
  void whatChangesIsListedAndTheFileIsThatOfTheCommand() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      Client c = new Client(s.address());
      c.files(
          "/jobs", Map.of("placements.csv", Boards.placements(), "first.csv", Boards.article(1)));
      b.go(s.address() + "articles/first/result");
      b.says("Put them into the placement list instead");
      b.driver.findElement(By.linkText("Put them into the placement list instead")).click();
      b.says("12 of 36 rows of the placed side would change");
      b.says("part type SOT23");
      b.says("For the machine: registration.");
      b.says("Do not enter in the machine what is in this file now.");
      Look.at(b, "corrected");
      String own = "/articles/first/corrected/file";
      HttpResponse<String> r = c.get(own);
      assertThat(r.headers().firstValue("Content-Disposition").orElse(""))
          .contains("corrected-placements.csv");
      assertThat(r.body().getBytes(StandardCharsets.UTF_8)).isEqualTo(byCommand(c));
      // registration as well, some placements only
      b.click("input[value=registration]");
      b.see("#refs").sendKeys("U3 U1");
      b.click("main form button");
      b.says("2 of 36 rows");
      String query = b.see("a.main").getAttribute("href").replaceAll(".*\\?", "?");
      assertThat(c.get(own + query).body().getBytes(StandardCharsets.UTF_8))
          .isEqualTo(byCommand(c, "--trims", "part,registration", "--refs", "U3,U1"));
      // what cannot be is said on the page
      b.go(s.address() + "articles/first/corrected?refs=R999");
      b.says("there is no placement 'R999' on the placed side");
      assertThat(c.get("/articles/first/corrected?kind=%3Cscript%3E").statusCode()).isEqualTo(400);
      assertThat(c.get(own + "?refs=" + "x".repeat(3000)).statusCode()).isEqualTo(400);
      assertThat(b.body()).doesNotContain("--");
    }
  }
}
