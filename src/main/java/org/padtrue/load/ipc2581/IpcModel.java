package org.padtrue.load.ipc2581;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.standard.StandardBox;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Side;

/** What is kept of an IPC-2581 file, mm and degrees. */
final class IpcModel {
  /** Size of a shape around its own middle. */
  record Shape(double midX, double midY, double length, double width) {}

  /** What a layer is. */
  record Layer(@Nullable Side side, boolean copper) {}

  /** Place, turn and mirror of one thing. */
  record Place(double x, double y, double turn, boolean mirror) {}

  record Repeat(
      String step,
      double x,
      double y,
      int nx,
      int ny,
      double dx,
      double dy,
      double angle,
      boolean mirror,
      int line) {}

  record Component(
      String ref,
      String packageRef,
      String part,
      String layer,
      boolean transformed,
      Place place,
      boolean throughHole,
      int line) {}

  /** A fiducial of a layer. */
  record Mark(String layer, double x, double y, double diameter, int line) {}

  /** A pin of a package; {@code land} when its shape is the land, not the metal end. */
  record Pin(String name, double x, double y, @Nullable Rect rect, boolean land) {}

  /** A package. */
  static final class Pack {
    String type = "";
    double height = Double.NaN;
    double pickX;
    double pickY;
    final StandardBox outline = new StandardBox();
    final Map<String, Pin> pins = new LinkedHashMap<>();
    final Map<String, Rect> lands = new LinkedHashMap<>();

    /** True when it is picked up off its origin. */
    boolean pickedElsewhere() {
      return Math.hypot(pickX, pickY) > 0.01;
    }

    /** Width of its only pin; NaN when it has none, or one without a shape. */
    double dotMm() {
      Rect r = pins.isEmpty() ? null : pins.values().iterator().next().rect();
      return r == null ? Double.NaN : Math.min(r.lengthMm(), r.widthMm());
    }

    /** A rectangle about the origin as one about the point by which the part is picked up. */
    Rect fromPick(Rect r) {
      return pickedElsewhere()
          ? new Rect(r.xMm() - pickX, r.yMm() - pickY, r.lengthMm(), r.widthMm())
          : r;
    }
  }

  /** A step: a board or a panel. */
  static final class Step {
    final String name;
    final int line;
    double datumX;
    double datumY;
    final StandardBox profile = new StandardBox();
    final List<Repeat> repeats = new ArrayList<>();
    final List<Component> components = new ArrayList<>();
    final Map<String, Component> byRef = new LinkedHashMap<>();
    final Map<String, Pack> packs = new LinkedHashMap<>();
    final List<Mark> marks = new ArrayList<>();
    final MirrorVotes votes = new MirrorVotes();
    final MirrorVotes unmirroredVotes = new MirrorVotes();

    Step(String name, int line) {
      this.name = name;
      this.line = line;
    }
  }

  String revision = "";

  /** What the file is for, as it says itself; empty when it does not. */
  String mode = "";

  final Map<String, Shape> shapes = new LinkedHashMap<>();
  final Map<String, Layer> layers = new LinkedHashMap<>();
  final Map<String, Step> steps = new LinkedHashMap<>();
  final List<String> listedSteps = new ArrayList<>();
  final Map<String, String> bomPart = new LinkedHashMap<>();
  final Map<String, String> bomLayer = new LinkedHashMap<>();
  final java.util.Set<String> notFitted = new java.util.HashSet<>();
  final Map<String, Integer> passedOver = new java.util.TreeMap<>();

  void passOver(String what) {
    passedOver.merge(what, 1, Integer::sum);
  }
}
