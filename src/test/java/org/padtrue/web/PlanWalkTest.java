package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.padtrue.cli.Program;
import org.padtrue.web.server.WebOptions;

/** The plan on a page: chosen, printed as a blank form, begun. */
class PlanWalkTest {
  @TempDir Path dir;

  private WebServer serve() {
    return WebServer.start(
        WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
  }

  private String byCommand(String... more) throws IOException {
    Path out = dir.resolve("plan.csv");
    String[] args = {
      "plan",
      dir.resolve("ws/jobs/placements/job.json").toString(),
      "--form",
      "--charts",
      "none",
      "--out",
      out.toString()
    };
    String[] all = java.util.Arrays.copyOf(args, args.length + more.length);
    System.arraycopy(more, 0, all, args.length, more.length);
    Program.run(all);
    return Files.readString(out);
  }

  @Test
  void chosenPrintedAndBegun() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      Client c = new Client(s.address());
      c.files("/jobs", Map.of("placements.csv", Boards.placements()));
      b.go(s.address() + "jobs/placements");
      b.driver.findElement(By.partialLinkText("See what can then be decided")).click();
      b.says("What can then be decided");
      b.says("is common practice, not this machine's");
      b.see("#count").sendKeys("14");
      b.see("#scatter").sendKeys("0.03,SOT23=0.05");
      b.click("main form[method=get] button");
      b.says("Begin with these 14");
      Look.at(b, "plan");
      assertThat(b.body()).doesNotContain("--");
      String query = "?count=14&scatter=0.03%2CSOT23%3D0.05";
      assertThat(c.get("/jobs/placements/plan/to-measure.csv" + query).body())
          .isEqualTo(byCommand("--count", "14", "--scatter", "0.03,SOT23=0.05"));
      assertThat(c.get("/jobs/placements/plan/walk.svg" + query).body()).contains("<svg");
      // the blank form: a head to fill in, and no button on paper
      b.driver.findElement(By.linkText("Blank form to print")).click();
      b.says("To measure:");
      assertThat(b.all("table.blank tbody tr")).hasSize(14);
      Look.at(b, "plan-form");
      b.paper("plan-form-print");
      b.driver.navigate().back();
      b.see("#name").clear();
      b.see("#name").sendKeys("Panel of today");
      b.click("main form[method=post] button");
      b.says("Panel of today");
      assertThat(b.all("tr[data-key]")).hasSize(14);
    }
  }

  @Test
  void whatCannotBeIsSaidOnThePage() throws IOException {
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      c.files("/jobs", Map.of("placements.csv", Boards.placements()));
      String at = "/jobs/placements/plan";
      assertThat(c.get(at + "?count=ten").body()).contains("is no number of placements");
      assertThat(c.get(at + "?count=0").body()).contains("is no number of placements");
      assertThat(c.get(at + "?within=-1").body()).contains("more than 0 mm");
      assertThat(c.get(at + "?scatter=%3Cscript%3Ealert(1)").body())
          .contains("is no number")
          .doesNotContain("<script>alert");
      assertThat(c.get(at + "?scatter=NOPE=0.1").body()).contains("which the job does not place");
      assertThat(c.get(at + "?scatter=NaN").body()).contains("give a number greater than 0");
      assertThat(c.get(at + "?scatter=" + "1".repeat(3000)).statusCode()).isEqualTo(400);
      assertThat(c.get(at + "?earlier=../../etc").statusCode()).isIn(200, 400, 404);
      assertThat(c.get(at + "/nothing.svg").statusCode()).isEqualTo(404);
      assertThat(c.post(at, Map.of("count", "x", "name", "A")).statusCode()).isEqualTo(400);
      try (var all = Files.list(dir.resolve("ws/articles"))) {
        assertThat(all).isEmpty();
      }
    }
  }
}
