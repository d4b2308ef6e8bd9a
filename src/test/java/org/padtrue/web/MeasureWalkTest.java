package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.padtrue.web.bench.Entry;
import org.padtrue.web.bench.EntryLine;
import org.padtrue.web.server.WebOptions;

/** From an empty workspace to a fit, by keyboard, in a real browser. */
class MeasureWalkTest {
  private static final Path SAMPLE = Path.of("samples/main-job");

  @TempDir Path dir;

  private WebServer serve() {
    return WebServer.start(
        WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
  }

  private void begin(Browser b, WebServer s) throws IOException {
    b.go(s.address());
    b.says("No jobs yet");
    b.accessible("first page");
    b.shot("home-empty");
    b.files(
        "input[type=file]",
        SAMPLE.resolve("placements.csv"),
        SAMPLE.resolve("parts.json"),
        SAMPLE.resolve("job.json"));
    b.click(".drop button");
    b.says("Measure a panel");
    b.accessible("job page");
    b.shot("job");
    b.see("#count").sendKeys("30");
    b.click("button.main");
    b.says("Where to go");
  }

  @Test
  void typedByKeyboardAloneAndOnDiskAfterEveryEntry() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      begin(b, s);
      Path journal = dir.resolve("ws/articles/first-article/entries.log");
      long before = Files.readString(journal).lines().count();
      b.keys("0,025", Keys.ENTER, "-0.01", Keys.ENTER, "0.1", Keys.ENTER);
      b.until(() -> b.all("[data-state=kept]").size() == 1);
      List<String> lines = Files.readAllLines(journal);
      assertThat(lines).hasSize((int) before + 1);
      assertThat(EntryLine.read(lines.get(lines.size() - 1)).orElseThrow())
          .satisfies(
              e -> {
                assertThat(e.dxMm()).isEqualTo(0.025);
                assertThat(e.dyMm()).isEqualTo(-0.01);
                assertThat(e.dRotationDeg()).isEqualTo(0.1);
              });
      // the arrow keys go by the machine's step: the sample's is 0.01 mm
      b.keys(Keys.ARROW_UP, Keys.ARROW_UP, Keys.ARROW_UP, Keys.ENTER, Keys.ARROW_DOWN, Keys.ENTER);
      b.keys(Keys.ENTER);
      b.until(() -> b.all("[data-state=kept]").size() == 2);
      Entry second = last(journal);
      assertThat(second.dxMm()).isEqualTo(0.03);
      assertThat(second.dyMm()).isEqualTo(-0.01);
      assertThat(second.dRotationDeg()).isNaN();
      b.accessible("measure page");
      b.shot("measure");
      // not a number: said at the row, nothing lost, nothing kept
      b.keys("ten", Keys.ENTER, "1", Keys.ENTER, Keys.ENTER);
      b.says("'ten' in x is no length");
      assertThat(Files.readAllLines(journal)).hasSize((int) before + 2);
      // far off its place: asked kindly, kept all the same
      b.keys("1.2", Keys.ENTER, "0", Keys.ENTER, Keys.ENTER);
      b.says("1.2 mm off its place: is the decimal point right");
      assertThat(last(journal).dxMm()).isEqualTo(1.2);
      for (int[] size : new int[][] {{1280, 1000}, {768, 1000}, {390, 844}}) {
        b.size(size[0], size[1]);
        b.fits("measure page at " + size[0]);
        b.shot("measure-" + size[0]);
      }
      b.scheme("dark");
      b.accessible("measure page, dark");
      b.shot("measure-dark");
    }
  }

  @Test
  void aReloadASecondBrowserAndARestartGoOnWhereItStood() throws IOException {
    int port;
    try (Browser one = Browser.open();
        Browser two = Browser.open()) {
      String page;
      try (WebServer s = serve()) {
        port = s.port();
        begin(one, s);
        page = one.driver.getCurrentUrl();
        two.go(page);
        two.says("Where to go");
        one.keys("0.02", Keys.ENTER, "0.01", Keys.ENTER, Keys.ENTER);
        one.until(() -> one.all("[data-state=kept]").size() == 1);
        // the other one sees it without a reload
        two.until(() -> two.all("[data-state=kept]").size() == 1);
        one.go(page);
        assertThat(one.all("[data-state=kept]")).hasSize(1);
      }
      // the server is gone: what is typed waits in the browser
      one.keys("0.04", Keys.ENTER, "0.05", Keys.ENTER, Keys.ENTER);
      one.says("1 not yet on disk");
      WebOptions again =
          WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), port);
      try (WebServer s = WebServer.start(again)) {
        one.says("Everything typed is on disk");
        Entry e = last(dir.resolve("ws/articles/first-article/entries.log"));
        assertThat(e.dxMm()).isEqualTo(0.04);
        two.until(() -> two.all("[data-state=kept]").size() == 2);
      }
    }
  }

  private static Entry last(Path journal) throws IOException {
    List<String> lines = Files.readAllLines(journal);
    return EntryLine.read(lines.get(lines.size() - 1)).orElseThrow();
  }
}
