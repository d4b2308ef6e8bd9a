package org.padtrue.load.gerber;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.standard.StandardArc;
import org.padtrue.load.standard.StandardBox;
import org.padtrue.load.standard.StandardData;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;

/**
 * Reads one Gerber X3 component layer (Gerber Layer Format Specification, revision 2020.09 and
 * later, chapters 5.6 and 6.9).
 *
 * <p>A part is the flash of an aperture with function {@code ComponentMain}; {@code .C} names it,
 * {@code .CRot} is its rotation, {@code .CFtp} (else {@code .CPgN}) its part type, {@code .CVal}
 * (else {@code .CMPN}) its value. Flashes of {@code ComponentPin} with {@code .P} are its pins,
 * draws and regions of {@code ComponentOutline} its outlines, those of {@code Profile} the board's.
 * Attributes may also stand in comments ({@code G04 #@! TO.C,R1*}). Where the file repeats itself
 * ({@code SR}) it is a panel.
 */
public final class GerberReader {
  private static final int LONGEST = 1 << 16;
  private static final int MOST = 1_000_000;
  private static final int MOST_PER_PART = 20_000;
  private static final Pattern FORMAT =
      Pattern.compile("FS([LTD]?)([AI]?)(?:N\\d)?X(\\d)(\\d)Y(\\d)(\\d).*");
  private static final Pattern STEP =
      Pattern.compile("SRX(\\d{1,4})Y(\\d{1,4})I([-+.\\d]{1,20})J([-+.\\d]{1,20})");
  private static final Pattern DATA =
      Pattern.compile(
          "(?:G0?[1-3])?(?:X([-+]?\\d{1,12}))?(?:Y([-+]?\\d{1,12}))?"
              + "(?:I([-+]?\\d{1,12}))?(?:J([-+]?\\d{1,12}))?(?:D0?([123]))?");

  private final String file;
  private final Reader in;
  private final Map<Integer, String> functions = new HashMap<>();
  private final Map<String, String> object = new TreeMap<>();
  private List<String> pinFields = List.of();
  private final Map<String, Integer> passedOver = new TreeMap<>();
  private final List<GerberPart> parts = new ArrayList<>();
  private final Map<String, GerberPart> latest = new LinkedHashMap<>();
  private final List<double[]> marks = new ArrayList<>();
  private final List<Pose> boards = new ArrayList<>();
  private int line = 1;
  private int wordLine = 1;
  private String apertureFunction = "";
  private String current = "";
  private boolean region;
  private boolean clockwise;
  private boolean inStep;
  private StandardBox profile = new StandardBox();
  private double unitMm;
  private double scale;
  private double x;
  private double y;
  private boolean first = true;
  private boolean ended;
  private @Nullable InputException wrong;
  private @Nullable Side side;
  private int kept;

  private GerberReader(String file, Reader in) {
    this.file = file;
    this.in = in;
  }

  /**
   * Reads a file.
   *
   * @throws InputException when it is no component layer, or is broken
   */
  public static StandardData read(Path path) {
    try (InputStream in = Files.newInputStream(path)) {
      return read(path.toString(), in);
    } catch (IOException e) {
      throw new InputException(
          Problem.of(path.toString(), "the file cannot be read", "check the path and its rights"));
    }
  }

