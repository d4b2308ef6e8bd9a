package org.padtrue.report.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.words.Show;

/**
 * What a check.json says. mm and degrees (for scale ppm and mrad); a null of the file is NaN.
 *
 * @param file where it was read from
 * @param analysisHash of the analysis that it belongs to; empty in a file of an earlier version
 * @param job the job's name; empty in a file from elsewhere
 * @param second file names of the articles that were placed with the trims
 * @param verdict held, partly or notHeld
 * @param chiSquare pure number, all trimmed terms together
 * @param degreesOfFreedom its degrees of freedom
 * @param p its p value
 * @param terms one entry per trim
 */
public record StoredCheck(
    String file,
    String analysisHash,
    String job,
    List<String> second,
    String verdict,
    double chiSquare,
    int degreesOfFreedom,
    double p,
    List<Term> terms) {
  /** Value of the key {@code schema}. */
  public static final String SCHEMA = "padtrue/check/1";

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
   * @param turn the whole turn trimmed with it; null for none
   * @param finding held, wrongSign, wrongFrame, notEntered, enteredTwice, other or cannotTell
   */
  public record Term(
      String term, Xyr promised, Xyr seen, Xyr z, @Nullable Turn turn, String finding) {

    /** What should remain and what shows, in words, "turned 90 deg" behind the rest; or empty. */
    public String turned(boolean asSeen) {
      if (turn == null) {
        return "";
      }
      OptionalInt v = asSeen ? turn.seen : OptionalInt.of(turn.promised);
      return "turned " + (v.isEmpty() ? Show.UNKNOWN : v.getAsInt() + "\u00b0");
    }
  }

  /**
   * A whole turn, degrees.
   *
   * @param trim what was to be added
   * @param promised how the type should then stand
   * @param seen how it stands; empty when that does not show
   * @param finding what became of it
   */
  public record Turn(int trim, int promised, OptionalInt seen, String finding) {}

  /** Reads a check.json; bad input is an {@link InputException}. */
  public static StoredCheck read(Path path) {
    String name = path.toString();
    return read(name, AnalysisJsonReader.tree(path, name, MEND));
  }

  /** The same of a file in memory. */
  public static StoredCheck read(String name, byte[] json) throws IOException {
    return read(name, new ObjectMapper().readTree(json));
  }

  private static StoredCheck read(String name, JsonNode tree) {
    JsonIn in = new JsonIn(name, "", tree, MEND);
    String schema = in.text("schema");
    if (!schema.equals(SCHEMA)) {
      throw new InputException(
          Problem.of(name, "the schema is '" + schema + "', expected '" + SCHEMA + "'", MEND));
    }
    return new StoredCheck(
        name,
        in.text("analysisHash", ""),
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
        in.text("term"),
        in.xyr("promised"),
        in.xyr("seen"),
        in.xyr("z"),
        turn(in.objectOrNull("turn")),
        in.text("finding"));
  }

  private static @Nullable Turn turn(@Nullable JsonIn in) {
    return in == null
        ? null
        : new Turn(
            in.whole("trim"),
            in.whole("promised"),
            in.has("seen") ? OptionalInt.of(in.whole("seen")) : OptionalInt.empty(),
            in.text("finding"));
  }
}
