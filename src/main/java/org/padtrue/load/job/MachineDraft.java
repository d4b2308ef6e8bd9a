package org.padtrue.load.job;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a person says of the machine and of the measuring, for a job file. What is not said is NaN
 * or null and stays out of the file, so that its defaults hold.
 *
 * @param resolutionMm smallest step of a length that can be entered, mm
 * @param rotationResolutionDeg the same for the rotation of a part, degrees
 * @param panelRotationResolutionDeg the same for the rotation of the panel, degrees
 * @param accepts keys of the trims that can be entered, null for all
 * @param uncertaintyMm standard uncertainty of a measured coordinate, mm
 * @param rotationUncertaintyDeg the same for a rotation, degrees
 */
public record MachineDraft(
    double resolutionMm,
    double rotationResolutionDeg,
    double panelRotationResolutionDeg,
    @Nullable List<String> accepts,
    double uncertaintyMm,
    double rotationUncertaintyDeg) {
  public MachineDraft {
    accepts = accepts == null ? null : List.copyOf(accepts);
  }

  void write(ObjectNode job) {
    ObjectNode machine = job.objectNode();
    put(machine, "resolution", resolutionMm);
    put(machine, "rotationResolution", rotationResolutionDeg);
    put(machine, "panelRotationResolution", panelRotationResolutionDeg);
    if (accepts != null) {
      accepts.forEach(machine.putArray("accepts")::add);
    }
    if (!machine.isEmpty()) {
      job.set("machine", machine);
    }
    ObjectNode measurement = job.objectNode();
    put(measurement, "uncertainty", uncertaintyMm);
    put(measurement, "rotationUncertainty", rotationUncertaintyDeg);
    if (!measurement.isEmpty()) {
      job.set("measurement", measurement);
    }
  }

  private static void put(ObjectNode n, String key, double v) {
    if (!Double.isNaN(v)) {
      n.put(key, v);
    }
  }
}
