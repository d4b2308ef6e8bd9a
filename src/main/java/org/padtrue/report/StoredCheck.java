package org.padtrue.report;

import java.nio.file.Path;
import java.util.List;
import org.padtrue.analysis.Xyr;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * What a check.json says. mm and degrees (for scale ppm and mrad); a null of the file is NaN.
 *
 * @param file where it was read from
 * @param job the job's name; empty in a file from elsewhere
 * @param second file names of the articles that were placed with the trims
 * @param verdict held, partly or notHeld
 * @param chiSquare all trimmed terms together
 * @param degreesOfFreedom its degrees of freedom
 * @param p its p value
 * @param terms one entry per trim
 */
public record StoredCheck(
    String file,
    String job,
    List<String> second,
    String verdict,
    double chiSquare,
    int degreesOfFreedom,
    double p,
    List<Term> terms) {
  private static final String MEND = "give the check.json that 'check' wrote";

  public StoredCheck {
    second = List.copyOf(second);
    terms = List.copyOf(terms);
  }

  /**
   * One trim.
   *
   * @param term what was trimmed
   * @param promised what should remain
   * @param seen what the second article shows
   * @param z seen minus promised in standard errors
   * @param finding held, wrongSign, wrongFrame, notEntered, enteredTwice, other or cannotTell
   */
  public record Term(String term, Xyr promised, Xyr seen, Xyr z, String finding) {}

  /** Reads a check.json; bad input is an {@link InputException}. */
  public static StoredCheck read(Path path) {
    String name = path.toString();
    JsonIn in = new JsonIn(name, "", AnalysisJsonReader.tree(path, name, MEND), MEND);
    String schema = in.text("schema");
    if (!schema.equals(TrimCheckReport.SCHEMA)) {
      throw new InputException(
          Problem.of(
              name,
              "the schema is '" + schema + "', expected '" + TrimCheckReport.SCHEMA + "'",
              MEND));
    }
    return new StoredCheck(
        name,
        in.text("job", ""),
        in.has("second") ? in.texts("second") : List.of(),
        in.text("verdict"),
        in.number("chiSquare"),
        in.whole("degreesOfFreedom"),
        in.number("p"),
        in.list("terms", StoredCheck::term));
  }

  private static Term term(JsonIn in) {
    return new Term(
        in.text("term"), in.xyr("promised"), in.xyr("seen"), in.xyr("z"), in.text("finding"));
  }
}
