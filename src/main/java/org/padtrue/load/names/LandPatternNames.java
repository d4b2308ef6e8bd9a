package org.padtrue.load.names;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.names.NameMatch.Level;
import org.padtrue.load.names.Shape.Layout;
import org.padtrue.load.names.StatedName.Style;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;

/**
 * Finds the part type of a library that a name of a land pattern means: by the name itself, by what
 * the name states (IPC-7351, sizes), by other names of a published outline, or by a chip's code.
 * What a name states is held against the geometry of the library's types, so that any parts file
 * serves.
 */
public final class LandPatternNames {
  // names round to a tenth, drawings give ranges; pitches to a hundredth
  private static final double BODY_MM = 0.1;
  private static final double SPAN_MM = 0.2;
  private static final double PITCH_MM = 0.011;
  private static final double MIDDLE_MM = 0.2;
  // aluminium capacitors: the base is so much larger than the can; heights in names are nominal
  private static final double BASE_MM = 0.3;
  private static final double BASE_OFF_MM = 0.4;
  private static final double CAN_LOW_MM = 0.25;
  private static final double CAN_HIGH_MM = 0.7;
  // inductors of one size class
  private static final double CLASS_MM = 0.45;
  // the sizes of one outline in two drawings differ by no more
  private static final double DRAWING_MM = 0.4;
  private static final double SAME_HEIGHT_MM = 0.005;

