package org.padtrue.load.ipc2581;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.ipc2581.IpcModel.Component;
import org.padtrue.load.ipc2581.IpcModel.Layer;
import org.padtrue.load.ipc2581.IpcModel.Mark;
import org.padtrue.load.ipc2581.IpcModel.Pack;
import org.padtrue.load.ipc2581.IpcModel.Pin;
import org.padtrue.load.ipc2581.IpcModel.Repeat;
import org.padtrue.load.ipc2581.IpcModel.Step;
import org.padtrue.load.standard.StandardBox;
import org.padtrue.load.standard.StandardData;
import org.padtrue.load.standard.StandardMark;
import org.padtrue.load.standard.StandardRow;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Side;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;
import org.padtrue.quantity.LengthUnit;

/** Finds the board and its panel among the steps of a file, and what every part's side is. */
final class IpcBoard {
  private static final int DEEPEST = 8;
  private static final int MOST_BOARDS = 10_000;
  private static final int MOST_VISITS = 100_000;
  private static final double SAME_MM = 0.01;
  // outlines and pick-up points are often written to a thousandth of an inch
  private static final double CENTRED_MM = 0.026;
  private static final Pack NO_PACK = new Pack();

  private final String file;
  private final IpcModel model;
  private final LengthUnit unit;
  private final @Nullable String wanted;
  private final ProblemList problems;
  private final List<String> notes = new ArrayList<>();
  private final List<Pose> boards = new ArrayList<>();
  private final Set<String> leaves = new LinkedHashSet<>();
  private int visits;

  IpcBoard(String file, IpcModel model, LengthUnit unit, @Nullable String wanted) {
    this.file = file;
    this.model = model;
    this.unit = unit;
    this.wanted = wanted;
    this.problems = new ProblemList(file);
  }

  private InputException fail(int line, String found, String mend) {
    return new InputException(Problem.at(file, line, found, mend));
  }

  StandardData data() {
    if (model.steps.values().stream().allMatch(s -> s.components.isEmpty())) {
      throw fail(
          0,
          meant("has no placements (no Component)"),
          "export it with its parts, as a file for assembly");
    }
    Step root = root();
    refuseLoops();
    flatten(root, new Pose(0, 0, 0), 0);
    Step board = board(root);
    List<StandardRow> rows = rows(board);
    boolean panel = board != root;
    return new StandardData(
        file,
        "IPC-2581" + (model.revision.isEmpty() ? "" : " revision " + model.revision),
        unit,
        rows,
        panel ? boards : List.of(),
        marks(root, board, rows),
        parts(board),
        board.profile.isEmpty() ? null : board.profile,
        counts(root, board, panel),
        skipped(),
        notes,
        problems.all());
  }

  /** What is wrong with a file that is meant for something else. */
  private String meant(String lacks) {
    String what =
        switch (model.mode) {
          case "FABRICATION" -> "a file for fabrication";
          case "BOM" -> "a bill of materials";
          case "STACKUP" -> "a stackup";
          case "TEST" -> "a file for test";
          case "STENCIL" -> "a file for the stencil";
          case "DFX" -> "a list of findings";
          default -> "";
        };
    return what.isEmpty() ? "the file " + lacks : "the file is " + what + " and " + lacks;
  }

  private List<String> counts(Step root, Step board, boolean panel) {
    List<String> c = new ArrayList<>();
    c.add(
        "step "
            + TextPieces.quoted(board.name)
            + (panel ? " in " + TextPieces.quoted(root.name) : ""));
    c.add(TextPieces.count(board.packs.size(), "package"));
    c.add(TextPieces.count(model.layers.size(), "layer"));
    return c;
  }

  private List<String> skipped() {
    List<String> s = new ArrayList<>();
    model.passedOver.forEach((what, n) -> s.add(n == 1 ? what : n + " " + what));
    return s;
  }

  private Step root() {
    if (wanted != null) {
      Step s = model.steps.get(wanted);
      if (s == null) {
        throw fail(
            0,
            "there is no step " + TextPieces.quoted(wanted),
            "use one of " + TextPieces.list(model.steps.keySet(), 8) + " as \"step\" in the job");
      }
      return s;
    }
    Set<String> inside = new TreeSet<>();
    model.steps.values().forEach(s -> s.repeats.forEach(r -> inside.add(r.step())));
    List<Step> tops = new ArrayList<>();
    for (Step s : model.steps.values()) {
      if (!inside.contains(s.name) && (!s.repeats.isEmpty() || !s.components.isEmpty())) {
        tops.add(s);
      }
    }
    if (tops.size() == 1) {
      return tops.get(0);
    }
    if (tops.isEmpty()) {
      // a file without parts, or steps that hold each other
      return model.steps.values().iterator().next();
    }
    throw fail(
        tops.get(1).line,
        "the file holds several boards or panels: " + TextPieces.list(names(tops), 8),
        "name the one that is placed as \"step\" in the job");
  }

