package org.padtrue.report.plot;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Collections;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.knowm.xchart.XYChart;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.report.SampleResults;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.ChartRows;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.report.plot.ink.Encoder;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;
import org.w3c.dom.Document;

class ChartsTest {
  private static final List<String> NAMES =
      List.of(
          "map-before",
          "map-after",
          "map-residual",
          "target-tolerance-before",
          "target-tolerance-after",
          "target-before",
          "target-after",
          "budget",
          "tolerance-use",
          "spread-x",
          "spread-y",
          "rotation",
          "normal");

  /** Pixels of a colour that a chart with data has at the least: a few marks. */
  private static final int FEW_MARKS = 60;

  @ParameterizedTest
  @ValueSource(ints = {20, 360, 1000, 20000})
  void everyChartIsThereAndShowsItsData(int placements) throws Exception {
    AtomicInteger last = new AtomicInteger();
    FirstArticleResult r = SampleResults.of(placements);
    List<DrawnChart> pictures = Charts.render(r, EnumSet.allOf(ChartFormat.class), last::set);
    assertThat(pictures.stream().map(DrawnChart::name)).containsExactlyElementsOf(NAMES);
    assertThat(last).hasValue(NAMES.size());
    assertThat(Charts.count(r)).isEqualTo(NAMES.size());
    for (DrawnChart p : pictures) {
      BufferedImage image = image(p);
      assertThat(image.getWidth()).isEqualTo(p.width());
      Map<Hue, Integer> hues = hues(image);
      boolean before = p.name().contains("before");
      boolean both = List.of("budget", "tolerance-use", "rotation", "normal").contains(p.name());
      if (before || both) {
        assertThat(hues.get(Hue.ORANGE)).as(p.name()).isGreaterThan(FEW_MARKS);
      }
      if (!before) {
        assertThat(hues.get(Hue.BLUE)).as(p.name()).isGreaterThan(FEW_MARKS);
      }
      if (before) {
        assertThat(hues.get(Hue.BLUE)).as(p.name()).isZero();
      }
      assertThat(inkInMargin(image)).as(p.name() + ": something is cut at the edge").isZero();
      svg(p);
    }
  }

  @Test
  void whatNobodyAskedForIsNotDrawn() {
    FirstArticleResult r = SampleResults.of(60);
    assertThat(Charts.render(r, EnumSet.of(ChartFormat.PNG), done -> {}))
        .hasSize(NAMES.size())
        .allSatisfy(p -> assertThat(p.files()).containsOnlyKeys(ChartFormat.PNG))
        .allSatisfy(
            p ->
                assertThatThrownBy(() -> p.file(ChartFormat.SVG))
                    .hasMessageContaining("was not drawn as SVG"));
    assertThat(Charts.render(r, EnumSet.noneOf(ChartFormat.class), done -> {})).isEmpty();
  }