  private static final Pattern OUTLINE =
      Pattern.compile(
          "(?:[A-Z]{1,3}_)?(?:T?SOT|SOD|SOIC|SOP?|T?SSOP|MSOP|VSSOP|[LT]?QFP|[A-Z]?QFN|[A-Z]?DFN"
              + "|[A-Z]?SON|BGA|SM[ABC]|DO|TO|SC|PLCC|MELF|MINIMELF)[-_]?\\d*.*",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern DIODE = Pattern.compile("^(?:D|DIODE|DIO)_");
  private static final Pattern DIODE_REF =
      Pattern.compile("(?:D|CR|VD|ZD|TVS)\\d.*", Pattern.CASE_INSENSITIVE);

  /** A type of the library. */
  record Known(PartType type, Shape shape, String family) {}

  private final List<Known> library = new ArrayList<>();
  private final Map<String, PartType> byName = new HashMap<>();
  private final Map<String, PartType> byAlias = new HashMap<>();
  private final ChipCodes codes;
  private final LooseNames loose = new LooseNames(this);

  /**
   * A library to look in.
   *
   * @param library its part types
   * @param aliases other names of a published outline: name to the library's type
   * @param codes in which unit chip codes are that do not say so themselves
   */
  public LandPatternNames(
      Collection<PartType> library, Map<String, String> aliases, ChipCodes codes) {
    this.codes = codes;
    Map<String, PartType> own = new HashMap<>();
    for (PartType t : library) {
      this.library.add(new Known(t, Shape.of(t), family(t.name())));
      own.putIfAbsent(t.name(), t);
      byName.putIfAbsent(plain(t.name()), t);
    }
    aliases.forEach(
        (alias, type) -> {
          PartType t = own.get(type);
          if (t != null) {
            byAlias.putIfAbsent(plain(alias), t);
          }
        });
  }

  /** True when a text is a chip code, a size of a package, or an outline's name. */
  public static boolean states(String text) {
    return NameReader.read(text).style() != Style.NONE || OUTLINE.matcher(text).matches();
  }

  /** Letters before a chip code: what a library's chip is. */
  private static String family(String name) {
    return name.toUpperCase(Locale.ROOT).replaceFirst("[-_ ]?\\d.*$", "");
  }

  private static String plain(String name) {
    return NameReader.bare(name).replaceAll("[-_\\s]", "");
  }

  /**
   * Matches a name.
   *
   * @param name as the file has it
   * @param refs refs under which it stands; their letters tell resistors from capacitors (IEEE 315)
   */
  public NameMatch match(String name, Collection<String> refs) {
    StatedName s = NameReader.read(name);
    if (s.style() == Style.CHIP) {
      return OpenNames.several(name) ? loose.several(name, s, refs) : chip(name, s, refs);
    }
    PartType same = byName.get(plain(name));
    if (same != null) {
      return found(name, Level.SAME_NAME, same, "the same name", s);
    }
    NameMatch named = s.style() == Style.LETTERED ? lettered(name, s) : null;
    if (s.style() != Style.NONE) {
      NameMatch m = bySize(name, s, refs);
      // the outline that is named holds, where the size is another's of nearly that size
      if (m.level() != Level.NONE && (named == null || named.type().equals(m.type()))) {
        return m;
      }
    }
    PartType alias = alias(name);
    if (alias != null) {
      return found(name, Level.STANDARD, alias, "another name of the same outline", s);
    }
    NameMatch loose = named;
    loose = loose == null && s.style() == Style.NONE ? piece(name, refs) : loose;
    loose = loose == null ? this.loose.match(name, s, refs) : loose;
    return loose != null ? loose : this.loose.unknown(name, s, why(s));
  }

  /** The library's types that fulfil something. */
  List<Known> such(Predicate<Known> fulfils) {
    return library.stream().filter(fulfils).toList();
  }

  private static String why(StatedName s) {
    if (s.style() == Style.NONE) {
      return "the name states no standard land pattern";
    }
    String what = BodySizes.words(s.family());
    boolean packaged = what.equals(s.family()) && s.pins() > 0;
    boolean more = !packaged && s.pins() > 2;
    String size =
        Double.isNaN(s.length())
            ? ""
            : " of "
                + Numbers.plain(s.length())
                + (Double.isNaN(s.width()) ? "" : " x " + Numbers.plain(s.width()))
                + " mm";
    return "the library has no "
        + what
        + (packaged ? "-" + s.pins() : more ? " with " + s.pins() + " terminations" : "")
        + size
        + (Double.isNaN(s.pitch()) ? "" : ", pitch " + Numbers.plain(s.pitch()) + " mm");
  }

  static NameMatch none(String name, String why) {
    return new NameMatch(name, Level.NONE, "", null, why, List.of());
  }

  /** SOT-23 of "SOT-23_L2.9-W1.3": the outline is named, its sizes are another drawing's. */
  private @Nullable NameMatch lettered(String name, StatedName s) {
    String front = NameReader.bare(name).replaceFirst("_L\\d.*$", "");
    PartType t = byName.get(plain(front));
    t = t == null ? byAlias.get(plain(front)) : t;
    Shape h = t == null ? null : Shape.of(t);
    boolean near =
        h != null
            && (s.middle() < 1 || h.middle() > 0)
            && Numbers.fits(s.length(), h.length(), DRAWING_MM)
            && Numbers.fits(s.width(), h.width(), DRAWING_MM);
    // two leads and a tab, or three leads: the pitch tells
    boolean leads =
        s.family().equals("TO") && t != null && !Numbers.fits(s.pitch(), Shape.leadPitch(t), 0.06);
    return t == null || !near || leads
        ? null
        : found(
            name,
            Level.LIKELY,
            t,
            "the outline's name, with sizes that are not quite the library's",
            StatedName.none());
  }

  /** The type that all parts of a name mean: "D_SOD-323", "SOT-323_SC-70". */
  private @Nullable PartType alias(String name) {
    String bare = NameReader.bare(name);
    PartType whole = byAlias.get(plain(name));
    if (whole != null) {
      return whole;
    }
    String rest = bare.replaceFirst("^(?:D|R|C|L|LED|CP|U|Q)_", "");
    // the case of a moulded capacitor, with the letter that a maker gives it
    rest = rest.replaceFirst("^(EIA-\\d{4}-\\d{2})_.*$", "$1");
    PartType found = null;
    for (String piece : rest.split("_")) {
      PartType t = byName.get(plain(piece));
      t = t == null ? byAlias.get(plain(piece)) : t;
      if (t == null || (found != null && found != t)) {
        return null;
      }
      found = t;
    }
    return found;
  }

  /**
   * "AD1234_SOT23-6", "D_SMA_Handsoldering": one piece of the name is an outline's name, and no
   * other piece is another's.
   */
  private @Nullable NameMatch piece(String name, Collection<String> refs) {
    PartType found = null;
    String as = "";
    boolean diode =
        DIODE.matcher(NameReader.bare(name)).find()
            || (!refs.isEmpty() && refs.stream().allMatch(r -> DIODE_REF.matcher(r).matches()));
    if (NameReader.bare(name).contains("POWER")) {
      // an outline's name within the name of another: it has a tab below
      return null;
    }
    for (String p : OpenNames.pieces(name)) {
      // letters alone mean other things too: SMA is a plug as well
      boolean clear = p.matches(".*[A-Z].*") && (p.matches(".*\\d.*") || diode);
      PartType t = clear ? byName.get(plain(p)) : null;
      t = t == null && clear ? byAlias.get(plain(p)) : t;
      if (t != null && found != null && found != t) {
        return null;
      }
      found = t == null ? found : t;
      as = t == null ? as : p;
    }
    return found == null || Shape.of(found).layout() == Layout.TWO && found.kind() == JointKind.CHIP
        ? null
        : found(
            name,
            Level.LIKELY,
            found,
            "'" + as + "' in the name is an outline's name",
            StatedName.none());
  }

  NameMatch chip(String name, StatedName s, Collection<String> refs) {
    String code = s.code() == null ? "" : s.code();
    Boolean metric = s.metric();
    if (metric == null && ChipSize.otherReading(code) != null) {
      metric = codes == ChipCodes.UNKNOWN ? null : codes == ChipCodes.METRIC;
      if (metric == null) {
        return twoWays(name, s, code, refs);
      }
    }
    boolean inMm = metric != null ? metric : ChipSize.ofInch(code).isEmpty();
    ChipSize size = (inMm ? ChipSize.ofMetric(code) : ChipSize.ofInch(code)).orElse(null);
    if (size == null) {
      return none(name, "no chip has the " + (inMm ? "metric" : "inch") + " code " + code);
    }
    return chip(name, s, size, refs, (inMm ? "metric" : "inch") + " code, " + size.words());
  }

  private NameMatch twoWays(String name, StatedName s, String code, Collection<String> refs) {
    List<String> candidates = new ArrayList<>();
    ChipSize.ofInch(code)
        .ifPresent(z -> candidates.add("inch: " + z.words() + type(chip(name, s, z, refs, ""))));
    ChipSize.ofMetric(code)
        .ifPresent(z -> candidates.add("metric: " + z.words() + type(chip(name, s, z, refs, ""))));
    return new NameMatch(
        name, Level.TWO_WAYS, "", null, "the code can be inch or metric", candidates);
  }

  private static String type(NameMatch m) {
    return m.type().isEmpty() ? "" : " (" + m.type() + ")";
  }

  private NameMatch chip(
      String name, StatedName s, ChipSize size, Collection<String> refs, String how) {
    Set<String> families = s.family().isEmpty() ? families(refs) : Set.of(s.family());
    Predicate<Known> fits =
        k ->
            k.shape.layout() == Layout.TWO
                && k.type.kind() == JointKind.CHIP
                && Math.abs(k.shape.length() - size.lengthMm()) <= BODY_MM
                && Math.abs(k.shape.width() - size.widthMm()) <= BODY_MM;
    List<Known> all = library.stream().filter(fits).toList();
    List<Known> own = all.stream().filter(k -> families.contains(k.family)).toList();
    if (own.size() == 1 && families.size() == 1) {
      Level level = s.remark().isEmpty() ? Level.STANDARD : Level.LIKELY;
      String more = s.remark().isEmpty() ? "" : "; " + s.remark();
      String byRef = s.family().isEmpty() ? ", " + families.iterator().next() + " by its refs" : "";
      return found(name, level, own.get(0).type, how + byRef + more, s);
    }
    List<Known> open = own.isEmpty() ? all : own;
    if (open.isEmpty()) {
      return none(name, "the library has no chip of " + size.words());
    }
    Known tallest = open.get(0);
    for (Known k : open) {
      tallest = k.type.bodyHeightMm() > tallest.type.bodyHeightMm() ? k : tallest;
    }
    return found(
        name,
        Level.LIKELY,
        tallest.type,
        how
            + mixed(families)
            + ", the tallest of the library's "
            + open.size()
            + " of that size"
            + (s.remark().isEmpty() ? "" : "; " + s.remark()),
        s);
  }

  private static String mixed(Set<String> families) {
    List<String> known = families.stream().filter(f -> !f.equals("?")).toList();
    return known.size() < 2 ? "" : ", under refs of " + String.join(" and ", known) + " alike";
  }

  /** What stands under refs with these letters: R, C and L; LED where the letters say so. */
  private static Set<String> families(Collection<String> refs) {
    Set<String> all = new TreeSet<>();
    for (String r : refs) {
      String letters = r.toUpperCase(Locale.ROOT).replaceFirst("[^A-Z].*$", "");
      all.add(
          switch (letters) {
            case "R", "RS" -> "R";
            case "C" -> "C";
            case "L", "FB", "E" -> "L";
            case "LED" -> "LED";
            default -> "?";
          });
    }
    return all;
  }

  /** What keeps a name of the right size from being the outline; empty when nothing does. */
  private static String trouble(StatedName s, Shape h) {
    if (s.middle() == 1 && !Numbers.fits(s.middleMm(), h.middle(), MIDDLE_MM)) {
      return "its middle land is "
          + Numbers.plain(s.middleMm())
          + " mm, the library's "
          + Numbers.plain(h.middle())
          + " mm";
    }
    return s.middle() < 0 && h.middle() > 0
        ? "the name does not tell of a middle land"
        : s.remark();
  }

  NameMatch bySize(String name, StatedName s, Collection<String> refs) {
    ChipSize size = ChipSize.of(s.length(), s.width());
    if (s.family().matches("IND|FUSE") && size != null) {
      String letter = s.family().equals("IND") ? "L" : "F";
      return chip(name, s.of(letter), size, refs, "size in the name, " + size.words());
    }
    if (s.style() == Style.IPC_7351
        && s.pins() == 2
        && size != null
        && Set.of("R", "C", "L", "LED", "D", "F").contains(s.family())) {
      String remark =
          size.is(s.length(), s.width())
              ? s.remark()
              : "the name says " + Numbers.plain(s.length()) + " x " + Numbers.plain(s.width());
      return chip(name, s.with(remark), size, refs, "IPC-7351 name, " + size.words());
    }
    List<Known> fit = library.stream().filter(k -> fits(s, k)).toList();
    if (fit.isEmpty()) {
      return none(name, "");
    }
    List<Known> best = nearest(s, fit);
    if (s.family().equals("CAN") && Double.isNaN(s.height())) {
      best =
          List.of(
              best.stream().max(Comparator.comparing(k -> k.type.bodyHeightMm())).orElseThrow());
    }
    if (best.size() > 1) {
      return none(name, "");
    }
    PartType t = best.get(0).type;
    Shape h = best.get(0).shape;
    String trouble = trouble(s, h);
    boolean whole = s.style() == Style.IPC_7351 || (s.style() == Style.SIZED && trouble.isEmpty());
    Level level = whole && trouble.isEmpty() ? Level.STANDARD : Level.LIKELY;
    return found(name, level, t, s.style().words() + (trouble.isEmpty() ? "" : "; " + trouble), s);
  }

  static boolean fits(StatedName s, Known k) {
    Shape h = k.shape;
    boolean pins = s.pins() == 0 || s.pins() == h.pins();
    boolean middle = s.middle() < 0 || (s.middle() == 1) == h.middle() > 0;
    return pins
        && middle
        && layout(s, k)
        && Numbers.fits(s.pitch(), h.pitch(), PITCH_MM)
        && Numbers.fits(s.span(), k.shape.span(), SPAN_MM)
        && body(s, k);
  }

  private static boolean body(StatedName s, Known k) {
    Shape h = k.shape;
    return switch (s.family()) {
      // IPC-7351 gives span by width for what has bent ends
      case "MOULDED" ->
          k.type.kind() == JointKind.OTHER
              && Numbers.fits(s.length(), h.span(), SPAN_MM)
              && Numbers.fits(s.width(), h.width(), BODY_MM);
      case "SOD", "SODFL", "SMF", "SMAF", "SMBF", "MELF" ->
          Numbers.fits(
                  s.length(), overEnds(s) ? h.span() : h.length(), overEnds(s) ? SPAN_MM : BODY_MM)
              && Numbers.fits(s.width(), h.width(), BODY_MM);
      case "IND" ->
          Numbers.fits(s.length(), h.length(), CLASS_MM)
              && Numbers.fits(s.width(), h.width(), CLASS_MM);
      case "CAN" ->
          k.type.name().startsWith("CE-")
              && Math.abs(h.length() - s.length() - BASE_MM) <= BASE_OFF_MM;
      default ->
          Numbers.fits(s.length(), h.length(), BODY_MM)
              && Numbers.fits(s.width(), h.width(), BODY_MM);
    };
  }

  static boolean layout(StatedName s, Known k) {
    JointKind kind = k.type.kind();
    Layout l = k.shape.layout();
    String f = s.family();
    if (f.endsWith("QFP")) {
      return kind == JointKind.GULL_WING && l == Layout.QUAD;
    }
    boolean crystal = k.family.startsWith("XTAL");
    if (f.endsWith("QFN") || f.endsWith("QFPN")) {
      return kind == JointKind.NO_LEAD && l == Layout.QUAD;
    }
    if (f.endsWith("DFN") || f.endsWith("SON")) {
      return kind == JointKind.NO_LEAD && l == Layout.DUAL && !crystal;
    }
    if (f.matches("LFCSP|MLF|MLP")) {
      return kind == JointKind.NO_LEAD && !crystal;
    }
    if (f.equals("SMD") || f.equals("OPTO")) {
      return kind == JointKind.GULL_WING && l == Layout.DUAL;
    }
    if (f.matches("XTAL|LED|IND|RA")) {
      return k.family.equals(f) && k.type.kind() != JointKind.GULL_WING;
    }
    if (f.endsWith("LGA")) {
      return kind == JointKind.NO_LEAD && k.family.equals("LGA");
    }
    if (f.endsWith("BGA")) {
      return kind == JointKind.BALL;
    }
    if (f.equals("MELF")) {
      return kind == JointKind.MELF;
    }
    if (f.equals("MOULDED") || f.equals("CAN") || f.matches("SM[ABC]|DO")) {
      return kind == JointKind.OTHER && l == Layout.TWO && !k.family.matches("LED|IND");
    }
    if (f.startsWith("SOD") || f.matches("SM[AB]?F")) {
      return kind == JointKind.GULL_WING && l == Layout.TWO;
    }
    boolean smallOutline = f.matches("SO|.*SO[PTC]|.*SOI[CJ]|.*SOT");
    return smallOutline && kind == JointKind.GULL_WING && l == Layout.DUAL;
  }

  /** Those nearest to what is stated: a hundredth decides nothing, a tenth of body length does. */
  private static List<Known> nearest(StatedName s, List<Known> fit) {
    Map<Known, Double> off = new LinkedHashMap<>();
    for (Known k : fit) {
      // a name that gives span by width: a body's width is better held than a span
      double d =
          overEnds(s)
              ? miss(s.length(), k.shape.span()) + 2 * miss(s.width(), k.shape.width())
              : miss(s.length(), k.shape.length()) + miss(s.width(), k.shape.width());
      d += miss(s.span(), k.shape.span());
      d += 0.1 * miss(s.height(), k.type.bodyHeightMm());
      off.put(k, d);
    }
    double least = off.values().stream().mapToDouble(Double::doubleValue).min().orElse(0);
    return off.entrySet().stream()
        .filter(e -> e.getValue() <= least + 0.004)
        .map(Map.Entry::getKey)
        .toList();
  }

  /** IPC-7351 gives span by width for what has bent or cylindrical ends. */
  private static boolean overEnds(StatedName s) {
    return s.family().matches("SOD|SODFL|SM[AB]?F|MELF|MOULDED") && s.style() != Style.LETTERED;
  }

  private static double miss(double stated, double is) {
    return Double.isNaN(stated) || Double.isNaN(is) ? 0 : Math.abs(stated - is);
  }

  static NameMatch found(String name, Level level, PartType t, String how, StatedName s) {
    double h = heightOf(s);
    double off = t.bodyHeightMm() - h;
    boolean can = s.family().equals("CAN") && off > -CAN_LOW_MM && off < CAN_HIGH_MM;
    boolean other = !Double.isNaN(h) && !can && Math.abs(off) > SAME_HEIGHT_MM;
    PartType part = renamed(t, name, other ? h : Double.NaN);
    String height = other ? ", height " + Numbers.plain(h) + " mm as the name says" : "";
    return new NameMatch(name, level, t.name(), part, how + height, List.of());
  }

  /** The height a name states; that of thin quad flat packs is in their letters (JEDEC MS-026). */
  private static double heightOf(StatedName s) {
    return s.family().equals("TQFP") ? 1.2 : s.height();
  }

  private static PartType renamed(PartType t, String name, double height) {
    boolean other = !Double.isNaN(height);
    Envelope e = t.envelope();
    // what stands above the body, such as a cap, stays above it
    Envelope envelope =
        e == null || !other
            ? e
            : new Envelope(
                e.lengthMm(), e.widthMm(), e.zMinMm(), e.zMaxMm() - t.bodyHeightMm() + height);
    return new PartType(
        name,
        t.kind(),
        t.symmetry(),
        t.selfCentres(),
        t.body(),
        other ? height : t.bodyHeightMm(),
        t.terminations(),
        t.lands(),
        envelope,
        t.tolerance());
  }
}