  /** Takes away, again and again, the steps that hold none of the others; a loop stays. */
  private void refuseLoops() {
    Map<String, Step> left = new LinkedHashMap<>(model.steps);
    for (int round = 0; round <= DEEPEST && !left.isEmpty(); round++) {
      Set<String> names = new TreeSet<>(left.keySet());
      left.values().removeIf(s -> s.repeats.stream().noneMatch(r -> names.contains(r.step())));
    }
    if (!left.isEmpty()) {
      Step s = left.values().iterator().next();
      throw fail(
          s.line,
          "the step " + TextPieces.quoted(s.name) + " holds itself, or steps are nested too deep",
          "export the panel again");
    }
  }

  private static List<String> names(List<Step> steps) {
    return steps.stream().map(s -> s.name).toList();
  }

  private void flatten(Step s, Pose at, int depth) {
    if (++visits > MOST_VISITS) {
      throw fail(s.line, "the panel has more than 10000 boards", "export one board");
    }
    if (!s.components.isEmpty() && (s.repeats.isEmpty() || depth > 0)) {
      leaves.add(s.name);
      boards.add(new Pose(-s.datumX, -s.datumY, 0).seenFrom(at));
      if (boards.size() > MOST_BOARDS) {
        throw fail(s.line, "the panel has more than 10000 boards", "export one board");
      }
    }
    for (Repeat r : s.repeats) {
      repeat(r, s, at, depth);
    }
  }

  private void repeat(Repeat r, Step parent, Pose at, int depth) {
    Step inner = model.steps.get(r.step());
    if (inner == null) {
      throw fail(
          r.line(),
          "the StepRepeat names the step " + TextPieces.quoted(r.step()) + ", which is not there",
          "export the panel with its boards");
    }
    if (r.mirror()) {
      throw fail(
          r.line(),
          "the boards " + TextPieces.quoted(r.step()) + " are turned over within the panel",
          "name the board as \"step\" in the job, and give its places in the job's \"panel\"");
    }
    if (inner.components.isEmpty() && inner.repeats.isEmpty()) {
      return;
    }
    for (int j = 0; j < r.ny(); j++) {
      for (int i = 0; i < r.nx(); i++) {
        double x = r.x() + i * r.dx() - (depth > 0 ? parent.datumX : 0);
        double y = r.y() + j * r.dy() - (depth > 0 ? parent.datumY : 0);
        flatten(inner, new Pose(x, y, r.angle()).seenFrom(at), depth + 1);
      }
    }
  }

  private Step board(Step root) {
    if (leaves.size() > 1) {
      throw fail(
          root.line,
          "the panel holds boards of different kinds: " + TextPieces.list(leaves, 8),
          "name one as \"step\" in the job");
    }
    if (leaves.isEmpty()) {
      return root;
    }
    Step b = model.steps.get(leaves.iterator().next());
    if (b != null && b != root && !root.components.isEmpty()) {
      notes.add(
          file
              + ": the panel's own "
              + TextPieces.count(root.components.size(), "part")
              + " (step "
              + TextPieces.quoted(root.name)
              + ") are not on its boards and are left out.");
    }
    return b == null ? root : b;
  }

  private List<StandardRow> rows(Step board) {
    List<StandardRow> rows = new ArrayList<>();
    MirrorVotes.Way way = way(board);
    int plain = 0;
    Set<String> byMirror = new TreeSet<>();
    Set<String> unmirrored = new TreeSet<>();
    for (Component c : board.components) {
      Side side = side(c, byMirror);
      if (side == null) {
        continue;
      }
      if (!c.transformed()) {
        plain++;
      }
      if (side == Side.BOTTOM && !c.place().mirror()) {
        unmirrored.add(c.ref());
      }
      double turn =
          side == Side.BOTTOM ? way.turn(c.place().turn()) : Angles.wrap(c.place().turn());
      String part = c.packageRef().isEmpty() ? c.part() : c.packageRef();
      if (part.isEmpty()) {
        problems.add(
            c.line(),
            "the component " + TextPieces.quoted(c.ref()) + " has neither packageRef nor part",
            "name its package");
        continue;
      }
      String value = c.part().isEmpty() ? model.bomPart.getOrDefault(c.ref(), "") : c.part();
      rows.add(
          new StandardRow(
              c.ref(),
              part,
              value,
              side,
              picked(new Pose(c.place().x(), c.place().y(), turn), side, pack(board, part)),
              !model.notFitted.contains(c.ref()),
              c.line()));
    }
    note(plain > 0, TextPieces.count(plain, "part") + " without Xform taken as not turned");
    note(!byMirror.isEmpty(), "side told by mirror alone for " + TextPieces.list(byMirror, 5));
    note(
        !unmirrored.isEmpty(),
        "parts of the bottom layer without mirror taken as mirrored all the same: "
            + TextPieces.list(unmirrored, 5));
    outside(board, rows);
    long picked = board.packs.values().stream().filter(Pack::pickedElsewhere).count();
    note(
        picked > 0,
        "places are of the pick-up points, which "
            + TextPieces.count(picked, "package")
            + (picked == 1 ? " has" : " have")
            + " off the origin");
    return rows;
  }

