package org.padtrue.room;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.BiFunction;
import org.padtrue.land.clearance.PairSpread;
import org.padtrue.land.risk.Risk;
import org.padtrue.panel.Pose;

/** Groups of placements that stand too near, and the smallest moves that part them. */
public final class RoomSearch {
  /** Groups whose moves bring them together are solved as one, this many times over. */
  private static final int MOST_ROUNDS = 6;

  private static final double LISTED_MM = 1e-3;

  private final RoomOptions options;
  private final Risk risk = new Risk();
  private final Neighbourhood around;
  private final List<Near> near;
  private final List<Near> tooNear;

  private RoomSearch(
      List<RoomItem> items,
      BiFunction<RoomItem, RoomItem, PairSpread> spread,
      double scatterMm,
      RoomOptions options) {
    this.options = options;
    double wide = options.gapMm() + 6 * scatterMm;
    around = new Neighbourhood(items, spread, wide + 2 * options.maxMm());
    near = around.within(wide);
    tooNear = near.parallelStream().filter(n -> tooNear(n, n.a().pose(), n.b().pose())).toList();
  }

  /**
   * Searches.
   *
   * @param items every placement of one panel
   * @param spread how two of them scatter against each other
   * @param scatterMm greatest standard deviation of a distance, mm; 0 without an analysis
   * @param options what is asked
   */
  public static RoomResult of(
      List<RoomItem> items,
      BiFunction<RoomItem, RoomItem, PairSpread> spread,
      double scatterMm,
      RoomOptions options) {
    RoomSearch s = new RoomSearch(items, spread, scatterMm, options);
    List<GroupSearch.Answer> answers = s.answers();
    List<RoomGroup> groups =
        answers.stream()
            .map(s::group)
            .sorted(Comparator.comparingDouble(g -> g.pairs().get(0).gap()))
            .toList();
    Map<String, double[]> moves = new HashMap<>();
    answers.forEach(a -> moves.putAll(a.moves()));
    TreeSet<String> notJudged = new TreeSet<>();
    groups.forEach(
        g ->
            g.moves().stream()
                .filter(m -> Double.isNaN(m.margin()))
                .forEach(m -> notJudged.add(m.part())));
    return new RoomResult(
        groups,
        s.around.withoutOutline(),
        List.copyOf(notJudged),
        PlacingOrders.of(items, i -> pose(i, moves)));
  }

  /** Pairs of placements that both stay and stand too near: wishes that contradict. */
  public static List<String> contradictions(
      List<RoomItem> items,
      BiFunction<RoomItem, RoomItem, PairSpread> spread,
      double scatterMm,
      RoomOptions options) {
    if (options.fixed().isEmpty()) {
      return List.of();
    }
    List<RoomItem> held = items.stream().filter(i -> options.fixed().contains(i.key())).toList();
    RoomSearch s = new RoomSearch(held, spread, scatterMm, options);
    return s.tooNear.stream()
        .map(n -> n.a().key() + " and " + n.b().key())
        .distinct()
        .sorted()
        .toList();
  }

  private boolean tooNear(Near n, Pose a, Pose b) {
    return n.gap(a, b) < options.gapMm() - 1e-9
        || n.scatters() && n.below(options.gapMm(), a, b) > options.risk();
  }

  private List<GroupSearch.Answer> answers() {
    RoomGroups sets = new RoomGroups();
    tooNear.forEach(n -> sets.join(n.a().key(), n.b().key()));
    Map<List<String>, GroupSearch.Answer> known = new HashMap<>();
    List<GroupSearch.Answer> answers = List.of();
    for (int round = 0; round < MOST_ROUNDS; round++) {
      List<List<String>> keys = sets.all();
      List<GroupSearch.Answer> now =
          keys.parallelStream()
              .map(
                  k -> {
                    GroupSearch.Answer a = known.get(k);
                    return a == null ? new GroupSearch(around, options, risk, k).answer() : a;
                  })
              .toList();
      for (int i = 0; i < now.size(); i++) {
        known.put(keys.get(i), now.get(i));
      }
      answers = now;
      if (!join(sets, answers)) {
        break;
      }
    }
    return answers;
  }

  /** Joins groups that share a placement or whose moves bring them together. */
  private boolean join(RoomGroups sets, List<GroupSearch.Answer> answers) {
    int before = sets.all().size();
    Map<String, double[]> moves = new HashMap<>();
    Map<String, String> groupOf = new HashMap<>();
    for (GroupSearch.Answer a : answers) {
      String first = a.keys().get(0);
      for (String k : a.keys()) {
        String other = groupOf.putIfAbsent(k, first);
        if (other != null && !other.equals(first)) {
          sets.join(first, other);
        }
      }
      moves.putAll(a.moves());
    }
    for (GroupSearch.Answer a : answers) {
      for (Near n : a.pairs()) {
        String ga = groupOf.get(n.a().key());
        String gb = groupOf.get(n.b().key());
        boolean apart = ga != null && gb != null && !ga.equals(gb);
        if (apart && tooNear(n, pose(n.a(), moves), pose(n.b(), moves))) {
          sets.join(n.a().key(), n.b().key());
        }
      }
    }
    return sets.all().size() < before;
  }

