package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.kept.WorkingView;
import org.padtrue.web.result.WaitingView;
import org.padtrue.web.server.PageFrame;
import org.padtrue.web.server.WebOptions;

/** Pages that no other walk looks at: in every width, light and dark, for axe and for eyes. */
class OtherPagesWalkTest {
  private static final String PASS = "a long pass phrase";

  @TempDir Path dir;

  @Test
  void everyOtherPageIsLookedAt() throws IOException {
    try (WebServer s =
            WebServer.start(
                new WebOptions(
                    dir.resolve("ws"),
                    dir.resolve("log.db").toString(),
                    WebOptions.LOOPBACK,
                    0,
                    PASS));
        Browser b = Browser.open()) {
      b.go(s.address());
      b.see("#pass");
      Look.at(b, "enter");
      b.see("#pass").sendKeys(PASS + "\n");
      b.says("No jobs yet");
      Look.at(b, "home-empty");
      files(b);
      // a folder that is no job, two panels of which nothing is said, a machine not asked about
      Files.createDirectories(dir.resolve("ws/jobs/lost+found"));
      String base = s.address().substring(0, s.address().length() - 1);
      Map<String, String> pages = new LinkedHashMap<>();
      pages.put("notices-home", "/");
      pages.put("notices-result", "/articles/second/result");
      pages.put("record-form", "/articles/second/record");
      pages.put("delete-question", "/jobs/placements/delete");
      pages.put("refused", "/jobs/nobody");
      for (Map.Entry<String, String> p : pages.entrySet()) {
        b.go(base + p.getValue());
        b.see("h1");
        Look.at(b, p.getKey());
      }
      b.go(base + "/articles/second/delete");
      b.click("main button.main");
      b.says("Take back");
      Look.at(b, "deleted");
      drawn(
          b, "waiting", new WaitingView("a", "First", "j", "Board", "36 placements", "3 seconds"));
      drawn(b, "working", new WorkingView("To measure", "/", "Board", "Choosing", "3 seconds"));
    }
  }

  /** Two panels of one job, sent by the browser itself: its session has the pass phrase. */
  private void files(Browser b) throws IOException {
    b.files(
        "input[type=file]",
        Files.write(dir.resolve("placements.csv"), Boards.placements()),
        Files.write(dir.resolve("first.csv"), Boards.article(1)),
        Files.write(dir.resolve("second.csv"), Boards.article(2)));
    b.click(".drop button");
    b.says("Articles");
  }

  /** A page that stands for a moment only, put where it would stand; it does not ask again. */
  private static void drawn(Browser b, String template, Object view) throws IOException {
    StringOutput out = new StringOutput();
    TemplateEngine.createPrecompiled(
            null, ContentType.Html, WebServer.class.getClassLoader(), "org.padtrue.web.pages")
        .render(
            template + ".jte",
            Map.of(
                "frame",
                new PageFrame("Calculating", "jobs", "token", false, List.of()),
                "view",
                view),
            out);
    String html = out.toString();
    assertThat(html).contains("wait.js");
    b.script(
        "document.open();document.write(arguments[0]);document.close();",
        html.replace("/assets/wait.js", "/assets/app.js"));
    b.see("progress");
    b.until(() -> Boolean.TRUE.equals(b.script("return document.styleSheets.length > 0;")));
    Look.at(b, template);
  }
}
