package org.padtrue.door;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Optional;
import org.padtrue.panel.Job;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Measurement;
import org.padtrue.problem.AsIs;
import org.padtrue.problem.Question;

/**
 * Lengths of the job's machine and measurement that only make sense in um.
 *
 * <p>Common practice: a machine's entry step is 0.001 to 0.1 mm, a panel repeats to 0.005 to 0.15
 * mm, a reading is known to 0.001 to 0.05 mm.
 */
final class MachineValues {
  private static final String KEY = "machineUnits";
  private static final double MOST_STEP_MM = 0.5;
  private static final double MOST_MM = 1;

  private MachineValues() {}

  static Optional<Question> question(Job job, AsIs asIs) {
    Machine m = job.machine();
    Measurement s = job.measurement();
    if (asIs.answers(KEY)) {
      return Optional.empty();
    }
    return ask(job, "machine.resolution", m.resolutionMm(), MOST_STEP_MM)
        .or(() -> ask(job, "machine.panelRepeatability.x", m.repeatabilityXMm(), MOST_MM))
        .or(() -> ask(job, "machine.panelRepeatability.y", m.repeatabilityYMm(), MOST_MM))
        .or(() -> ask(job, "measurement.uncertainty", s.uncertaintyMm(), MOST_MM))
        .or(() -> ask(job, "measurement.bias", s.biasMm(), MOST_MM));
  }

  private static Optional<Question> ask(Job job, String what, double mm, double most) {
    if (!(mm >= most)) {
      return Optional.empty();
    }
    String as = number(mm);
    return Optional.of(
        new Question(
            KEY,
            job.name(),
            "\"" + what + "\" is " + as + " mm, which looks like " + as + " um",
            "write it in mm (" + number(mm / 1000) + ")"));
  }

  private static String number(double v) {
    return BigDecimal.valueOf(v).round(new MathContext(6)).stripTrailingZeros().toPlainString();
  }
}