  /** Reads a stream; {@code file} is how messages name it. */
  public static StandardData read(String file, InputStream in) throws IOException {
    GerberReader r =
        new GerberReader(
            file, new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8), 1 << 16));
    r.all();
    return r.data();
  }

  private InputException fail(String found, String mend) {
    return new InputException(Problem.at(file, wordLine, found, mend));
  }

  private void keep() {
    if (++kept > MOST) {
      throw fail("the file has more than a million flashes and draws of parts", "export one board");
    }
  }

  /** Splits the file into words, each ended by an asterisk. */
  private void all() throws IOException {
    StringBuilder word = new StringBuilder();
    boolean extended = false;
    for (int c = in.read(); c >= 0 && !ended; c = in.read()) {
      if (c == '\n') {
        line++;
      } else if (c == '%') {
        extended = !extended;
      } else if (c == '*') {
        word(word.toString().strip(), extended);
        word.setLength(0);
      } else if (c != '\r' && c != 0xFEFF) {
        if (word.length() == 0) {
          wordLine = line;
        }
        word.append((char) c);
        if (word.length() > LONGEST) {
          throw fail("a command is longer than 65536 characters", "export the file again");
        }
      }
    }
    if (wrong != null && side != null) {
      throw wrong;
    }
    if (!ended && wrong == null) {
      wordLine = line;
      throw fail("the file ends without M02, so a part of it may be missing", "export it again");
    }
  }

  /** What a layer says of itself comes before what is wrong with its commands. */
  private void word(String w, boolean extended) {
    if (wrong != null) {
      int at = w.indexOf("TF.FileFunction");
      if (at >= 0) {
        attribute(w.substring(at));
      }
      ended = ended || side != null || w.equals("M02");
      return;
    }
    try {
      command(w, extended);
    } catch (InputException e) {
      if (side != null || w.contains("TF.FileFunction")) {
        throw e;
      }
      wrong = e;
    }
  }

  private void command(String w, boolean extended) {
    if (w.isEmpty()) {
      return;
    }
    if (w.startsWith("G04") || w.startsWith("G4 ")) {
      String comment = w.substring(3).strip();
      if (comment.startsWith("#@!")) {
        attribute(comment.substring(3).strip());
      }
    } else if (extended) {
      extended(w);
    } else {
      plain(w);
    }
  }

  private void extended(String w) {
    switch (w.length() < 2 ? w : w.substring(0, 2)) {
      case "TF", "TA", "TO", "TD" -> attribute(w);
      case "FS" -> format(w);
      case "MO" -> unit(w);
      case "AD" -> aperture(w);
      case "SR" -> step(w);
      case "AB" ->
          throw fail("the layer uses block apertures (AB)", "export it without block apertures");
      case "LP" -> {
        // how shapes are painted moves no part
      }
      case "LM", "LR", "LS", "AM", "IP", "IN", "LN", "OF", "MI", "SF", "IR", "AS" ->
          passOver(w.substring(0, 2));
      default -> passOver("other commands");
    }
  }

  private void passOver(String what) {
    passedOver.merge(what, 1, Integer::sum);
  }

  private void attribute(String w) {
    String[] f = w.split(",", -1);
    String name = f[0].length() > 2 ? f[0].substring(2) : "";
    switch (f[0].length() < 2 ? "" : f[0].substring(0, 2)) {
      case "TF" -> fileAttribute(name, f);
      case "TA" -> {
        if (name.equals(".AperFunction")) {
          apertureFunction = rest(w);
        }
      }
      case "TO" -> {
        object.put(name, rest(w));
        if (name.equals(".P")) {
          pinFields = GerberFields.of(w);
        }
      }
      case "TD" -> {
        if (name.isEmpty()) {
          object.clear();
          pinFields = List.of();
          apertureFunction = "";
        } else {
          object.remove(name);
          pinFields = name.equals(".P") ? List.of() : pinFields;
          apertureFunction = name.equals(".AperFunction") ? "" : apertureFunction;
        }
      }
      default -> passOver("other attributes");
    }
  }

  private static String rest(String w) {
    return String.join(",", GerberFields.of(w));
  }

  private void fileAttribute(String name, String[] f) {
    if (!name.equals(".FileFunction")) {
      return;
    }
    if (f.length < 2 || !f[1].equals("Component")) {
      throw fail(
          "this Gerber file is a layer of the function "
              + TextPieces.quoted(f.length < 2 ? "" : f[1])
              + ", not a component layer",
          "export the component layer (Gerber X3)");
    }
    for (int i = 2; i < f.length; i++) {
      side = f[i].equals("Top") ? Side.TOP : f[i].equals("Bot") ? Side.BOTTOM : side;
    }
    if (side == null) {
      throw fail("the component layer does not say Top or Bot", "export it again");
    }
  }

  private void format(String w) {
    Matcher m = FORMAT.matcher(w);
    if (!m.matches()) {
      throw fail(
          "the format " + TextPieces.quoted(w) + " cannot be read", "export with FSLAX46Y46");
    }
    if ("I".equals(m.group(2)) || "T".equals(m.group(1))) {
      throw fail(
          "the coordinates are "
              + ("I".equals(m.group(2)) ? "incremental" : "without trailing zeros")
              + " ("
              + TextPieces.quoted(w)
              + ")",
          "export with FSLAX46Y46");
    }
    if (!m.group(4).equals(m.group(6))) {
      throw fail("x and y have different decimals", "export with FSLAX46Y46");
    }
    scale = Math.pow(10, -Integer.parseInt(m.group(4)));
  }

  private void unit(String w) {
    if (!w.equals("MOMM") && !w.equals("MOIN")) {
      throw fail("the unit " + TextPieces.quoted(w) + " is none of MOMM and MOIN", "export in mm");
    }
    unitMm = w.equals("MOMM") ? 1 : 25.4;
  }

  private void aperture(String w) {
    Matcher m = Pattern.compile("ADD(\\d{1,6}).*", Pattern.DOTALL).matcher(w);
    if (!m.matches()) {
      throw fail(
          "the aperture " + TextPieces.quoted(w) + " cannot be read", "export the file again");
    }
    keep();
    functions.put(Integer.parseInt(m.group(1)), apertureFunction);
  }

  private void step(String w) {
    Matcher m = STEP.matcher(w);
    inStep = false;
    if (w.equals("SR")) {
      return;
    }
    if (!m.matches()) {
      throw fail("the step-repeat " + TextPieces.quoted(w) + " cannot be read", "export one board");
    }
    int nx = Integer.parseInt(m.group(1));
    int ny = Integer.parseInt(m.group(2));
    if (nx * ny <= 1) {
      return;
    }
    if (!boards.isEmpty() || !parts.isEmpty()) {
      throw fail("parts stand in more than one step-repeat block", "export one board");
    }
    if (nx * ny > 10_000) {
      throw fail("the panel has more than 10000 boards", "export one board");
    }
    inStep = true;
    profile = new StandardBox();
    for (int j = 0; j < ny; j++) {
      for (int i = 0; i < nx; i++) {
        boards.add(new Pose(i * stepMm(m.group(3)), j * stepMm(m.group(4)), 0));
      }
    }
  }

  private double stepMm(String s) {
    try {
      return Double.parseDouble(s) * unitMm;
    } catch (NumberFormatException e) {
      throw fail("the step " + TextPieces.quoted(s) + " is no number", "export the file again");
    }
  }

  private void plain(String w) {
    if (w.matches("M0?2|M0?0")) {
      ended = true;
    } else if (w.equals("G36")) {
      region = true;
    } else if (w.equals("G37")) {
      region = false;
    } else if (w.matches("(?:G54)?D[1-9]\\d{1,5}")) {
      current = functions.getOrDefault(Integer.parseInt(w.substring(w.indexOf('D') + 1)), "");
    } else if (w.matches("G(?:0?[123]|7[0145]|9[0])")) {
      interpolation(w);
      if (w.equals("G70") || w.equals("G71")) {
        unitMm = w.equals("G71") ? 1 : 25.4;
      }
    } else if (w.equals("G91")) {
      throw fail("the coordinates are incremental (G91)", "export with absolute coordinates");
    } else {
      data(w);
    }
  }

  private void data(String w) {
    Matcher m = DATA.matcher(w);
    if (!m.matches()) {
      throw fail("the command " + TextPieces.quoted(w) + " is no Gerber", "export the file again");
    }
    if (unitMm == 0 || scale == 0) {
      throw fail("coordinates come before format (FS) and unit (MO)", "export the file again");
    }
    double toX = m.group(1) == null ? x : Long.parseLong(m.group(1)) * scale * unitMm;
    double toY = m.group(2) == null ? y : Long.parseLong(m.group(2)) * scale * unitMm;
    interpolation(w);
    boolean curved = m.group(3) != null || m.group(4) != null;
    if (curved && !"2".equals(m.group(5)) && !"3".equals(m.group(5))) {
      StandardArc.extremes(
              x, y, toX, toY, x + offset(m.group(3)), y + offset(m.group(4)), clockwise)
          .forEach(at -> outline(drawing(), at[0], at[1]));
    }
    x = toX;
    y = toY;
    if (m.group(5) != null) {
      operate(m.group(5).charAt(0));
    }
  }

  private void interpolation(String w) {
    if (w.matches("G0?[23](?!\\d).*")) {
      clockwise = w.startsWith("G02") || w.startsWith("G2");
    }
  }

  private double offset(@Nullable String s) {
    return s == null ? 0 : Long.parseLong(s) * scale * unitMm;
  }

  private void operate(char d) {
    if (d == '3') {
      flash(drawing());
    } else {
      outline(drawing(), x, y);
    }
  }

  private String drawing() {
    return region ? apertureOfRegion() : current;
  }

  /** A region has the function of the attribute in force, or of the aperture chosen before. */
  private String apertureOfRegion() {
    return apertureFunction.isEmpty() ? current : apertureFunction;
  }

  private void flash(String function) {
    if (function.startsWith("ComponentMain")) {
      main();
    } else if (function.startsWith("ComponentPin")) {
      pin();
    } else if (function.startsWith("FiducialPad") && !function.contains("Local")) {
      keep();
      marks.add(new double[] {x, y});
    } else if (function.startsWith("FiducialPad")) {
      passOver("local fiducials");
    } else {
      passOver("other flashes");
    }
  }

  private void main() {
    String ref = object.getOrDefault(".C", "");
    if (ref.isEmpty()) {
      throw fail("a part is flashed without its designator (.C)", "export the file again");
    }
    keep();
    GerberPart p = new GerberPart(ref, x, y, wordLine);
    p.rotation = rotation();
    p.footprint = object.getOrDefault(".CFtp", object.getOrDefault(".CPgN", ""));
    p.value = object.getOrDefault(".CVal", object.getOrDefault(".CMPN", ""));
    p.mount = object.getOrDefault(".CMnt", "").toUpperCase(Locale.ROOT);
    p.height = height();
    parts.add(p);
    latest.put(ref, p);
  }

  private double rotation() {
    String s = object.get(".CRot");
    return s == null ? Double.NaN : number(".CRot", s);
  }

  private double height() {
    String s = object.get(".CHgt");
    double h = s == null ? Double.NaN : number(".CHgt", s) * unitMm;
    return h > 0 ? h : Double.NaN;
  }

  private double number(String attribute, String s) {
    if (s.matches("[-+]?(?:\\d{1,9}\\.?\\d{0,12}|\\.\\d{1,12})")) {
      return Double.parseDouble(s);
    }
    throw fail(
        attribute + " is " + TextPieces.quoted(s) + ", which is no number", "export it again");
  }

  private void pin() {
    GerberPart p = pinFields.size() < 2 ? null : latest.get(pinFields.get(0));
    if (p == null) {
      passOver("pins of no part");
    } else if (p.pins.size() < MOST_PER_PART) {
      keep();
      p.pins.putIfAbsent(pinFields.get(1), new double[] {x, y});
    }
  }

  private void outline(String function, double atX, double atY) {
    if (function.startsWith("Profile")) {
      if (inStep || boards.isEmpty()) {
        profile.add(atX, atY);
      }
      return;
    }
    if (!function.startsWith("ComponentOutline")) {
      return;
    }
    GerberPart p = latest.get(object.getOrDefault(".C", ""));
    if (p == null) {
      passOver("outlines of no part");
      return;
    }
    List<double[]> points = p.outline(function);
    if (points != null && points.size() < MOST_PER_PART) {
      keep();
      points.add(new double[] {atX, atY});
    }
  }

  private StandardData data() {
    if (side == null) {
      throw new InputException(
          Problem.of(
              file,
              "this Gerber file does not say that it is a component layer (no TF.FileFunction)",
              "export the component layer (Gerber X3)"));
    }
    LengthUnit unit = unitMm == 25.4 ? LengthUnit.INCH : LengthUnit.MM;
    return new GerberBoard(file, side, unit, parts, boards, marks, profile, passedOver).data();
  }
}
