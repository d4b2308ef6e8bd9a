package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedPlacement;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.article.FaultKind;

/** What an article says in words of a placement: counted as outside, named, not fitted. */
class StatusTest {
  @TempDir private Path dir;

  private FirstArticleResult read(String head, String[] spoiled) throws IOException {
    StringBuilder p = new StringBuilder("ref,part,x,y,rotation\n");
    StringBuilder a = new StringBuilder(head).append('\n');
    Random random = new Random(4);
    for (int i = 0; i < 30; i++) {
      p.append(
          "R%d,T%d,%d,%d,%d%n".formatted(i, i % 3, 5 + 9 * (i % 6), 4 + 8 * (i / 6), 90 * (i % 4)));
      String number =
          String.format(
              Locale.ROOT,
              "%.3f,%.3f,%.2f",
              0.05 + 0.012 * random.nextGaussian(),
              0.012 * random.nextGaussian(),
              0.1 * random.nextGaussian());
      a.append(
          i < spoiled.length
              ? spoiled[i].replace("#", number)
              : "R" + i + "," + number + (head.contains("status") ? ",ok" : ""));
      a.append('\n');
    }
    Files.writeString(dir.resolve("p.csv"), p);
    Files.writeString(
        dir.resolve("parts.json"),
        "{\"parts\": [{\"name\": \"T0\", \"tolerance\": {\"x\": 0.2, \"y\": 0.2, \"rotation\": 5}},"
            + " {\"name\": \"T1\", \"tolerance\": {\"x\": 0.2, \"y\": 0.2, \"rotation\": 5}},"
            + " {\"name\": \"T2\", \"tolerance\": {\"x\": 0.2, \"y\": 0.2, \"rotation\": 5}}]}");
    Files.writeString(dir.resolve("a.csv"), a);
    Files.writeString(
        dir.resolve("job.json"), "{\"placements\": \"p.csv\", \"parts\": \"parts.json\"}");
    LoadedJob job = JobLoader.loadWithFile(dir.resolve("job.json")).orThrow();
    return FirstArticleAnalysis.run(
        job.job(),
        List.of(ArticleLoader.load(dir.resolve("a.csv"), job).orThrow()),
        AnalysisOptions.withDefaults());
  }

  private static final String[] COLUMN = {
    "R0,,,,missing",
    "R1,#,skewed",
    "R2,,,,Tomb-stoned",
    "R3,#,wrong part",
    "R4,,,,DNP",
    "R5,,,,not measured",
    "R6,#,wobbly"
  };

  @Test
  void aStatusColumn() throws IOException {
    FirstArticleResult r = read("ref,dx,dy,drotation,status", COLUMN);
    assertThat(r.excluded())
        .extracting(Excluded::kind)
        .containsExactly("missing", "skewed", "tombstone", "wrongPart", "notPlaced");
    assertThat(r.excluded()).extracting(Excluded::fault).containsOnly(true);
    assertThat(r.excluded())
        .extracting(Excluded::sentence)
        .containsExactly(
            "1/1/R0 is missing, as the article's status says",
            "1/1/R1 is skewed, as the article's status says",
            "1/1/R2 stands on one end ('Tomb-stoned'), as the article's status says",
            "1/1/R3 is another part than listed ('wrong part'), as the article's status says",
            "1/1/R4 was not placed ('DNP'), as the article's status says");
    assertThat(r.counts().measured()).isEqualTo(29);
    assertThat(r.counts().used()).isEqualTo(24);
    assertThat(r.counts().excluded()).isEqualTo(5);
    assertThat(r.counts().missing()).isEqualTo(1);
    assertThat(r.acceptance().outside()).isEqualTo(5);
    assertThat(r.acceptance().outsideAfterTrim()).isEqualTo(5);
    assertThat(r.notes().stream().map(n -> n.replace(dir + "/", "")))
        .contains("a.csv: the status 'wobbly' is not known and counts for nothing.")
        .contains("a.csv: 1 row without a position taken as not measured.");
  }

