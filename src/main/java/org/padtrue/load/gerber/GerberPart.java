package org.padtrue.load.gerber;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A part as a component layer draws it, mm, seen from the top. */
final class GerberPart {
  final String ref;
  final double x;
  final double y;
  final int line;
  final Map<String, double[]> pins = new LinkedHashMap<>();
  final List<double[]> body = new ArrayList<>();
  final List<double[]> widest = new ArrayList<>();
  double rotation = Double.NaN;
  double height = Double.NaN;
  String footprint = "";
  String value = "";
  String mount = "";

  GerberPart(String ref, double x, double y, int line) {
    this.ref = ref;
    this.x = x;
    this.y = y;
    this.line = line;
  }

  /** Where the points of an outline go; null for outlines that are not used. */
  @Nullable List<double[]> outline(String function) {
    return function.endsWith(",Body") ? body : function.endsWith(",Lead2Lead") ? widest : null;
  }

  String type() {
    return footprint.isEmpty() ? value : footprint;
  }
}