  private static Pack pack(Step board, String name) {
    return board.packs.getOrDefault(name, NO_PACK);
  }

  /**
   * The origin of a package may be its pin 1; what is placed, and measured, is the point by which
   * it is picked up.
   */
  private static Pose picked(Pose origin, Side side, Pack p) {
    if (!p.pickedElsewhere()) {
      return origin;
    }
    double x = side == Side.BOTTOM ? -p.pickX : p.pickX;
    return new Pose(x, p.pickY, 0).seenFrom(origin);
  }

  private void note(boolean is, String words) {
    if (is) {
      notes.add(file + ": " + words + ".");
    }
  }

  private void outside(Step board, List<StandardRow> rows) {
    if (board.profile.isEmpty()) {
      return;
    }
    List<String> out =
        rows.stream()
            .filter(r -> !board.profile.near(r.pose().xMm(), r.pose().yMm(), 5))
            .map(StandardRow::ref)
            .toList();
    note(!out.isEmpty(), "outside the board's outline lie " + TextPieces.list(out, 5));
  }

  private MirrorVotes.Way way(Step board) {
    MirrorVotes v = board.votes.seen() > 0 ? board.votes : board.unmirroredVotes;
    MirrorVotes.Way way = v.best();
    boolean matters =
        board.components.stream()
            .anyMatch(c -> c.place().mirror() && Angles.wrap(c.place().turn()) != 0);
    if (v.seen() > 0) {
      note(
          v.hits(way) > 0,
          "parts of the bottom are "
              + way.words()
              + ", as "
              + v.hits(way)
              + " of their "
              + v.seen()
              + " pads show");
      if (v.hits(way) < 0.9 * v.seen()) {
        problems.add(
            board.line,
            "pads and pins of the bottom agree with no order of mirror and rotation ("
                + v.hits(way)
                + " of "
                + v.seen()
                + ")",
            "export the file again, or give the placements as a table");
      }
    } else {
      note(
          matters,
          "no pad shows how parts of the bottom are turned; taken as "
              + way.words()
              + ", as in the standard's published test cases");
    }
    return way;
  }

  private @Nullable Side side(Component c, Set<String> byMirror) {
    Layer l = model.layers.get(c.layer());
    if (l == null) {
      l = model.layers.get(model.bomLayer.getOrDefault(c.ref(), ""));
    }
    boolean mirror = c.place().mirror();
    if (l != null && l.side() != null) {
      if (l.side() == Side.TOP && mirror) {
        problems.add(
            c.line(),
            "the component "
                + TextPieces.quoted(c.ref())
                + " lies on the top layer and is mirrored",
            "correct its layerRef or its mirror");
        return null;
      }
      return l.side();
    }
    if (l == null && !mirror && !anyMirror()) {
      problems.add(
          c.line(),
          "the layerRef "
              + TextPieces.quoted(c.layer())
              + " of "
              + TextPieces.quoted(c.ref())
              + " names no layer, and no part is mirrored, so its side is not known",
          "correct the layerRef, or export the layers too");
      return null;
    }
    byMirror.add(c.ref());
    return mirror ? Side.BOTTOM : Side.TOP;
  }

  private boolean anyMirror() {
    return model.steps.values().stream()
        .anyMatch(s -> s.components.stream().anyMatch(c -> c.place().mirror()));
  }

  private List<StandardMark> marks(Step root, Step board, List<StandardRow> rows) {
    List<StandardMark> all = new ArrayList<>();
    marks(root, board == root ? rows : List.of(), Fiducial.Scope.PANEL, all);
    if (board != root) {
      marks(board, rows, Fiducial.Scope.BOARD, all);
    }
    return all;
  }

