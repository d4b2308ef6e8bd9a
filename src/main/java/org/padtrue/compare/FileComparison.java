package org.padtrue.compare;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.placement.Drawings;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.numeric.UndeterminedException;
import org.padtrue.panel.Side;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;

/**
 * What differs between two placement files of the same board.
 *
 * @param shared refs that both have
 * @param onlyFirst refs that only the first has
 * @param onlySecond refs that only the second has
 * @param otherSide refs that are on the other side in the second
 * @param sides the two sides of the board
 * @param notes what could not be compared, one sentence each
 */
public record FileComparison(
    int shared,
    List<String> onlyFirst,
    List<String> onlySecond,
    List<String> otherSide,
    List<SideComparison> sides,
    List<String> notes) {

  /** Positions nearer than this are the same: two decimals of a millimetre in either file. */
  public static final double SAME_MM = 0.02;

  private static final int LEAST_OF_TYPE = 2;

  public FileComparison {
    onlyFirst = List.copyOf(onlyFirst);
    onlySecond = List.copyOf(onlySecond);
    otherSide = List.copyOf(otherSide);
    sides = List.copyOf(sides);
    notes = List.copyOf(notes);
  }

  private record Pair(PlacementRow a, PlacementRow b) {}

  /**
   * Compares.
   *
   * @throws InputException when a file repeats its refs, or the files share none
   */
  public static FileComparison of(PlacementFile first, PlacementFile second) {
    Map<String, PlacementRow> a = byRef(first);
    Map<String, PlacementRow> b = byRef(second);
    TreeSet<String> onlyFirst = new TreeSet<>(a.keySet());
    onlyFirst.removeAll(b.keySet());
    TreeSet<String> onlySecond = new TreeSet<>(b.keySet());
    onlySecond.removeAll(a.keySet());
    boolean stated = stated(a.values()) && stated(b.values());
    List<String> otherSide = new ArrayList<>();
    Map<String, List<Pair>> sides = new TreeMap<>(java.util.Comparator.reverseOrder());
    int shared = 0;
    for (Map.Entry<String, PlacementRow> e : a.entrySet()) {
      PlacementRow other = b.get(e.getKey());
      if (other == null) {
        continue;
      }
      shared++;
      if (stated && e.getValue().side() != other.side()) {
        otherSide.add(e.getKey());
      } else if (placed(e.getValue()) && placed(other)) {
        String side = stated ? word(e.getValue().side()) : "all";
        sides.computeIfAbsent(side, k -> new ArrayList<>()).add(new Pair(e.getValue(), other));
      }
    }
    if (shared == 0) {
      throw new InputException(
          Problem.of(
              second.name(),
              "it shares no ref with " + first.name(),
              "compare two files of the same board"));
    }
    List<String> notes = new ArrayList<>();
    List<SideComparison> found = new ArrayList<>();
    sides.forEach((side, pairs) -> compare(side, pairs, found, notes));
    return new FileComparison(
        shared, new ArrayList<>(onlyFirst), new ArrayList<>(onlySecond), otherSide, found, notes);
  }

  private static Map<String, PlacementRow> byRef(PlacementFile file) {
    Map<String, PlacementRow> rows = new TreeMap<>();
    Set<String> drawings = new HashSet<>();
    for (int i = 0; i < file.rows().size(); i++) {
      PlacementRow r = file.rows().get(i);
      PlacementRow before = Drawings.placeholder(r.ref()) ? null : rows.put(r.ref(), r);
      if (before != null && file.drawings().is(i)) {
        // drawings of one name cannot be told apart, and stand for no part
        drawings.add(r.ref());
      } else if (before != null) {
        throw new InputException(
            Problem.at(
                file.name(),
                r.line(),
                "'" + r.ref() + "' is there already in line " + before.line(),
                "compare files of one board, every ref once"));
      }
    }
    rows.keySet().removeAll(drawings);
    return rows;
  }

  private static boolean stated(java.util.Collection<PlacementRow> rows) {
    return rows.stream().allMatch(r -> r.side() != null);
  }

  private static boolean placed(PlacementRow r) {
    return Double.isFinite(r.filePose().xMm()) && Double.isFinite(r.filePose().yMm());
  }

  private static String word(@Nullable Side side) {
    return side == Side.BOTTOM ? "bottom" : "top";
  }

  private static void compare(
      String side, List<Pair> pairs, List<SideComparison> found, List<String> notes) {
    double[] x = pairs.stream().mapToDouble(p -> p.a.filePose().xMm()).toArray();
    double[] y = pairs.stream().mapToDouble(p -> p.a.filePose().yMm()).toArray();
    double[] u = pairs.stream().mapToDouble(p -> p.b.filePose().xMm()).toArray();
    double[] v = pairs.stream().mapToDouble(p -> p.b.filePose().yMm()).toArray();
    FrameMatch frame;
    try {
      frame = FrameMatch.of(x, y, u, v);
    } catch (UndeterminedException e) {
      notes.add(
          "Side "
              + side
              + ": "
              + pairs.size()
              + " shared placements do not fix how the files lie to each other.");
      return;
    }
    List<SideComparison.Named> elsewhere = new ArrayList<>();
    for (int i = 0; i < x.length; i++) {
      double d = Math.hypot(u[i] - frame.x(x[i], y[i]), v[i] - frame.y(x[i], y[i]));
      if (d > SAME_MM * Math.max(1, frame.scale())) {
        elsewhere.add(new SideComparison.Named(pairs.get(i).a.ref(), d));
      }
    }
    elsewhere.sort((p, q) -> Double.compare(q.value(), p.value()));
    TurnMatch turn =
        TurnMatch.of(
            pairs.stream().mapToDouble(p -> p.a.filePose().rotationDeg()).toArray(),
            pairs.stream().mapToDouble(p -> p.b.filePose().rotationDeg()).toArray(),
            frame.mirrored() ? -1 : 1);
    List<SideComparison.Named> types = new ArrayList<>();
    List<SideComparison.Named> single = new ArrayList<>();
    turned(pairs, turn, types, single);
    found.add(new SideComparison(side, pairs.size(), frame, turn, elsewhere, types, single));
  }

  /** The part type, as either list has it; where neither does each ref is a type of its own. */
  private static String type(Pair p) {
    String own = p.a.part().isEmpty() ? p.b.part() : p.a.part();
    return own.isEmpty() ? p.a.ref() : own;
  }

  private static void turned(
      List<Pair> pairs,
      TurnMatch turn,
      List<SideComparison.Named> types,
      List<SideComparison.Named> single) {
    Map<String, List<SideComparison.Named>> off = new TreeMap<>();
    Map<String, Integer> count = new HashMap<>();
    for (Pair p : pairs) {
      double a = p.a.filePose().rotationDeg();
      double b = p.b.filePose().rotationDeg();
      count.merge(type(p), 1, Integer::sum);
      if (!turn.agrees(a, b)) {
        double by = Angles.wrap(b - turn.sense() * a - turn.turnDeg());
        off.computeIfAbsent(type(p), k -> new ArrayList<>())
            .add(new SideComparison.Named(p.a.ref(), by));
      }
    }
    off.forEach(
        (part, refs) -> {
          double by = refs.get(0).value();
          boolean alike =
              refs.stream()
                  .allMatch(r -> Math.abs(Angles.wrap(r.value() - by)) <= TurnMatch.SAME_DEG);
          if (alike && refs.size() == count.getOrDefault(part, 0) && refs.size() >= LEAST_OF_TYPE) {
            types.add(new SideComparison.Named(part, by));
          } else {
            single.addAll(refs);
          }
        });
  }
}
