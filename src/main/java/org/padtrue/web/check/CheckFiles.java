package org.padtrue.web.check;

import java.io.IOException;
import org.padtrue.apply.SecondArticleCheck;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.report.TrimCheckReport;
import org.padtrue.report.json.StoredCheck;
import org.padtrue.web.bench.BenchArticle;

/** The check of an article as a later step of the loop reads it. */
public final class CheckFiles {
  private CheckFiles() {}

  /**
   * What check.json of an article says.
   *
   * @throws org.padtrue.problem.InputException when it cannot be checked
   */
  public static StoredCheck stored(BenchArticle a, LoadedJob job) throws IOException {
    SecondArticleCheck c = CheckPages.check(a, job).check();
    return StoredCheck.read("check.json", TrimCheckReport.json(c.result(), c.head()));
  }
}