  /** The same words where numbers belong. */
  @Test
  void wordsInPlaceOfNumbers() throws IOException {
    String[] words = {
      "R0,missing,,", "R1,skewed,skewed,", "R2,0.05,tombstone,", "R3,wrong part,,", "R4,n/a,n/a,"
    };
    FirstArticleResult r = read("ref,dx,dy,drotation", words);
    assertThat(r.excluded())
        .extracting(Excluded::kind)
        .containsExactly("missing", "skewed", "tombstone", "wrongPart");
    assertThat(r.counts().used()).isEqualTo(25);
    assertThat(r.acceptance().outside()).isEqualTo(4);
  }

  /** The log keeps each as a fault of its kind; the same article with other marks is another. */
  @Test
  void theLogKeepsThem() throws IOException {
    read("ref,dx,dy,drotation,status", COLUMN);
    String log = dir.resolve("log.db").toString();
    Object[] record = {
      "record",
      dir.resolve("job.json"),
      dir.resolve("a.csv"),
      "--history",
      log,
      "--machine",
      "M1",
      "--at",
      "2026-03-02T08:00:00Z"
    };
    Run run = Run.of(record);
    assertThat(run.code()).as(run.err()).isZero();
    assertThat(run.out())
        .contains("29 placements, 24 used")
        .contains(
            "marked as faults: missing 1, not placed 1, tombstone 1, skewed 1, a wrong part 1");
    try (ArticleLog l = ArticleLog.openToRead(log)) {
      LoggedArticle a = l.article(1).orElseThrow();
      assertThat(a.placements()).filteredOn(p -> p.fault().isPresent()).hasSize(5);
      LoggedPlacement skewed =
          a.placements().stream().filter(p -> p.ref().equals("R1")).findFirst().orElseThrow();
      assertThat(skewed.fault()).contains(FaultKind.SKEWED);
      assertThat(skewed.used()).isFalse();
      assertThat(skewed.dxMm()).isNotNaN();
      LoggedPlacement missing =
          a.placements().stream().filter(p -> p.ref().equals("R0")).findFirst().orElseThrow();
      assertThat(missing.dxMm()).isNaN();
    }
    assertThat(Run.of(record).err()).contains("recorded");
    String other = Files.readString(dir.resolve("a.csv")).replace(",missing", ",tombstone");
    Files.writeString(dir.resolve("a.csv"), other);
    assertThat(Run.of(record).code()).isZero();
    assertThat(Run.of("history", "list", "--history", log).code()).isZero();
    run = Run.of("history", "export", "--history", log, "--json", dir.resolve("log.json"));
    assertThat(run.code()).as(run.err()).isZero();
  }

  /** Every file that is written holds them; those of another kind are refused as before. */
  @Test
  void theWholeWay() throws IOException {
    read("ref,dx,dy,drotation,status", COLUMN);
    Run run =
        Run.of(
            "analyse",
            dir.resolve("job.json"),
            dir.resolve("a.csv"),
            "--slip",
            "R1",
            "--out",
            dir.resolve("out"));
    assertThat(run.code()).as(run.err()).isZero();
    assertThat(run.out()).contains("R0 is missing");
    assertThat(Files.readString(dir.resolve("out/analysis.json"))).contains("\"tombstone\"");
    assertThat(Files.readString(dir.resolve("out/residuals.csv"))).contains("a wrong part");
    assertThat(Files.readString(dir.resolve("out/report.html"))).contains("stands on one end");
    Files.writeString(dir.resolve("a.csv"), "ref,dx,dy\nR0,gone fishing,0.1\n");
    run = Run.of("analyse", dir.resolve("job.json"), dir.resolve("a.csv"), "--quiet");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains("'gone fishing' is not a number; write one such as 12.45");
  }

  /** A word that is no status is named itself, not the empty cell beside it. */
  @Test
  void aWordThatIsNoStatus() throws IOException {
    read("ref,dx,dy,drotation,status", COLUMN);
    Files.writeString(dir.resolve("a.csv"), "ref,dx,dy\nR0,fell off,\nR1,,0.1\n");
    Run run = Run.of("analyse", dir.resolve("job.json"), dir.resolve("a.csv"), "--quiet");
    assertThat(run.err().replace(dir + "/", "").lines())
        .containsExactly(
            "a.csv, line 2, column dx: 'fell off' is not a number; write one such as 12.45",
            "a.csv, line 3, column dx: the cell is empty but dy is not; give both, or neither when"
                + " it is not measured");
  }
}
