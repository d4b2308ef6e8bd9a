package org.padtrue.log;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.history.Conditions;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedAttachment;
import org.padtrue.history.LoggedPlacement;
import org.padtrue.history.LoggedTrim;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.panel.article.MeasuredFault;

/** Makes the log's row of an article: what was measured, what it says by itself, what was known. */
public final class Recording {
  private Recording() {}

  /**
   * What is recorded beside the article.
   *
   * @param machine name of the machine
   * @param at when it was placed and measured
   * @param conditions under what; an unknown temperature is taken from the article's file
   * @param notes free text
   * @param trims increments entered into the machine since the previous article
   * @param attachments pictures and other files
   */
  public record Circumstances(
      String machine,
      Instant at,
      Conditions conditions,
      String notes,
      List<LoggedTrim> trims,
      List<LoggedAttachment> attachments) {
    public Circumstances {
      trims = List.copyOf(trims);
      attachments = List.copyOf(attachments);
    }
  }

  /**
   * Fits a screened article.
   *
   * @param job the job
   * @param article as read
   * @param terms the same screened
   * @param c what else is known
   * @return the row, ready for {@link org.padtrue.history.ArticleLog#record}
   */
  public static LoggedArticle of(Job job, Article article, ArticleTerms terms, Circumstances c) {
    return new LoggedArticle(
        job.name(),
        article.file(),
        c.machine(),
        c.at(),
        conditions(c.conditions(), article),
        word(job.stage()),
        word(job.measurement().reference()),
        c.notes(),
        placements(terms, article.faults()),
        PlainFit.of(terms),
        c.trims(),
        c.attachments());
  }

  private static String word(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT);
  }

  private static Conditions conditions(Conditions c, Article a) {
    if (!Double.isNaN(c.temperatureC()) || a.temperatureC().isEmpty()) {
      return c;
    }
    return new Conditions(
        c.shift(),
        c.operator(),
        a.temperatureC().getAsDouble(),
        c.humidityPercent(),
        c.minutesRunning(),
        c.placementsSinceService());
  }

  private static List<LoggedPlacement> placements(ArticleTerms terms, List<MeasuredFault> faults) {
    List<LoggedPlacement> out = new ArrayList<>();
    for (int i = 0; i < terms.all().size(); i++) {
      Measured m = terms.all().rows().get(i);
      String excluded = terms.excludedAs().get(i);
      out.add(
          new LoggedPlacement(
              m.panel(),
              m.board().column(),
              m.board().row(),
              m.placement().ref(),
              m.placement().part(),
              m.levels(),
              m.nominal().xMm(),
              m.nominal().yMm(),
              m.nominal().rotationDeg(),
              m.dxMm(),
              m.dyMm(),
              m.dRotationDeg(),
              m.uMm(),
              excluded.isEmpty(),
              excluded));
    }
    for (MeasuredFault f : faults) {
      out.add(
          new LoggedPlacement(
              f.panel(),
              f.board().column(),
              f.board().row(),
              f.placement().ref(),
              f.placement().part(),
              f.placement().levels(),
              f.nominal().xMm(),
              f.nominal().yMm(),
              f.nominal().rotationDeg(),
              f.dxMm(),
              f.dyMm(),
              f.dRotationDeg(),
              Double.NaN,
              false,
              f.kind().key()));
    }
    return out;
  }
}
