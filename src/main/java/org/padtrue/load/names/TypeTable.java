package org.padtrue.load.names;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The job's table of names: a file's name, or a pattern with {@code *} (any characters) and {@code
 * ?} (one), to the part type that it stands for. Letters of either case are alike. Of several that
 * fit, the most specific holds: one without wildcards, else the one with most other characters.
 */
public final class TypeTable {
  /**
   * One line of the table.
   *
   * @param pattern the file's name, or a pattern
   * @param type the part type
   * @param line where the job says so
   * @param column where the job says so
   */
  public record Rule(String pattern, String type, int line, int column) {
    private boolean exact() {
      return pattern.indexOf('*') < 0 && pattern.indexOf('?') < 0;
    }

    private int weight() {
      int literals = (int) pattern.chars().filter(c -> c != '*' && c != '?').count();
      return exact() ? Integer.MAX_VALUE : literals;
    }

    private Pattern compiled() {
      StringBuilder b = new StringBuilder();
      for (char c : pattern.trim().toCharArray()) {
        b.append(c == '*' ? ".*" : c == '?' ? "." : Pattern.quote(String.valueOf(c)));
      }
      return Pattern.compile(
          b.toString(), Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE | Pattern.DOTALL);
    }
  }

  private record Ready(Rule rule, Pattern pattern) {}

  private final List<Ready> rules = new ArrayList<>();
  private final Map<String, @Nullable Rule> known = new TreeMap<>();

  /** A table of rules. */
  public TypeTable(List<Rule> rules) {
    rules.forEach(r -> this.rules.add(new Ready(r, r.compiled())));
  }

  /** True when it says nothing. */
  public boolean isEmpty() {
    return rules.isEmpty();
  }

  /** The part type that a file's name stands for: the name itself where no rule fits. */
  public String typeOf(String name) {
    Rule r = rules.isEmpty() ? null : rule(name);
    return r == null ? name : r.type;
  }

  /** The rule that holds for a name, or null. */
  public @Nullable Rule rule(String name) {
    if (!known.containsKey(name)) {
      List<Rule> best = best(name);
      known.put(name, best.isEmpty() ? null : best.get(0));
    }
    return known.get(name);
  }

  /** The rules that fit a name best: several only where they are alike in weight. */
  private List<Rule> best(String name) {
    List<Rule> best = new ArrayList<>();
    for (Ready r : rules) {
      if (r.pattern.matcher(name.trim()).matches()) {
        int than = best.isEmpty() ? -1 : best.get(0).weight();
        if (r.rule.weight() > than) {
          best.clear();
        }
        if (r.rule.weight() >= than) {
          best.add(r.rule);
        }
      }
    }
    return best;
  }

  /**
   * Two rules that fit a name equally well and say different part types.
   *
   * @param name the file's name
   * @param first one rule
   * @param second another
   */
  public record Conflict(String name, Rule first, Rule second) {}

  /** Names for which the table contradicts itself. */
  public List<Conflict> conflicts(Collection<String> names) {
    List<Conflict> all = new ArrayList<>();
    for (String n : names) {
      List<Rule> best = best(n);
      best.stream()
          .filter(r -> !r.type.equals(best.get(0).type))
          .findFirst()
          .ifPresent(r -> all.add(new Conflict(n, best.get(0), r)));
    }
    return all;
  }

  /** Rules that fit none of the names. */
  public List<Rule> unused(Collection<String> names) {
    return rules.stream()
        .filter(r -> names.stream().noneMatch(n -> r.pattern.matcher(n.trim()).matches()))
        .map(Ready::rule)
        .toList();
  }
}