  private static Pose pose(RoomItem i, Map<String, double[]> moves) {
    double[] m = moves.get(i.key());
    return m == null ? i.pose() : i.moved(m[0], m[1], m[2]);
  }

  private RoomGroup group(GroupSearch.Answer a) {
    List<RoomPair> pairs = new ArrayList<>();
    boolean solved = a.solved();
    for (Near n : a.pairs()) {
      Pose pa = pose(n.a(), a.moves());
      Pose pb = pose(n.b(), a.moves());
      boolean was = tooNear(n, n.a().pose(), n.b().pose());
      boolean is = tooNear(n, pa, pb);
      solved &= !is;
      boolean moved = a.moves().containsKey(n.a().key()) || a.moves().containsKey(n.b().key());
      double after = n.gap(pa, pb);
      if (was || is || moved && after < options.gapMm() + LISTED_MM) {
        pairs.add(
            new RoomPair(
                n.a().id(),
                n.b().id(),
                n.gap(n.a().pose(), n.b().pose()),
                after,
                n.below(0, n.a().pose(), n.b().pose()),
                n.below(0, pa, pb),
                n.below(options.gapMm(), n.a().pose(), n.b().pose()),
                n.below(options.gapMm(), pa, pb)));
      }
    }
    List<RoomMove> moves = new ArrayList<>();
    a.moves().forEach((key, m) -> moves.add(move(key, m)));
    return new RoomGroup(pairs, moves, solved, sentence(a, pairs, moves, solved));
  }

  private RoomMove move(String key, double[] m) {
    double margin = Double.NaN;
    double marginAfter = Double.NaN;
    double outside = Double.NaN;
    double outsideAfter = Double.NaN;
    String part = "";
    LandRows lands = new LandRows(List.of(), List.of(), risk, options.risk(), 0, true);
    for (RoomItem i : around.items(List.of(key))) {
      Pose to = i.moved(m[0], m[1], m[2]);
      part = i.part().name();
      margin = least(margin, i.margin(i.pose()));
      marginAfter = least(marginAfter, i.margin(to));
      outside = -least(-outside, -lands.outside(i, i.pose()));
      outsideAfter = -least(-outsideAfter, -lands.outside(i, to));
    }
    return new RoomMove(key, part, m[0], m[1], m[2], margin, marginAfter, outside, outsideAfter);
  }

  private static double least(double a, double b) {
    return Double.isNaN(a) ? b : Double.isNaN(b) ? a : Math.min(a, b);
  }

  private String sentence(
      GroupSearch.Answer a, List<RoomPair> pairs, List<RoomMove> moves, boolean solved) {
    boolean scatters = a.pairs().stream().anyMatch(Near::scatters);
    String gap = String.format(Locale.ROOT, "%.3f mm", options.gapMm());
    String with =
        scatters ? String.format(Locale.ROOT, " with a probability of %s", 1 - options.risk()) : "";
    if (solved) {
      return "Moving "
          + names(moves.stream().map(RoomMove::key).toList())
          + " leaves every gap at "
          + gap
          + " or more"
          + with
          + (a.complete() ? "" : " (the search was cut short, so smaller moves may do)");
    }
    StringBuilder s = new StringBuilder();
    s.append("No moves within the limits give ")
        .append(names(a.keys()))
        .append(" a gap of ")
        .append(gap)
        .append(with)
        .append("; ")
        .append(moves.isEmpty() ? "it stays at " : "the most that can be had is ")
        .append(String.format(Locale.ROOT, "%.3f mm", least(pairs)));
    if (scatters) {
      s.append(
          String.format(
              Locale.ROOT,
              ", below the wanted gap with a probability of %.3g",
              pairs.stream().mapToDouble(RoomPair::belowAfter).max().orElse(Double.NaN)));
    }
    if (!a.hindrances().isEmpty()) {
      s.append("; in the way: ").append(String.join(", ", a.hindrances()));
    }
    return s.append("; what else may do: a cap or part with a smaller outline, other lands")
        .toString();
  }

  private static double least(List<RoomPair> pairs) {
    return pairs.stream().mapToDouble(RoomPair::gapAfter).min().orElse(Double.NaN);
  }

  private static String names(List<String> keys) {
    int n = keys.size();
    return n < 2
        ? String.join("", keys)
        : String.join(", ", keys.subList(0, n - 1)) + " and " + keys.get(n - 1);
  }
}