  private void marks(Step s, List<StandardRow> rows, Fiducial.Scope scope, List<StandardMark> all) {
    Set<String> seen = new TreeSet<>();
    Set<String> refs = new TreeSet<>();
    rows.forEach(r -> refs.add(r.ref()));
    for (Mark m : s.marks) {
      Layer l = model.layers.get(m.layer());
      if (l == null || l.side() == null) {
        continue;
      }
      Side side = l.side();
      String key = String.format(Locale.ROOT, "%s %.2f %.2f", side, m.x(), m.y());
      if (!seen.add(key)) {
        continue;
      }
      String name = null;
      for (StandardRow r : rows) {
        boolean same =
            r.side() == side
                && Math.hypot(r.pose().xMm() - m.x(), r.pose().yMm() - m.y()) < SAME_MM;
        name = same ? r.ref() : name;
      }
      for (int n = all.size() + 1; name == null; n++) {
        String free = "F" + n;
        boolean used = refs.contains(free) || all.stream().anyMatch(a -> named(a, free));
        name = used ? null : free;
      }
      all.add(new StandardMark(side, new Fiducial(name, m.x(), m.y(), m.diameter(), scope)));
    }
    for (StandardRow r : rows) {
      Pack p = pack(s, r.part());
      boolean like = r.fitted() && p.pins.size() <= 1 && Fiducial.isLike(r.ref(), r.part());
      if (like && all.stream().noneMatch(a -> named(a, r.ref()))) {
        Pose at = r.pose();
        all.add(
            new StandardMark(
                r.side(), new Fiducial(r.ref(), at.xMm(), at.yMm(), p.dotMm(), scope)));
      }
    }
  }

  private static boolean named(StandardMark m, String name) {
    return m.fiducial().name().equals(name);
  }

  private Map<String, PartType> parts(Step board) {
    Map<String, PartType> parts = new LinkedHashMap<>();
    Set<String> holes = new TreeSet<>();
    board.components.forEach(
        c -> {
          if (c.throughHole()) {
            holes.add(c.packageRef());
          }
        });
    board.packs.forEach(
        (name, p) -> {
          PartType t = part(name, p, holes.contains(name));
          if (t != null) {
            parts.put(name, t);
          }
        });
    return parts;
  }

  private static @Nullable PartType part(String name, Pack p, boolean hole) {
    StandardBox o = p.outline;
    List<Rect> lands = new ArrayList<>();
    List<Rect> ends = new ArrayList<>();
    for (Pin pin : p.pins.values()) {
      Rect land = p.lands.get(pin.name());
      if (land == null && pin.land()) {
        land = pin.rect();
      }
      if (land != null) {
        lands.add(p.fromPick(land));
      }
      if (!pin.land() && pin.rect() != null) {
        ends.add(p.fromPick(pin.rect()));
      }
    }
    // half a set of either says nothing of the joint
    lands = lands.size() == p.pins.size() ? lands : List.of();
    ends = ends.size() == p.pins.size() ? ends : List.of();
    if (o.isEmpty() && lands.isEmpty() && ends.isEmpty()) {
      return null;
    }
    double offX = o.midX() - (p.pickedElsewhere() ? p.pickX : 0);
    double offY = o.midY() - (p.pickedElsewhere() ? p.pickY : 0);
    boolean centred = !o.isEmpty() && Math.hypot(offX, offY) < CENTRED_MM;
    Rect body = centred ? new Rect(0, 0, o.length(), o.width()) : null;
    Envelope envelope =
        centred && p.height > 0 ? new Envelope(o.length(), o.width(), 0, p.height) : null;
    return new PartType(
        name,
        hole ? JointKind.THROUGH_HOLE : kind(p.type),
        1,
        false,
        body,
        body == null ? Double.NaN : p.height,
        ends,
        lands,
        envelope,
        null);
  }

  /** Package types as the schema lists them. */
  private static JointKind kind(String type) {
    if (type.contains("MELF")) {
      return JointKind.MELF;
    }
    if (type.startsWith("CHIP") || type.endsWith("CHIP") || type.startsWith("RESCAPMP")) {
      return JointKind.CHIP;
    }
    if (type.contains("BGA") || type.contains("BALLGRID")) {
      return JointKind.BALL;
    }
    if (type.contains("QFN") || type.contains("SON") || type.contains("LEADLESS")) {
      return JointKind.NO_LEAD;
    }
    if (type.contains("SOJ") || type.contains("PLCC")) {
      return JointKind.J_LEAD;
    }
    if (type.startsWith("SO") || type.contains("QFP") || type.contains("FLATPACK")) {
      return JointKind.GULL_WING;
    }
    return JointKind.OTHER;
  }
}
