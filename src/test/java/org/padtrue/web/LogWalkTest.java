package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.padtrue.web.server.WebOptions;

/** Through the log and what drifts in a real browser, light and dark, wide and narrow. */
class LogWalkTest {
  private static final int[][] SIZES = {{1280, 1000}, {768, 1000}, {390, 844}};

  @TempDir Path dir;

  @Test
  void fromTheListToTheSignOffAndFromADotToItsArticle() throws IOException {
    String url = dir.resolve("log.db").toString();
    InventedLog.drifting(url, 60);
    RecordableJob.in(dir);
    try (WebServer s = WebServer.start(WebOptions.local(dir.resolve("ws"), url, 0));
        Browser b = Browser.open()) {
      log(b, s.address());
      drift(b, s.address());
      record(b, s.address());
    }
  }

  private static void everySize(Browser b, String page) throws IOException {
    b.accessible(page);
    for (int[] size : SIZES) {
      b.size(size[0], size[1]);
      b.fits(page + " at " + size[0]);
    }
    b.shot(page + "-390");
    b.size(1280, 1000);
    b.shot(page + "-1280");
  }

  private static void dark(Browser b, String page) throws IOException {
    b.scheme("dark");
    b.accessible(page + ", dark");
    b.shot(page + "-dark");
    b.scheme("light");
  }

  private static void log(Browser b, String address) throws IOException {
    b.go(address + "log");
    b.says("60 articles, newest first");
    everySize(b, "log");
    // found by keyboard alone
    b.click("summary");
    b.see("#text").sendKeys("note 7", Keys.ENTER);
    b.says("1 of 60 articles");
    assertThat(b.see("#text").getAttribute("value")).isEqualTo("note 7");
    b.go(address + "log");
    b.click("input[value='60']");
    b.click("input[value='20']");
    b.click("form.listing button");
    b.says("differ by more than three standard errors");
    assertThat(b.driver.getCurrentUrl()).endsWith("/log/compare?a=20&b=60");
    everySize(b, "log-compare");
    dark(b, "log-compare");
    b.go(address + "log/" + (InventedLog.TRIMMED + 1));
    b.says("Nobody has signed this article off.");
    b.click("#sign-offs ~ details summary");
    b.see("#name").sendKeys("A. Example");
    b.see("#role").sendKeys("quality");
    b.see("#note").sendKeys("released");
    b.click("#sign-offs ~ details button");
    b.says("released");
    everySize(b, "log-article");
    dark(b, "log-article");
    b.script("window.print = () => { document.title = 'printed'; };");
    b.click("[data-print]");
    assertThat(b.driver.getTitle()).isEqualTo("printed");
  }

  private static void drift(Browser b, String address) throws IOException {
    b.go(address + "drift");
    b.says("What drifts, and what to do");
    everySize(b, "drift");
    b.go(address + "drift/series?name=nozzle+N2+x");
    everySize(b, "drift-series");
    dark(b, "drift-series");
    // one stop for the whole plot, then from article to article
    List<WebElement> dots = b.all("[data-plot] svg a");
    assertThat(dots).hasSize(60);
    assertThat(b.all("[data-plot] svg a[tabindex='0']")).hasSize(1);
    b.script("document.querySelector(\"[data-plot] svg a[tabindex='0']\").focus();");
    b.keys(Keys.ARROW_LEFT);
    b.keys(Keys.ARROW_LEFT);
    assertThat(b.see("[data-says]").getText()).startsWith("Article 58, ").contains("beyond");
    b.shot("drift-dot");
    b.keys(Keys.ENTER);
    b.says("Article 58");
    assertThat(b.driver.getCurrentUrl()).endsWith("/log/58");
  }

  private static void record(Browser b, String address) throws IOException {
    b.go(address + "articles/first/record");
    b.click("details.wide summary");
    everySize(b, "record");
    b.see("#record-machine").sendKeys("M1");
    b.see("#record-temperature").sendKeys("23,5");
    b.see("#record-trims").sendKeys("scaleXPpm = -120");
    b.click("form.record button.main");
    b.says("Board on machine M1");
    assertThat(b.body()).contains("23.5 \u00b0C").contains("\u2212120");
  }
}
