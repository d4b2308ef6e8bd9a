package org.padtrue.gauge;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * The blank form of a gauge study, as lines of a CSV file that is filled in and read back.
 *
 * <p>Sessions are operator by trial, operators in a new random order in every trial, placements in
 * a new random order in every session, so that drift and memory do not pass for a person or a
 * placement. Every second trial is read with the panel turned by 180 degrees. The order comes from
 * a fixed seed: the same study gives the same form.
 */
public final class GaugeForm {
  private static final long SEED = 20260105;
  private static final int LEAST_SESSIONS = 3;

  private GaugeForm() {}

  /**
   * The form.
   *
   * @param refs placements to read, by names unique in the study; ten that span the part types and
   *     the panel are customary
   * @param operators who reads; three are customary
   * @param trials repeats an operator, at least 2
   * @return lines without line ends: instructions behind #, header, one row a reading, empty where
   *     a number belongs
   */
  public static List<String> lines(List<String> refs, List<String> operators, int trials) {
    return lines(refs, operators, trials, List.of());
  }

  /**
   * The form with something said of the placements.
   *
   * @param about sentences
   */
  public static List<String> lines(
      List<String> refs, List<String> operators, int trials, List<String> about) {
    check(refs, operators, trials);
    List<String> lines = new ArrayList<>();
    lines.add("# Gauge study: read every row, in this order, without looking at earlier readings.");
    lines.add(
        "# Before each new session take the panel out, put it back and register it anew (find its"
            + " fiducials again).");
    lines.add(
        "# turned = 180: put the panel in turned by 180 degrees. Write dx and dy along the panel's"
            + " own axes, as on its drawing;");
    lines.add(
        "# if what you read is along the machine's axes, change the sign of both. This shows the"
            + " bias of camera and person.");
    lines.add(
        "# dx, dy (mm), drotation (degrees): measured minus nominal, plus = right, up,"
            + " counter-clockwise as placed; leave drotation empty if not read.");
    about.forEach(s -> lines.add("# " + s));
    lines.add("session,ref,operator,trial,turned,dx,dy,drotation");
    Random random = new Random(SEED);
    int session = 0;
    for (int trial = 1; trial <= Math.max(trials, LEAST_SESSIONS); trial++) {
      List<String> who = new ArrayList<>(operators);
      Collections.shuffle(who, random);
      for (String operator : who) {
        session++;
        List<String> order = new ArrayList<>(refs);
        Collections.shuffle(order, random);
        for (String ref : order) {
          lines.add(
              session
                  + ","
                  + quoted(ref)
                  + ","
                  + quoted(operator)
                  + ","
                  + trial
                  + ","
                  + (turned(trial, trials) ? 180 : 0)
                  + ",,,");
        }
      }
    }
    return lines;
  }

  private static boolean turned(int trial, int trials) {
    return trials < LEAST_SESSIONS ? trial > trials : trial % 2 == 0;
  }

  private static void check(List<String> refs, List<String> operators, int trials) {
    List<Problem> problems = new ArrayList<>();
    if (refs.isEmpty() || new HashSet<>(refs).size() < refs.size()) {
      problems.add(
          Problem.of(
              "",
              refs.isEmpty() ? "no placement is given to read" : "a placement is given twice",
              "name each placement to read once"));
    }
    if (operators.isEmpty() || new HashSet<>(operators).size() < operators.size()) {
      problems.add(
          Problem.of(
              "",
              operators.isEmpty() ? "no operator is given" : "an operator is given twice",
              "name each operator once"));
    }
    if (trials < 2) {
      problems.add(Problem.of("", "the number of trials is " + trials, "give 2 trials or more"));
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  private static String quoted(String s) {
    boolean plain = s.chars().noneMatch(c -> c == ',' || c == '"' || c == ';' || c == '\n');
    return plain ? s : "\"" + s.replace("\"", "\"\"") + "\"";
  }
}
