package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.padtrue.web.server.WebOptions;

/** A newcomer with an empty folder and two files reaches the trim sheet. */
class TwoFilesWalkTest {
  @TempDir Path dir;

  @Test
  void oneChoiceAndOneClickLeadToTheTrimSheet() throws IOException {
    Path placements = Files.write(dir.resolve("board.csv"), Boards.placements());
    Path article = Files.write(dir.resolve("first-panel.csv"), Boards.article(3));
    try (WebServer s =
            WebServer.start(
                WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
        Browser b = Browser.open()) {
      long begun = System.nanoTime();
      b.go(s.address());
      b.files("input[type=file]", placements, article);
      b.click(".drop button");
      b.says("What to change");
      double seconds = (System.nanoTime() - begun) / 1e9;
      String page = b.body();
      assertThat(page).contains("part type SOT23").contains("interlocks and lockout");
      assertThat(registration(b)).startsWith("\u2212").endsWith("\u00b5m");
      System.out.printf(
          "from the first page to the trim sheet: 1 choice of files, 1 click, %.0f s%n", seconds);
      assertThat(seconds).isLessThan(120);
      System.out.printf(
          "result page: first paint %s ms, everything there %s ms after the request%n",
          b.script(
              "return"
                  + " Math.round(performance.getEntriesByName('first-contentful-paint')[0].startTime)"),
          b.script(
              "return Math.round(performance.getEntriesByType('navigation')[0].loadEventEnd)"));
      b.accessible("result page");
      b.shot("result");
      look(b);
      tryOut(b);
      for (int[] size : new int[][] {{1280, 1000}, {768, 1000}, {390, 844}}) {
        b.size(size[0], size[1]);
        b.fits("result page at " + size[0]);
        b.shot("result-" + size[0]);
      }
      b.scheme("dark");
      b.accessible("result page, dark");
      b.shot("result-dark");
    }
  }

  private static String registration(Browser b) {
    return b.driver
        .findElement(
            By.xpath("//table[@class='trims']//tr[th[starts-with(., 'registration')]]/td[1]"))
        .getText();
  }

  /** Unticking the registration: the prediction follows, and nothing is kept. */
  private static void tryOut(Browser b) throws IOException {
    b.script("document.querySelector('.whatif').open = true;");
    b.click("[data-key=registration]");
    b.says("Tried, not kept: not entered: registration");
    String before = b.see(".tried tbody tr td:nth-child(2)").getText();
    String after = b.see(".tried tbody tr td:nth-child(3)").getText();
    // Scatter 8 um a placement and axis, and an offset that usually repeats to 12 um.
    assertThat(before).startsWith("2").endsWith("\u00b5m");
    assertThat(micrometres(after)).isGreaterThan(1.5 * micrometres(before));
    b.accessible("result page with something tried");
    b.shot("result-tried");
    b.see("#out").sendKeys("U3 1/1/U4");
    b.click(".whatif button");
    b.says("left out: U3, 1/1/U4");
    b.driver.findElement(By.linkText("Back to what was decided")).click();
    b.until(() -> b.all(".tried").isEmpty());
    assertThat(registration(b)).startsWith("\u2212");
  }

  private static double micrometres(String text) {
    return Double.parseDouble(text.split(" ")[0]);
  }

  /** The map: before and after, a placement's numbers. */
  private static void look(Browser b) {
    assertThat(b.see(".arrows.seen").isDisplayed()).isTrue();
    b.click("input[value=after]");
    assertThat(b.see(".arrows.after").isDisplayed()).isTrue();
    assertThat(b.all(".arrows.seen").get(0).isDisplayed()).isFalse();
    b.script(
        "document.querySelector('[data-place=\"P1/1/1/U3\"] rect').dispatchEvent(new"
            + " MouseEvent('click', {bubbles: true}));");
    b.until(() -> b.see("#placement").getText().contains("measured minus nominal"));
    assertThat(b.see("#placement").getText()).startsWith("1/1/U3").contains("SOT23");
    List<?> lit = b.all(".place.lit");
    assertThat(lit).hasSize(1);
  }
}
