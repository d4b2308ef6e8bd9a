package org.padtrue.cli.option;

import org.jspecify.annotations.Nullable;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedArticle;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** What a correction takes over from the row that it corrects. */
public final class Correction {
  private Correction() {}

  /** The article to correct, or null when none is named. */
  public static @Nullable LoggedArticle old(ArticleLog log, @Nullable Long id) {
    if (id == null) {
      return null;
    }
    return log.article(id)
        .orElseThrow(
            () ->
                new InputException(
                    Problem.of(
                        "--corrects",
                        "there is no article number " + id + " in the log",
                        "see 'padtrue history list'")));
  }

  public static String reason(@Nullable String reason, CommandSpec spec) {
    if (reason == null || reason.isBlank()) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--corrects needs --reason: say why in a few words");
    }
    return reason;
  }
}
