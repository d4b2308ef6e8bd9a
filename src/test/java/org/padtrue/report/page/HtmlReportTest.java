package org.padtrue.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.panel.Job;
import org.padtrue.panel.Stage;
import org.padtrue.report.HostileResults;
import org.padtrue.report.SampleResults;
import org.padtrue.report.plot.Charts;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.words.KeyWords;
import org.padtrue.report.words.Show;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class HtmlReportTest {
  private static final Pattern DATA = Pattern.compile("data:image/(svg\\+xml|png);base64,([^\"]+)");

  private static FirstArticleResult sample;
  private static String page;

  @BeforeAll
  static void write() {
    sample = SampleResults.of(360);
    page = HtmlReport.of(sample, Charts.render(sample, ChartFormat.shown(), done -> {}));
  }

  @Test
  void answerFirstThenHowSureThenTheEvidence() {
    String t = text(page);
    assertThat(t)
        .containsSubsequence(
            "What to change",
            "Change 7 things",
            "24 \u00b5m off (RMS) instead of 63 \u00b5m",
            "registration",
            "\u221242 \u00b5m",
            "\u22120.042 mm",
            "+18 \u00b5m",
            "part type R0603",
            "Is the sign right on this machine?",
            "+0.2 mm",
            "What to expect of it",
            "Placements at risk",
            "Before anything is changed",
            "How sure",
            "What this article cannot tell apart",
            "nozzle N4 places only CONN-8",
            "Left out of the fit",
            "quarter turn",
            "The evidence",
            "Candidate models",
            "Where the variation comes from",
            "The same by part type, in its own frame",
            "Notes",
            "Okabe and Ito (2008)");
  }

  @Test
  void everyGroupShowsOffsetErrorCountLeastSquaresDecisionAndReason() {
    Element table = tableWithCaption(page, "Offsets by part type");
    for (var g : sample.groups()) {
      String row = null;
      NodeList rows = table.getElementsByTagName("tr");
      for (int i = 0; i < rows.getLength(); i++) {
        if (rows.item(i).getTextContent().startsWith(g.named().words())) {
          row = rows.item(i).getTextContent();
        }
      }
      assertThat(row).as(g.level()).isNotNull();
      assertThat(row)
          .contains(Integer.toString(g.count()))
          .contains("\u00b1")
          .contains(KeyWords.decision(g.trim().decision()))
          .contains(Show.words(g.trim().reason()));
    }
  }

  @Test
  void whatIsNotEnteredIsNotCalledAChange() {
    BatchTrim b = sample.batchTrim();
    BatchTrim.Scale scale = new BatchTrim.Scale(-451, -209, 0, Decision.TRIM, "the axes stretch");
    BatchTrim other =
        new BatchTrim(b.shift(), b.rotation(), scale, b.array(), b.common(), b.rotationZero());
    Element table =
        tableWithCaption(
            HtmlReport.of(with(sample, sample.job(), other), List.of()),
            "Corrections of the whole batch");
    assertThat(row(table, "axis scale"))
        .contains("x \u2212451, y \u2212209 ppm", KeyWords.decision(Decision.TRIM));
    assertThat(row(table, "squareness"))
        .contains(KeyWords.decision(Decision.LEAVE))
        .doesNotContain(KeyWords.decision(Decision.TRIM));
  }

  private static String row(Element table, String head) {
    NodeList rows = table.getElementsByTagName("tr");
    for (int i = 0; i < rows.getLength(); i++) {
      if (rows.item(i).getTextContent().startsWith(head)) {
        return rows.item(i).getTextContent();
      }
    }
    throw new AssertionError("no row '" + head + "'");
  }

  @Test
  void leavingEverythingAloneIsAnAnswer() {
    String t = text(HtmlReport.of(SampleResults.nothingToDo(60), List.of()));
    // SOT23 sits turned in the sample: that is said, and no offset is asked for
    assertThat(t).contains("What is seen is scatter, and an offset does not remove scatter.");
    assertThat(t).doesNotContain("Values to ADD").doesNotContain("with the trims");
  }

  @Test
  void solderLimitsAreAGuideBeforeReflowOnly() {
    assertThat(text(page)).contains("Solder-joint limits are a guide before reflow");
    String after = text(HtmlReport.of(at(sample, Stage.REFLOWED), List.of()));
    assertThat(after).doesNotContain("Solder-joint limits").contains("After reflow");
    assertThat(text(HtmlReport.of(at(sample, Stage.TAPE), List.of())))
        .contains("Solder-joint limits are a guide before reflow");
  }

  @Test
  void nothingComesFromElsewhereAndNothingRuns() {
    Matcher m = DATA.matcher(page);
    int pictures = 0;
    while (m.find()) {
      pictures++;
      String data = new String(Base64.getDecoder().decode(m.group(2)), StandardCharsets.ISO_8859_1);
      if (m.group(1).startsWith("svg")) {
        assertThat(data.replaceAll("xmlns(:\\w+)?=\"[^\"]*\"", "")).doesNotContain("://");
      }
    }
    assertThat(pictures).isEqualTo(13);
    String rest = DATA.matcher(page).replaceAll("");
    assertThat(rest)
        .doesNotContain("://")
        .doesNotContain("url(")
        .doesNotContain("@import")
        .doesNotContain("<script")
        .doesNotContain("<link")
        .doesNotContain("<iframe");
  }

  @Test
  void hostileNamesAreTextOnly() {
    FirstArticleResult r = HostileResults.of(sample);
    String evil = HtmlReport.of(r, Charts.render(r, ChartFormat.shown(), done -> {}));
    Document d = parse(evil);
    assertThat(d.getElementsByTagName("script").getLength()).isZero();
    NodeList all = d.getElementsByTagName("*");
    for (int i = 0; i < all.getLength(); i++) {
      assertThat(((Element) all.item(i)).hasAttribute("onload")).isFalse();
    }
    assertThat(d.getElementsByTagName("title").item(0).getTextContent())
        .startsWith("First article: demo-controller</title></style><script>alert(1)</script>\"'");
    assertThat(DATA.matcher(evil).replaceAll(""))
        .doesNotContain("\u001b")
        .doesNotContain("<script");
  }

  @Test
  void tablesAreMadeForReadingAloud() {
    Document d = parse(page);
    NodeList heads = d.getElementsByTagName("th");
    assertThat(heads.getLength()).isGreaterThan(40);
    for (int i = 0; i < heads.getLength(); i++) {
      assertThat(((Element) heads.item(i)).getAttribute("scope")).isIn("col", "row");
    }
    NodeList images = d.getElementsByTagName("img");
    for (int i = 0; i < images.getLength(); i++) {
      assertThat(((Element) images.item(i)).getAttribute("alt")).hasSizeGreaterThan(20);
    }
    assertThat(d.getDocumentElement().getAttribute("lang")).isEqualTo("en");
  }

  @Test
  void numbersAreForPeople() {
    String t = text(page);
    assertThat(t).doesNotContainPattern("\\d\\.\\d{5}").doesNotContain("NaN").doesNotContain("E-");
    assertThat(t).doesNotContainPattern("\\d um\\b");
  }

  @Test
  void printsOnPaperAndKnowsTheDark() {
    assertThat(page)
        .contains("@page")
        .contains("@media print")
        .contains("break-before: page")
        .contains("@media screen and (prefers-color-scheme: dark)");
  }

  @Test
  void longListsAreCutAndSaySo() {
    FirstArticleResult r = SampleResults.of(360);
    List<org.padtrue.firstarticle.result.GroupResult> many = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      many.addAll(r.groups());
    }
    String t = text(HtmlReport.of(withGroups(r, many), List.of()));
    assertThat(t).contains("And " + (many.size() - 60) + " more");
  }

  private static FirstArticleResult at(FirstArticleResult r, Stage stage) {
    Job j = r.job();
    Job other =
        new Job(
            j.name(),
            j.side(),
            stage,
            j.placements(),
            j.unplaced(),
            j.parts(),
            j.array(),
            j.fiducials(),
            j.acceptanceClass(),
            j.machine(),
            j.measurement(),
            j.notes());
    return with(r, other, r.batchTrim());
  }

  private static FirstArticleResult with(FirstArticleResult r, Job job, BatchTrim batch) {
    return new FirstArticleResult(
        job,
        r.articles(),
        r.options(),
        r.counts(),
        r.panels(),
        r.common(),
        r.rotationZero(),
        r.groups(),
        batch,
        r.trims(),
        r.tests(),
        r.variances(),
        r.budget(),
        r.scatter(),
        r.prediction(),
        r.quadrants(),
        r.aliases(),
        r.excluded(),
        r.placements(),
        r.missing(),
        r.acceptance(),
        r.clearances(),
        r.next(),
        r.notes());
  }

  private static FirstArticleResult withGroups(
      FirstArticleResult r, List<org.padtrue.firstarticle.result.GroupResult> groups) {
    return new FirstArticleResult(
        r.job(),
        r.articles(),
        r.options(),
        r.counts(),
        r.panels(),
        r.common(),
        r.rotationZero(),
        groups,
        r.batchTrim(),
        r.trims(),
        r.tests(),
        r.variances(),
        r.budget(),
        r.scatter(),
        r.prediction(),
        r.quadrants(),
        r.aliases(),
        r.excluded(),
        r.placements(),
        r.missing(),
        r.acceptance(),
        r.clearances(),
        r.next(),
        r.notes());
  }

  private static Element tableWithCaption(String html, String start) {
    NodeList captions = parse(html).getElementsByTagName("caption");
    for (int i = 0; i < captions.getLength(); i++) {
      if (captions.item(i).getTextContent().startsWith(start)) {
        return (Element) captions.item(i).getParentNode();
      }
    }
    throw new AssertionError("no table '" + start + "'");
  }

  /** What a reader sees; the page is also well-formed XML, which holds the escaping to account. */
  private static String text(String html) {
    return ((Element) parse(html).getElementsByTagName("body").item(0)).getTextContent();
  }

  private static Document parse(String html) {
    try {
      String xml = DATA.matcher(html).replaceAll("data:").replace("<!DOCTYPE html>", "");
      return DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .parse(new InputSource(new StringReader(xml)));
    } catch (Exception e) {
      throw new AssertionError("the page is not well-formed", e);
    }
  }
}
