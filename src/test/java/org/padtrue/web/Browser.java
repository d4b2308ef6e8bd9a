package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A real browser: Debian's Chromium through its driver. Tests are skipped where there is none. */
final class Browser implements AutoCloseable {
  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
  private static final Path SHOTS = Path.of("target/screenshots");
  private static final Duration PATIENCE = Duration.ofSeconds(30);

  final ChromeDriver driver;
  private final WebDriverWait wait;

  private Browser(ChromeDriver driver) {
    this.driver = driver;
    wait = new WebDriverWait(driver, PATIENCE);
    wait.ignoring(StaleElementReferenceException.class);
  }

  static Browser open() {
    assumeTrue(Files.exists(CHROMIUM) && Files.exists(DRIVER), "no browser here");
    ChromeOptions o = new ChromeOptions();
    o.setBinary(CHROMIUM.toFile());
    o.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--force-color-profile=srgb",
        "--window-size=1280,1000");
    ChromeDriverService s =
        new ChromeDriverService.Builder().usingDriverExecutable(DRIVER.toFile()).build();
    return new Browser(new ChromeDriver(s, o));
  }

  void go(String url) {
    driver.get(url);
  }

  /** Waits until an element is there and shown. */
  WebElement see(String css) {
    return wait.until(
        d ->
            d.findElements(By.cssSelector(css)).stream()
                .filter(WebElement::isDisplayed)
                .findFirst()
                .orElse(null));
  }

  /** Waits until the page says a text. */
  void says(String text) {
    wait.until(d -> body().contains(text));
  }

  /** Waits until something holds. */
  void until(java.util.function.BooleanSupplier what) {
    wait.until(d -> what.getAsBoolean());
  }

  String body() {
    return driver.findElement(By.tagName("body")).getText();
  }

  List<WebElement> all(String css) {
    return driver.findElements(By.cssSelector(css));
  }

  void click(String css) {
    see(css).click();
  }

  /** Presses keys where the cursor stands. */
  void keys(CharSequence... keys) {
    driver.switchTo().activeElement().sendKeys(keys);
  }

  /** Chooses files in a file field. */
  void files(String css, Path... files) {
    String all =
        java.util.Arrays.stream(files)
            .map(Path::toAbsolutePath)
            .map(Path::toString)
            .collect(Collectors.joining("\n"));
    driver.findElement(By.cssSelector(css)).sendKeys(all);
  }

  Object script(String js, Object... args) {
    return ((JavascriptExecutor) driver).executeScript(js, args);
  }

  void size(int width, int height) {
    driver.manage().window().setSize(new Dimension(width, height));
  }

  /** Light or dark, as the person's system has it. */
  void scheme(String lightOrDark) {
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", lightOrDark))));
  }

  /** Keeps a picture of the page under target/screenshots, to be looked at. */
  void shot(String name) throws IOException {
    Files.createDirectories(SHOTS);
    File f = driver.getScreenshotAs(OutputType.FILE);
    Files.move(
        f.toPath(),
        SHOTS.resolve(name + ".png"),
        java.nio.file.StandardCopyOption.REPLACE_EXISTING);
  }

  /** Keeps a picture of the page as it is printed; no button and no field is on it. */
  void paper(String name) throws IOException {
    driver.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", "print"));
    List<String> shown =
        all("button, .button, input, select, textarea").stream()
            .filter(WebElement::isDisplayed)
            .map(WebElement::getText)
            .toList();
    shot(name);
    driver.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", ""));
    assertThat(shown).as("buttons and fields on paper: " + name).isEmpty();
  }

  /** What the axe rules for people with disabilities find on this page: nothing. */
  void accessible(String page) throws IOException {
    driver.executeScript(axe());
    @SuppressWarnings("unchecked")
    List<String> found =
        (List<String>)
            driver.executeAsyncScript(
                "const done = arguments[arguments.length - 1];axe.run(document).then(r =>"
                    + " done(r.violations.map(v => v.id + ': ' + v.help + ' ' + v.nodes.map(n =>"
                    + " n.target.join(' ')).join(', '))), e => done([String(e)]));");
    assertThat(found).as("axe on " + page).isEmpty();
  }

  private static String axe() throws IOException {
    try (InputStream in =
        Browser.class.getResourceAsStream(
            "/META-INF/resources/webjars/axe-core/4.6.3/axe.min.js")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** The page is not wider than the window. */
  void fits(String page) {
    Object over =
        script(
            "return document.documentElement.scrollWidth - document.documentElement.clientWidth;");
    assertThat(((Number) over).intValue()).as("width over the window on " + page).isZero();
  }

  @Override
  public void close() {
    driver.quit();
  }
}
