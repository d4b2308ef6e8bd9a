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
    b.says("Where to look next");
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
        two.says("Where to look next");
        one.keys("0.02", Keys.ENTER, "0.01", Keys.ENTER, Keys.ENTER);
        one.until(() -> one.all("[data-state=kept]").size() == 1);
        // the other one sees it without a reload
        two.until(() -> two.all("[data-state=kept]").size() == 1);
        one.go(page);
        assertThat(one.all("[data-state=kept]")).hasSize(1);
      }
      // the server is gone: what is typed waits in the browser
      one.keys("0.04", Keys.ENTER, "0.05", Keys.ENTER, Keys.ENTER);
      one.says("1 not yet on disk: ");
      one.says("The server does not answer.");
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

  private Path journal() {
    return dir.resolve("ws/articles/first-article/entries.log");
  }

  private static void online(Browser b, boolean on) {
    b.driver.executeCdpCommand("Network.enable", java.util.Map.of());
    b.driver.executeCdpCommand(
        "Network.emulateNetworkConditions",
        java.util.Map.of(
            "offline", !on, "latency", 0, "downloadThroughput", -1, "uploadThroughput", -1));
  }

  /** The unit is switched while an entry waits: it is stored in the unit in which it was typed. */
  @Test
  void theUnitBelongsToTheTextOfTheRow() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      begin(b, s);
      online(b, false);
      b.keys("0.025", Keys.ENTER, "-0.01", Keys.ENTER, Keys.ENTER);
      b.keys("0.03");
      b.until(() -> b.all("[data-state=waiting]").size() == 1);
      b.script(
          "const u = document.getElementById('unit'); u.value = 'um';"
              + "u.dispatchEvent(new Event('change'));");
      assertThat(b.all("[data-state=waiting]").get(0).getText()).contains("typed in mm");
      b.says("dx, \u00b5m");
      assertThat(b.all("input[data-field=x]").get(1).getDomProperty("value")).isEqualTo("0.03");
      online(b, true);
      b.until(() -> b.all("[data-state=kept]").size() == 1);
      assertThat(last(journal()).dxMm()).isEqualTo(0.025);
      assertThat(last(journal()).dyMm()).isEqualTo(-0.01);
      // what is on disk is shown in the unit chosen; what is being typed keeps its own
      assertThat(b.all("input[data-field=x]").get(0).getDomProperty("value")).isEqualTo("25");
      b.all("input[data-field=y]").get(1).sendKeys("0.04", Keys.ENTER, Keys.ENTER);
      b.until(() -> b.all("[data-state=kept]").size() == 2);
      assertThat(last(journal()).dxMm()).isEqualTo(0.03);
      assertThat(last(journal()).dyMm()).isEqualTo(0.04);
    }
  }

  /** A row with one value says which is missing, is not called stored, and survives a reload. */
  @Test
  void halfTypedIsNotStored() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      begin(b, s);
      long before = Files.readAllLines(journal()).size();
      b.keys("0.025", Keys.ENTER, Keys.ENTER, Keys.ENTER);
      b.says("not stored: y is missing");
      b.says("1 not yet on disk: ");
      b.says("(y is missing)");
      assertThat(Files.readAllLines(journal())).hasSize((int) before);
      // leaving is warned of
      b.driver.navigate().refresh();
      b.until(
          () -> {
            try {
              b.driver.switchTo().alert().accept();
              return true;
            } catch (org.openqa.selenium.NoAlertPresentException e) {
              return b.all("[data-state=missing]").size() == 1;
            }
          });
      b.says("not stored: y is missing");
      b.all("input[data-field=y]").get(0).sendKeys("0.01", Keys.ENTER, Keys.ENTER);
      b.until(() -> b.all("[data-state=kept]").size() == 1);
      assertThat(last(journal()).dxMm()).isEqualTo(0.025);
      assertThat(last(journal()).dyMm()).isEqualTo(0.01);
      b.says("Everything typed is on disk.");
    }
  }

  /** Two people type the same placement: the second is asked, the first is told. */
  @Test
  void nobodysValueIsOverwrittenUnsaid() throws IOException {
    try (WebServer s = serve();
        Browser one = Browser.open();
        Browser two = Browser.open()) {
      begin(one, s);
      two.go(one.driver.getCurrentUrl());
      two.says("Where to look next");
      two.keys("0.05", Keys.ENTER, "0.06");
      one.keys("0.02", Keys.ENTER, "0.01", Keys.ENTER, Keys.ENTER);
      one.until(() -> one.all("[data-state=kept]").size() == 1);
      two.keys(Keys.ENTER, Keys.ENTER);
      two.says("Another page entered dx +0.02 mm, dy +0.01 mm at ");
      assertThat(last(journal()).dxMm()).isEqualTo(0.02);
      two.says("(another page entered something else)");
      two.accessible("two values for one placement");
      two.shot("measure-clash");
      two.all(".ask button").get(0).click();
      two.until(() -> two.all("[data-state=kept]").size() == 1);
      assertThat(last(journal()).dxMm()).isEqualTo(0.05);
      one.says("Another page changed this from dx 0.02, dy 0.01 mm to dx 0.05, dy 0.06 mm.");
      // a placement added on one page comes onto the other without a reload
      one.script("window.stillHere = true;");
      two.see("#more").sendKeys("2/1/R1", Keys.ENTER);
      one.says("Another page added to the list: 2/1/R1");
      assertThat(one.script("return window.stillHere;")).isEqualTo(true);
    }
  }

  /** Fields take what instruments send; a finger's keys give a sign; the last row ends the list. */
  @Test
  void readOutsFingersAndTheEndOfTheList() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      begin(b, s);
      b.keys("X+0.025mm", Keys.ENTER, "Y -12.5 \u00b5m", Keys.ENTER, "0\u00b06'", Keys.ENTER);
      b.until(() -> b.all("[data-state=kept]").size() == 1);
      assertThat(last(journal()))
          .satisfies(
              e -> {
                assertThat(e.dxMm()).isEqualTo(0.025);
                assertThat(e.dyMm()).isEqualTo(-0.0125);
                assertThat(e.dRotationDeg()).isEqualTo(0.1);
              });
      b.keys("Y+1", Keys.ENTER, "0", Keys.ENTER, Keys.ENTER);
      b.says("'Y+1' in x names another axis");
      // only y is corrected: x keeps its last digit though the field shows fewer
      b.script(
          "const u = document.getElementById('unit'); u.value = 'mil';"
              + "u.dispatchEvent(new Event('change'));");
      b.script("document.querySelectorAll('input[data-field=y]')[0].focus();");
      b.keys("1", Keys.ENTER, Keys.ENTER);
      b.until(() -> on(journal(), 0.0254));
      assertThat(last(journal()).dxMm()).isEqualTo(0.025);
      b.script("document.querySelector('.pad').style.display = 'flex';");
      b.all("input[data-field=x]").get(3).sendKeys("2");
      b.click("[data-pad=sign]");
      assertThat(b.all("input[data-field=x]").get(3).getDomProperty("value")).isEqualTo("-2");
      b.click("[data-pad=next]");
      b.keys("1");
      b.click("[data-pad=next]");
      b.click("[data-pad=next]");
      b.until(() -> on(journal(), 0.0254) && b.all("[data-state=kept]").size() == 2);
      assertThat(last(journal()).dxMm()).isEqualTo(-0.0508);
      b.script("document.querySelector('.pad').style.display = '';");
      List<org.openqa.selenium.WebElement> all = b.all("input[data-field=rotation]");
      all.get(all.size() - 1).sendKeys(Keys.ENTER);
      b.says("End of the list. Not measured: ");
      b.keys(Keys.chord(Keys.ALT, "u"));
      assertThat(b.driver.switchTo().activeElement().getAttribute("id")).isEqualTo("unit");
    }
  }

  /** Where the first termination of the placement looked for is drawn. */
  private static String cx(Browser b) {
    return String.valueOf(
        b.script("return document.querySelector('.near .sought .first').getAttribute('cx')"));
  }

  private static boolean on(Path journal, double dy) {
    try {
      return last(journal).dyMm() == dy;
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** A word in place of numbers is a fault: stored, counted as outside, saved with the article. */
  @Test
  void aFaultIsTypedInPlaceOfNumbers() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      begin(b, s);
      b.keys("Tombstoned", Keys.ENTER, Keys.ENTER, Keys.ENTER);
      b.until(() -> b.all("[data-state=kept]").size() == 1);
      assertThat(last(journal()).kind()).isEqualTo(Entry.Kind.LEFT_OUT);
      assertThat(last(journal()).text()).isEqualTo("tombstone");
      b.says("Everything typed is on disk.");
      String row =
          String.valueOf(b.script("return document.querySelector('tr[data-key]').dataset.key"));
      b.keys("0.01", Keys.ENTER, "0.02", Keys.ENTER, Keys.ENTER);
      b.until(() -> b.all("[data-state=kept]").size() == 2);
      b.driver.navigate().refresh();
      b.until(() -> b.all("[data-state=kept]").size() == 2);
      assertThat(b.all("input[data-field=x]").get(0).getDomProperty("value"))
          .isEqualTo("tombstone");
      Client c = new Client(s.address());
      assertThat(c.get("/articles/first-article/article.csv").body())
          .contains("\"" + row.split("/")[3] + "\"")
          .contains("tombstone");
      // and back to numbers
      b.script("document.querySelector('input[data-field=x]').focus();");
      b.keys("0.03", Keys.ENTER, "0.04", Keys.ENTER, Keys.ENTER);
      b.until(() -> on(journal(), 0.04));
      assertThat(c.get("/articles/first-article/article.csv").body()).doesNotContain("tombstone");
    }
  }

  /** A session ends while somebody types: nothing is lost, and signing in leads back to the row. */
  @Test
  void aSessionThatEndsLeadsBackToTheRow() throws IOException {
    String phrase = "eleven grey herons";
    WebOptions options =
        new WebOptions(dir.resolve("ws"), dir.resolve("log.db").toString(), "127.0.0.1", 0, phrase);
    try (WebServer s = WebServer.start(options);
        Browser b = Browser.open()) {
      b.go(s.address());
      b.see("input[name=passPhrase]").sendKeys(phrase, Keys.ENTER);
      begin(b, s);
      b.keys("0.01", Keys.ENTER, "0.02", Keys.ENTER, Keys.ENTER);
      b.until(() -> b.all("[data-state=kept]").size() == 1);
      b.driver.manage().deleteAllCookies();
      b.keys("0.03", Keys.ENTER, "0.04", Keys.ENTER, Keys.ENTER);
      b.says("Your session has ended.");
      b.says("1 row is kept in this browser");
      b.click("#saved a");
      b.see("input[name=passPhrase]").sendKeys(phrase, Keys.ENTER);
      b.until(() -> b.all("[data-state=kept]").size() == 2);
      assertThat(last(journal()).dxMm()).isEqualTo(0.03);
      assertThat(b.driver.getCurrentUrl()).contains("#row-");
      b.says("Everything typed is on disk.");
    }
  }

  /** The view shows the placement among its neighbours, turned and mirrored as it lies. */
  @Test
  void theViewTurnsWithThePanel() throws IOException {
    try (WebServer s = serve();
        Browser b = Browser.open()) {
      begin(b, s);
      b.see(".near .sought .body");
      String before = cx(b);
      b.script(
          "const t = document.getElementById('turn'); t.value = '180';"
              + "t.dispatchEvent(new Event('change'));");
      b.until(() -> Math.abs(Double.parseDouble(cx(b)) + Double.parseDouble(before)) < 1e-6);
      b.shot("measure-turned");
      b.click("#mirrored");
      b.until(() -> cx(b).equals(before));
      b.click("#follow");
      b.accessible("measure page with the view turned");
      // the map by keys
      b.script("document.querySelector('[data-map] .place[tabindex]').focus();");
      b.keys(Keys.ARROW_RIGHT, Keys.ENTER);
      b.until(
          () ->
              b.driver.switchTo().activeElement().getTagName().equals("input")
                  || b.script("return document.activeElement.dataset.place") != null);
      b.shot("measure-mirrored");
    }
  }

  private static Entry last(Path journal) throws IOException {
    List<String> lines = Files.readAllLines(journal);
    return EntryLine.read(lines.get(lines.size() - 1)).orElseThrow();
  }
}
