package org.padtrue.load.names;

import java.util.Collection;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.names.LandPatternNames.Known;
import org.padtrue.load.names.NameMatch.Level;
import org.padtrue.load.names.Shape.Layout;
import org.padtrue.load.names.StatedName.Style;

/**
 * What may be meant by a name that no standard's naming explains: a size within a value or a
 * maker's number, a body that differs a little beside its leads, length and width in the other
 * order. A person has to agree to each.
 */
final class LooseNames {
  // rows of leads stand where pitch and span say, however long the body is beside them
  private static final double BESIDE_MM = 0.45;

  private static final Pattern EIA_CODE =
      Pattern.compile(
          "[A-Z]{0,4}(?:01005|0201|0402|0603|0805|1206|1210|1812|2010|2512"
              + "|1005|1608|2012|2016|2520|3216|3225)[A-Z]?");
  private static final Pattern CHIP_REF =
      Pattern.compile("(?:R|C|L|FB|F|D|LED)\\d.*", Pattern.CASE_INSENSITIVE);

  private final LandPatternNames names;

  LooseNames(LandPatternNames names) {
    this.names = names;
  }

  /** What a name may mean, or null. */
  @Nullable NameMatch match(String name, StatedName s, Collection<String> refs) {
    if (s.style() == Style.NONE) {
      NameMatch m = coded(name, refs);
      return m == null ? numbered(name, refs) : m;
    }
    if (s.family().equals("IND")) {
      return coded(name, refs);
    }
    NameMatch m = roughly(name, s);
    return m == null && s.style() == Style.LETTERED && crystals(refs)
        ? known(names.bySize(name, BodySizes.crystal(s), refs))
        : m;
  }

  private static @Nullable NameMatch known(NameMatch m) {
    return m.level() == Level.NONE ? null : m;
  }

  /**
   * "SMD3225-4P" under Y1 is a crystal; other parts of a chip's size with more ends are unknown.
   */
  NameMatch several(String name, StatedName s, Collection<String> refs) {
    StatedName crystal = crystals(refs) ? BodySizes.crystal(name, s) : null;
    NameMatch m = crystal == null ? null : names.bySize(name, crystal, refs);
    return m != null && m.level() != Level.NONE
        ? m
        : LandPatternNames.none(name, "it is as large as a chip, but has more than two ends");
  }

  private static boolean crystals(Collection<String> refs) {
    return !refs.isEmpty() && refs.stream().allMatch(r -> r.matches("(?i)[XY]\\d.*"));
  }

  /** Says why nothing is matched. */
  NameMatch unknown(String name, StatedName s, String why) {
    if (OpenNames.throughHole(name)) {
      return LandPatternNames.none(
          name, "its leads go through holes, the library's parts are surface-mounted");
    }
    StatedName open = s.style() == Style.NONE ? OpenNames.sizeless(name) : null;
    List<String> types =
        open == null
            ? List.of()
            : names
                .such(k -> k.shape().pins() == open.pins() && LandPatternNames.layout(open, k))
                .stream()
                .map(k -> k.type().name())
                .toList();
    return types.isEmpty()
        ? LandPatternNames.none(name, why)
        : new NameMatch(
            name,
            Level.NONE,
            "",
            null,
            "the name does not state its size; with as many terminations the library has "
                + String.join(", ", types),
            types);
  }

  /**
   * "1%/0402", "FERRITE_0603": a value or a description that names a chip's size, under the refs of
   * a part that comes as a chip with two ends.
   */
  private @Nullable NameMatch coded(String name, Collection<String> refs) {
    List<String> pieces = List.of(NameReader.bare(name).split("[-_()\\[\\]/,;\\s]+"));
    List<String> sizes = pieces.stream().filter(p -> EIA_CODE.matcher(p).matches()).toList();
    if (sizes.size() == 2 && ChipSize.same(sizes.get(0), sizes.get(1))) {
      // both units: 1005[0402]
      StatedName both = StatedName.chip("", ChipSize.inchOf(sizes), false, Double.NaN, "");
      return names.chip(name, both.with("the size stands within the name"), refs);
    }
    boolean chips = !refs.isEmpty() && refs.stream().allMatch(r -> CHIP_REF.matcher(r).matches());
    if (sizes.size() != 1 || !chips || OpenNames.several(name)) {
      return null;
    }
    String code = sizes.get(0).replaceAll("[A-Z]", "");
    String kind = pieces.contains("LED") ? "LED" : "";
    StatedName s =
        StatedName.chip(kind, code, null, Double.NaN, "'" + code + "' stands within the name");
    return known(names.chip(name, s, refs));
  }

  /** "AB4018-3R3": an inductor whose maker's number seems to say its size. */
  private @Nullable NameMatch numbered(String name, Collection<String> refs) {
    boolean inductors = !refs.isEmpty() && refs.stream().allMatch(r -> r.matches("(?i)L\\d.*"));
    StatedName s = inductors ? BodySizes.numbered(name) : null;
    return s == null ? null : known(names.bySize(name, s, refs));
  }

  /**
   * What pitch, span and number of leads agree with, though the body beside the leads is a little
   * longer or shorter; or a part with four sides whose name gives them the other way round.
   */
  private @Nullable NameMatch roughly(String name, StatedName s) {
    if (s.style() == Style.NONE
        || s.pins() < 4
        || Double.isNaN(s.pitch() + s.length() + s.width())) {
      return null;
    }
    StatedName free = s.sides(s.length(), Double.NaN);
    List<Known> leads = names.such(k -> alongside(free, s.width(), k));
    if (leads.size() == 1) {
      Known k = leads.get(0);
      String body = Numbers.plain(s.length()) + " x " + Numbers.plain(s.width());
      String ours = Numbers.plain(k.shape().length()) + " x " + Numbers.plain(k.shape().width());
      String how = "; its body is " + body + " mm, the library's " + ours + " mm";
      return LandPatternNames.found(name, Level.LIKELY, k.type(), s.style().words() + how, s);
    }
    StatedName turned = s.sides(s.width(), s.length());
    StatedName over = s.sides(s.width(), Double.NaN);
    List<Known> sides =
        names.such(
            k ->
                k.shape().layout() == Layout.DUAL
                    ? alongside(over, s.length(), k)
                    : LandPatternNames.fits(turned, k));
    String how = "; it gives length and width the other way round: look where its rotation zero is";
    return s.length() == s.width() || sides.size() != 1
        ? null
        : LandPatternNames.found(
            name, Level.LIKELY, sides.get(0).type(), s.style().words() + how, s);
  }

  /** Two rows of leads that are as stated, on a body about so long beside them. */
  private static boolean alongside(StatedName s, double bodyMm, Known k) {
    return k.shape().layout() == Layout.DUAL
        && LandPatternNames.fits(s, k)
        && Numbers.fits(bodyMm, k.shape().width(), BESIDE_MM);
  }
}
