package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.padtrue.cli.Program;
import org.padtrue.web.server.WebOptions;

/** Room on a page: as the command says it, and the list with its moves saved. */
class RoomWalkTest {
  private static final Path SAMPLE = Path.of("samples/main-job");

  @TempDir Path dir;

  private WebServer serve() {
    return WebServer.start(
        WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
  }

  private static String job(Client c) throws IOException {
    Map<String, byte[]> files = new LinkedHashMap<>();
    for (String f : new String[] {"job.json", "placements.csv", "parts.json", "article-1.csv"}) {
      files.put(f, Files.readAllBytes(SAMPLE.resolve(f)));
    }
    String to = Client.to(c.files("/jobs", files));
    assertThat(to).startsWith("/articles/");
    return to.replaceAll("/articles/([^/]*).*", "$1");
  }

  @Test
  void askedShownAndSaved() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      Client c = new Client(s.address());
      String article = job(c);
      b.go(s.address() + "articles/" + article + "/result");
      b.says("Tide gauge logger");
      b.driver.findElement(By.partialLinkText("Tide gauge logger")).click();
      b.driver.findElement(By.linkText("Room between neighbours")).click();
      b.says("every pair of neighbours keeps 0.100 mm, as drawn");
      b.driver.findElement(By.cssSelector("#article option[value='" + article + "']")).click();
      b.click("main form[method=get] button");
      b.says("1 group of placements stands too near");
      b.says("Values to ADD in the placement list");
      assertThat(b.all("figure.room svg")).hasSize(1);
      assertThat(b.body()).doesNotContain("--");
      Look.at(b, "room");
      String at = b.driver.getCurrentUrl();
      String query = at.substring(at.indexOf('?'));
      String base = at.substring(s.address().length() - 1, at.indexOf('?'));
      // the same as the commands
      String analysis =
          Files.writeString(
                  dir.resolve("analysis.json"),
                  c.get("/articles/" + article + "/analysis.json").body())
              .toString();
      String job = SAMPLE.resolve("job.json").toString();
      Program.run("room", job, analysis, "--out", dir.resolve("out").toString(), "--json-only");
      assertThat(c.get(base + "/room.json" + query).body())
          .isEqualTo(Files.readString(dir.resolve("out/room.json")));
      Program.run(
          "apply",
          job,
          "--room",
          dir.resolve("out/room.json").toString(),
          "--out",
          dir.resolve("moved.csv").toString());
      assertThat(c.get(base + "/list" + query).body())
          .isEqualTo(Files.readString(dir.resolve("moved.csv")));
      // wishes that cannot be
      b.go(s.address() + base.substring(1) + query.replace("fix=", "fix=HDR10"));
      b.says("both are to stay");
      assertThat(b.body()).doesNotContain("--");
      b.go(s.address() + base.substring(1) + query.replace("gap=0.1", "gap=wide"));
      b.says("'wide' is no length for the gap");
    }
  }
}
