package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.interactions.Actions;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.Entry;
import org.padtrue.web.server.WebOptions;

/** From a picture to the result: look, accept, move, reject. */
class PicturesWalkTest {
  private static final Path SAMPLE = Path.of("samples/pictures");

  @TempDir Path dir;

  @Test
  void measuredLookedAtMovedAndAccepted() throws IOException {
    try (WebServer s =
            WebServer.start(
                WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
        Browser b = Browser.open()) {
      b.go(s.address());
      b.files(
          "input[type=file]",
          SAMPLE.resolve("placements.csv"),
          SAMPLE.resolve("parts.json"),
          SAMPLE.resolve("job.json"));
      b.click(".drop button");
      b.says("Measure a panel");
      b.click("button.main");
      b.says("Where to look next");
      b.driver.findElement(org.openqa.selenium.By.linkText("Pictures")).click();
      b.says("Send a picture from above");
      b.files("#files", SAMPLE.resolve("panel.jpg"));
      b.click(".drop button");
      b.says("Look before it counts");
      b.accessible("pictures page");
      b.scheme("dark");
      b.accessible("pictures page, dark");
      b.shot("pictures-dark");
      b.scheme("light");
      b.shot("pictures");
      // the missing part comes first
      assertThat(b.see(".crop").getText()).contains("part missing").contains("R3");
      Path article = dir.resolve("ws/articles/first-article");
      WebElement one = b.all(".crop.found").get(0);
      String key = one.getAttribute("data-key");
      drag(b, one);
      one.findElement(org.openqa.selenium.By.cssSelector("[data-what=move]")).click();
      b.until(() -> "moved".equals(one.getAttribute("data-verdict")));
      Entry moved = measured(article).get(key);
      assertThat(moved.text()).isEqualTo("moved in panel.jpg");
      assertThat(moved.uMm()).isPositive();
      WebElement other = b.all(".crop.found").get(1);
      other.findElement(org.openqa.selenium.By.cssSelector("[data-what=reject]")).click();
      b.until(() -> "rejected".equals(other.getAttribute("data-verdict")));
      b.click("button.main");
      b.says("that are left (0)");
      Map<String, Entry> standing = measured(article);
      assertThat(standing).hasSize(66).doesNotContainKey(other(b));
      assertThat(standing.get(key).text()).isEqualTo("moved in panel.jpg");
      for (int[] size : new int[][] {{768, 1000}, {390, 844}}) {
        b.size(size[0], size[1]);
        b.fits("pictures page at " + size[0]);
        b.shot("pictures-" + size[0]);
      }
      b.size(1280, 1000);
      b.driver.findElement(org.openqa.selenium.By.linkText("To the result")).click();
      b.says("What to change");
      b.script(
          "document.querySelector('[data-place=\""
              + key
              + "\"] rect').dispatchEvent(new"
              + " MouseEvent('click', {bubbles: true}));");
      assertThat(b.see("#placement .cropped image").getAttribute("href")).endsWith("/1.jpg");
    }
  }

  private static String other(Browser b) {
    return b.all(".crop[data-verdict=rejected]").get(0).getAttribute("data-key");
  }

  /** By the mouse, then by keys: both move the outline, which then may be kept. */
  private static void drag(Browser b, WebElement card) {
    WebElement svg = card.findElement(org.openqa.selenium.By.tagName("svg"));
    b.script("arguments[0].scrollIntoView({block: 'center'});", svg);
    new Actions(b.driver).dragAndDropBy(svg, 12, 5).perform();
    b.script("arguments[0].focus();", svg);
    b.keys(Keys.ARROW_RIGHT, ".");
    b.until(() -> card.getText().contains("moved, not kept yet"));
  }

  private static Map<String, Entry> measured(Path article) {
    return BenchArticle.open("a", article).measured();
  }
}