  @Test
  void anEmptyChartWouldBeNoticed() throws IOException {
    XYChart empty =
        new ChartFrame(500, 400, "t", "x", "y", new Range(0, 1), new Range(0, 1)).finish();
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(Encoder.png(empty)));
    assertThat(hues(image).get(Hue.BLUE)).isZero();
    assertThat(hues(image).get(Hue.ORANGE)).isZero();
  }

  @Test
  void aCutLabelWouldBeNoticed() throws IOException {
    ChartFrame f = new ChartFrame(500, 400, "t", "x", "y", new Range(0, 1), new Range(0, 1));
    f.draw(ink -> ink.text("cut", -6, 200, Ink.Anchor.LEFT, Palette.TITLE, Palette.INK));
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(Encoder.png(f.finish())));
    assertThat(inkInMargin(image)).isPositive();
  }

  @Test
  void everyPanelGetsItsOwnMapsUpToThree() {
    List<DrawnChart> two =
        Charts.render(SampleResults.ofPanels(60, "A", "B"), ChartFormat.shown(), done -> {});
    assertThat(two.stream().map(DrawnChart::name))
        .contains("map-before-1", "map-after-1", "map-before-2", "map-residual-2")
        .doesNotContain("map-before");
    List<DrawnChart> five =
        Charts.render(
            SampleResults.ofPanels(20, "A", "B", "C", "D", "E"), ChartFormat.shown(), done -> {});
    assertThat(five.stream().filter(p -> p.group().equals("map"))).hasSize(9);
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 22})
  void rowsHaveTheirRoomHoweverFewTheyAre(int rows) {
    List<String> names = Collections.nCopies(rows, "R0402 (1)");
    XYChart c =
        ChartRows.frame(600, "t", "x", new Range(0, 1), names)
            .key("k", Ink.Mark.DOT, Palette.AFTER)
            .finish();
    Encoder.png(c);
    double top = c.getScreenYFromChart(rows + 0.5);
    double bottom = c.getScreenYFromChart(0.5);
    assertThat(bottom - top).isGreaterThan(Math.max(60, 25 * rows));
    assertThat(top).isGreaterThan(20);
    assertThat(bottom).isLessThan(c.getHeight() - 60);
  }

  @Test
  void theMapIsTrueToScale() {
    PlotData data = PlotData.of(SampleResults.of(360));
    XYChart c = new PanelMap(data, PanelMap.Kind.BEFORE, "").frame().finish();
    Encoder.png(c);
    double perX = c.getScreenXFromChart(100) - c.getScreenXFromChart(0);
    double perY = c.getScreenYFromChart(0) - c.getScreenYFromChart(100);
    assertThat(perX / perY).isBetween(0.99, 1.01);
  }

  @Test
  void arrowsPointToWhereThePartsWent() throws IOException {
    // everything shifted to +x, +y: marks of the target lie in the upper right quarter
    PlotData data = PlotData.of(SampleResults.of(360));
    double x =
        data.used().stream().mapToDouble(p -> p.result().deviation().x()).average().orElse(0);
    double y =
        data.used().stream().mapToDouble(p -> p.result().deviation().y()).average().orElse(0);
    assertThat(x).isPositive();
    assertThat(y).isPositive();
    XYChart c = TargetChart.micrometres(data, false).finish();
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(Encoder.png(c)));
    double[] mean = meanOf(image, Hue.ORANGE, (int) c.getScreenYFromChart(-99));
    assertThat(mean[0]).isGreaterThan(c.getScreenXFromChart(20));
    assertThat(mean[1]).isLessThan(c.getScreenYFromChart(2));
  }

  private enum Hue {
    BLUE,
    ORANGE
  }

  private static Hue hue(int rgb) {
    float[] hsb = Color.RGBtoHSB(rgb >> 16 & 255, rgb >> 8 & 255, rgb & 255, null);
    if (hsb[1] < 0.25) {
      return null;
    }
    // orange of the marks lies at 40 degrees, vermilion of the limits at 26
    return hsb[0] > 0.55 && hsb[0] < 0.6
        ? Hue.BLUE
        : hsb[0] > 0.09 && hsb[0] < 0.14 ? Hue.ORANGE : null;
  }

  private static Map<Hue, Integer> hues(BufferedImage image) {
    Map<Hue, Integer> counts = new HashMap<>(Map.of(Hue.BLUE, 0, Hue.ORANGE, 0));
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        Hue h = hue(image.getRGB(x, y));
        if (h != null) {
          counts.merge(h, 1, Integer::sum);
        }
      }
    }
    return counts;
  }

  private static double[] meanOf(BufferedImage image, Hue wanted, int bottom) {
    double sx = 0;
    double sy = 0;
    int n = 0;
    for (int y = 0; y < Math.min(bottom, image.getHeight()); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        if (hue(image.getRGB(x, y)) == wanted) {
          sx += x;
          sy += y;
          n++;
        }
      }
    }
    return new double[] {sx / n, sy / n};
  }

  /** Pixels that are not white in the outermost two pixels of the picture. */
  private static int inkInMargin(BufferedImage image) {
    int ink = 0;
    int w = image.getWidth();
    int h = image.getHeight();
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        boolean edge = x < 2 || y < 2 || x >= w - 2 || y >= h - 2;
        if (edge && (image.getRGB(x, y) & 0xffffff) != 0xffffff) {
          ink++;
        }
      }
    }
    return ink;
  }

  private static BufferedImage image(DrawnChart p) throws IOException {
    return ImageIO.read(new ByteArrayInputStream(p.file(ChartFormat.PNG)));
  }

  /** Well-formed, right size, full of paths, not too long. */
  private static void svg(DrawnChart p) throws Exception {
    Document d =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(p.file(ChartFormat.SVG)));
    assertThat(d.getDoctype()).isNull();
    assertThat(d.getDocumentElement().getAttribute("viewBox"))
        .isEqualTo("0 0 " + p.width() + " " + p.height());
    assertThat(d.getElementsByTagName("path").getLength()).as(p.name()).isGreaterThan(10);
    assertThat(d.getElementsByTagName("text").getLength()).as("no viewer needs our font").isZero();
    assertThat(p.file(ChartFormat.SVG).length).as(p.name()).isLessThan(600_000);
  }
}
