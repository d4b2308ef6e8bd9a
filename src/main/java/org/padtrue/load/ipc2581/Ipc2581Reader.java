package org.padtrue.load.ipc2581;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.ipc2581.IpcModel.Component;
import org.padtrue.load.ipc2581.IpcModel.Layer;
import org.padtrue.load.ipc2581.IpcModel.Mark;
import org.padtrue.load.ipc2581.IpcModel.Pack;
import org.padtrue.load.ipc2581.IpcModel.Pin;
import org.padtrue.load.ipc2581.IpcModel.Place;
import org.padtrue.load.ipc2581.IpcModel.Repeat;
import org.padtrue.load.ipc2581.IpcModel.Shape;
import org.padtrue.load.ipc2581.IpcModel.Step;
import org.padtrue.load.standard.StandardArc;
import org.padtrue.load.standard.StandardBox;
import org.padtrue.load.standard.StandardData;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Side;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;

/**
 * Reads an IPC-2581 file (names of elements and attributes as in the published schemas of revisions
 * A and C, namespace {@code http://webstds.ipc.org/2581}).
 *
 * <p>Read are: {@code CadHeader@units}; {@code Layer}; of each {@code Step} its {@code Datum},
 * {@code Profile}, {@code StepRepeat}, {@code Package} (outline, pins, land pattern), {@code
 * Component} and of {@code LayerFeature} the global fiducials and the pads that name a component's
 * pin; of {@code Bom} what is not populated. All else is passed over. Part type is the package,
 * since geometry hangs on it; the component's own {@code part} stands as value.
 */
public final class Ipc2581Reader {
  private static final int MOST = 1_000_000;

  private final String file;
  private final XmlCursor xml;
  private final IpcModel model = new IpcModel();
  private double unitMm = 1;
  private @Nullable LengthUnit unit;
  private int kept;

  private Ipc2581Reader(String file, InputStream in) {
    this.file = file;
    this.xml = new XmlCursor(file, in);
  }

  /**
   * Reads a file.
   *
   * @param step the step to read as the board, or null to find it
   * @throws InputException when the file as a whole cannot be understood
   */
  public static StandardData read(Path path, @Nullable String step) {
    try (InputStream in = Files.newInputStream(path)) {
      return read(path.toString(), in, step);
    } catch (IOException e) {
      throw new InputException(
          Problem.of(path.toString(), "the file cannot be read", "check the path and its rights"));
    }
  }

  /** Reads a stream; {@code file} is how messages name it. */
  public static StandardData read(String file, InputStream in, @Nullable String step) {
    Ipc2581Reader r = new Ipc2581Reader(file, in);
    r.document();
    LengthUnit u = r.unit == null ? LengthUnit.MM : r.unit;
    return new IpcBoard(file, r.model, u, step).data();
  }

  private void document() {
    String root = xml.root();
    if (!root.equals("IPC-2581")) {
      throw xml.fail(
          "this is XML with the root " + TextPieces.quoted(root) + ", not IPC-2581",
          "export it as IPC-2581 or as a table");
    }
    model.revision = xml.textOrEmpty("revision");
    xml.children(
        e -> {
          switch (e) {
            case "Content" -> content();
            case "Bom" -> xml.children(this::bom);
            case "Ecad" -> xml.children(this::ecad);
            default -> model.passOver(e);
          }
        });
    xml.finish();
  }

  private void keep() {
    if (++kept > MOST) {
      throw xml.fail(
          "the file has more than a million parts, pads and names to keep", "export one board");
    }
  }

  private void setUnit(boolean header) {
    String u = xml.textOrEmpty("units").toUpperCase(Locale.ROOT);
    LengthUnit found =
        switch (u) {
          case "MILLIMETER" -> LengthUnit.MM;
          case "MICRON" -> LengthUnit.UM;
          case "INCH" -> LengthUnit.INCH;
          default ->
              throw xml.fail(
                  u.isEmpty()
                      ? "no units are given"
                      : "the units are " + TextPieces.quoted(u) + ", which IPC-2581 does not have",
                  "use MILLIMETER, MICRON or INCH");
        };
    unitMm = found.mm();
    if (header) {
      unit = found;
    }
  }

  private double mm(String attribute) {
    return xml.number(attribute, 0) * unitMm;
  }

  private double needed(String attribute) {
    double v = xml.number(attribute, Double.NaN);
    if (Double.isNaN(v)) {
      throw xml.fail("an element without " + attribute + " where one is needed", "export it again");
    }
    return v * unitMm;
  }

  private void content() {
    xml.children(
        e -> {
          if (e.equals("FunctionMode")) {
            model.mode = xml.textOrEmpty("mode").toUpperCase(Locale.ROOT);
          } else if (e.equals("StepRef")) {
            keep();
            model.listedSteps.add(xml.textOrEmpty("name"));
          } else if (e.equals("DictionaryStandard") || e.equals("DictionaryUser")) {
            setUnit(false);
            xml.children(this::entry);
          }
        });
  }

  private void entry(String element) {
    if (!element.startsWith("Entry")) {
      return;
    }
    String id = xml.textOrEmpty("id");
    Shape[] found = new Shape[1];
    xml.children(
        e -> {
          Shape s = shape(e);
          found[0] = s != null ? s : found[0];
        });
    if (found[0] != null) {
      keep();
      model.shapes.put(id, found[0]);
    }
  }

  /** The shape that the current element is or names; null when it is none. */
  private @Nullable Shape shape(String e) {
    switch (e) {
      case "Circle":
        double d = mm("diameter");
        return sized(d, d);
      case "RectCenter", "RectRound", "RectCham", "Oval", "Ellipse", "Diamond":
        return sized(mm("width"), mm("height"));
      case "Hexagon", "Octagon":
        return sized(mm("length"), mm("length"));
      case "RectCorner":
        StandardBox b = new StandardBox();
        b.add(mm("lowerLeftX"), mm("lowerLeftY"));
        b.add(mm("upperRightX"), mm("upperRightY"));
        return boxed(b);
      case "Contour", "UserSpecial", "Outline":
        StandardBox box = new StandardBox();
        xml.children(
            c -> {
              if (c.equals("Polygon")) {
                polygon(box);
              }
            });
        return boxed(box);
      case "StandardPrimitiveRef", "UserPrimitiveRef":
        return model.shapes.get(xml.textOrEmpty("id"));
      default:
        return null;
    }
  }

  private static @Nullable Shape sized(double length, double width) {
    return length > 0 && width > 0 ? new Shape(0, 0, length, width) : null;
  }

  private static @Nullable Shape boxed(StandardBox b) {
    return b.isEmpty() ? null : new Shape(b.midX(), b.midY(), b.length(), b.width());
  }

  /** Takes a polygon in, but for one that an Xform of its own moves, which bounds nothing here. */
  private void polygon(StandardBox whole) {
    StandardBox box = new StandardBox();
    double[] at = new double[2];
    boolean[] moved = new boolean[1];
    xml.children(
        e -> {
          if (e.equals("PolyBegin") || e.equals("PolyStepSegment")) {
            at[0] = mm("x");
            at[1] = mm("y");
            box.add(at[0], at[1]);
          } else if (e.equals("PolyStepCurve")) {
            arc(box, at, mm("x"), mm("y"));
          } else if (e.equals("Xform")) {
            moved[0] = true;
          }
        });
    if (!moved[0]) {
      whole.add(box);
    }
  }

  /** Ends of an arc, and those of its four extreme points that it passes. */
  private void arc(StandardBox box, double[] at, double x, double y) {
    StandardArc.extremes(at[0], at[1], x, y, mm("centerX"), mm("centerY"), xml.flag("clockwise"))
        .forEach(p -> box.add(p[0], p[1]));
    box.add(x, y);
    at[0] = x;
    at[1] = y;
  }

  private void bom(String element) {
    if (!element.equals("BomItem")) {
      return;
    }
    String number = xml.textOrEmpty("OEMDesignNumberRef");
    xml.children(
        e -> {
          if (e.equals("RefDes")) {
            keep();
            String ref = xml.textOrEmpty("name");
            if (xml.textOrEmpty("populate").equalsIgnoreCase("false")) {
              model.notFitted.add(ref);
            }
            model.bomPart.put(ref, number);
            model.bomLayer.put(ref, xml.textOrEmpty("layerRef"));
          }
        });
  }

  private void ecad(String element) {
    if (element.equals("CadHeader")) {
      setUnit(true);
    } else if (element.equals("CadData")) {
      if (unit == null) {
        throw xml.fail("there is no CadHeader with units before CadData", "export it again");
      }
      unitMm = unit.mm();
      xml.children(
          e -> {
            switch (e) {
              case "Layer" -> layer();
              case "Step" -> step();
              default -> model.passOver(e);
            }
          });
    }
  }

  private void layer() {
    keep();
    String side = xml.textOrEmpty("side").toUpperCase(Locale.ROOT);
    String function = xml.textOrEmpty("layerFunction").toUpperCase(Locale.ROOT);
    boolean copper = function.matches("SIGNAL|CONDUCTOR|MIXED|PLANE|CONDFILM|CONDFOIL");
    String told = side.isEmpty() ? function.replaceFirst("^COMPONENT_", "") : side;
    Side s = told.equals("TOP") ? Side.TOP : told.equals("BOTTOM") ? Side.BOTTOM : null;
    model.layers.put(xml.textOrEmpty("name"), new Layer(s, copper));
  }

  private void step() {
    Step s = new Step(xml.textOrEmpty("name"), xml.line());
    keep();
    if (model.steps.putIfAbsent(s.name, s) != null) {
      throw xml.fail(
          "the step " + TextPieces.quoted(s.name) + " is there twice", "export it again");
    }
    xml.children(
        e -> {
          switch (e) {
            case "Datum" -> {
              s.datumX = mm("x");
              s.datumY = mm("y");
            }
            case "Profile" -> {
              StandardBox box = s.profile;
              xml.children(
                  c -> {
                    if (c.equals("Polygon")) {
                      polygon(box);
                    }
                  });
            }
            case "StepRepeat" -> repeat(s);
            case "Package" -> pack(s);
            case "Component" -> component(s);
            case "LayerFeature" -> layerFeature(s);
            default -> model.passOver(e);
          }
        });
  }

  private void repeat(Step s) {
    keep();
    double nx = xml.number("nx", 1);
    double ny = xml.number("ny", 1);
    if (!(nx >= 1 && ny >= 1 && nx * ny <= 10_000) || nx != Math.rint(nx) || ny != Math.rint(ny)) {
      throw xml.fail(
          "a StepRepeat of " + nx + " by " + ny + " boards", "nx and ny are whole, from 1");
    }
    s.repeats.add(
        new Repeat(
            xml.textOrEmpty("stepRef"),
            mm("x"),
            mm("y"),
            (int) nx,
            (int) ny,
            mm("dx"),
            mm("dy"),
            xml.number("angle", 0),
            xml.flag("mirror"),
            xml.line()));
  }

  private void pack(Step s) {
    keep();
    Pack p = new Pack();
    String name = xml.textOrEmpty("name");
    p.type = xml.textOrEmpty("type").toUpperCase(Locale.ROOT);
    double h = mm("height");
    p.height = h > 0 ? h : Double.NaN;
    xml.children(
        e -> {
          switch (e) {
            case "Outline" ->
                xml.children(
                    c -> {
                      if (c.equals("Polygon")) {
                        polygon(p.outline);
                      }
                    });
            case "PickupPoint" -> {
              p.pickX = mm("x");
              p.pickY = mm("y");
            }
            case "LandPattern" -> xml.children(c -> landOrPin(p, c));
            default -> landOrPin(p, e);
          }
        });
    s.packs.putIfAbsent(name, p);
  }

  private void landOrPin(Pack p, String element) {
    if (!element.equals("Pin") && !element.equals("Pad")) {
      return;
    }
    keep();
    String number = xml.textOrEmpty("number");
    String mount = xml.textOrEmpty("mountType").toUpperCase(Locale.ROOT);
    Item i = item();
    String name = element.equals("Pin") ? number : i.pin;
    if (Double.isNaN(i.x) || name.isEmpty()) {
      return;
    }
    Rect r = i.rect(i.x, i.y, i.turn);
    if (element.equals("Pad")) {
      if (r != null) {
        p.lands.put(name, r);
      }
    } else {
      p.pins.put(name, new Pin(name, i.x, i.y, r, !mount.equals("SURFACE_MOUNT_PIN")));
    }
  }

  /** Something with a place and a shape. */
  private static final class Item {
    double x = Double.NaN;
    double y;
    double turn;
    boolean mirror;
    boolean transformed;
    boolean moved;
    @Nullable Shape shape;
    String pin = "";
    String component = "";

    /** Its bounds about a place, where it stands along the axes; null otherwise. */
    @Nullable Rect rect(double atX, double atY, double relativeTurn) {
      Shape s = shape;
      double quarter = ((relativeTurn % 180) + 180) % 180;
      boolean along = quarter < 0.01 || quarter > 179.99;
      boolean across = Math.abs(quarter - 90) < 0.01;
      if (s == null || !(along || across) || s.midX() != 0 || s.midY() != 0) {
        return null;
      }
      return along
          ? new Rect(atX, atY, s.length(), s.width())
          : new Rect(atX, atY, s.width(), s.length());
    }
  }

  /** Reads the children of the current element. */
  private Item item() {
    Item i = new Item();
    xml.children(
        e -> {
          switch (e) {
            case "Location" -> {
              i.x = needed("x");
              i.y = needed("y");
            }
            case "Xform" -> {
              i.transformed = true;
              i.turn = xml.number("rotation", 0);
              i.mirror = xml.flag("mirror");
              i.moved = mm("xOffset") != 0 || mm("yOffset") != 0 || xml.number("scale", 1) != 1;
            }
            case "PinRef" -> {
              i.pin = xml.textOrEmpty("pin");
              i.component = xml.textOrEmpty("componentRef");
            }
            default -> {
              Shape s = shape(e);
              i.shape = s != null ? s : i.shape;
            }
          }
        });
    return i;
  }

  private void component(Step s) {
    int line = xml.line();
    String ref = xml.textOrEmpty("refDes");
    String packageRef = xml.textOrEmpty("packageRef");
    String part = xml.textOrEmpty("part");
    String layer = xml.textOrEmpty("layerRef");
    boolean hole = xml.textOrEmpty("mountType").equalsIgnoreCase("THMT");
    if (ref.isEmpty()) {
      model.passOver("Component without refDes");
      return;
    }
    Item i = item();
    if (Double.isNaN(i.x)) {
      throw new InputException(
          Problem.at(
              file,
              line,
              "the component " + TextPieces.quoted(ref) + " has no Location",
              "give it one, or remove the component"));
    }
    if (i.moved) {
      throw new InputException(
          Problem.at(
              file,
              line,
              "the component " + TextPieces.quoted(ref) + " has an Xform with offset or scale",
              "export it with its place in Location alone"));
    }
    keep();
    Component c =
        new Component(
            ref,
            packageRef,
            part,
            layer,
            i.transformed,
            new Place(i.x, i.y, i.turn, i.mirror),
            hole,
            line);
    s.components.add(c);
    s.byRef.putIfAbsent(ref, c);
  }

  private void layerFeature(Step s) {
    String layer = xml.textOrEmpty("layerRef");
    Layer l = model.layers.get(layer);
    if (l == null || !l.copper() || l.side() == null) {
      return;
    }
    Side side = l.side();
    xml.children(
        e -> {
          if (e.equals("Set")) {
            xml.children(f -> feature(s, layer, side, f));
          }
        });
  }

  private void feature(Step s, String layer, Side side, String element) {
    switch (element) {
      case "GlobalFiducial" -> {
        int line = xml.line();
        Item i = item();
        if (!Double.isNaN(i.x)) {
          keep();
          double d = i.shape == null ? Double.NaN : Math.min(i.shape.length(), i.shape.width());
          s.marks.add(new Mark(layer, i.x, i.y, d, line));
        }
      }
      case "Pad" -> {
        Item i = item();
        if (!i.component.isEmpty() && !Double.isNaN(i.x)) {
          pad(s, side, i);
        }
      }
      default -> {
        if (element.endsWith("Fiducial") || element.endsWith("Mark")) {
          model.passOver(element);
        }
      }
    }
  }

  /** A pad on the board that names the pin of a part: evidence of how the part lies. */
  private void pad(Step s, Side side, Item i) {
    Component c = s.byRef.get(i.component);
    Pack p = c == null ? null : s.packs.get(c.packageRef());
    Pin pin = p == null ? null : p.pins.get(i.pin);
    if (c == null || p == null || pin == null || c.throughHole()) {
      return;
    }
    double dx = i.x - c.place().x();
    double dy = i.y - c.place().y();
    double turn = c.place().turn();
    if (side == Side.BOTTOM && c.place().mirror()) {
      s.votes.see(dx, dy, pin.x(), pin.y(), turn);
    } else if (side == Side.BOTTOM) {
      // a part of the top may have pads below; only one of the bottom says anything
      Layer l = model.layers.get(c.layer());
      if (l != null && l.side() == Side.BOTTOM) {
        s.unmirroredVotes.see(dx, dy, pin.x(), pin.y(), turn);
      }
    } else if (!c.place().mirror() && !p.lands.containsKey(i.pin)) {
      double cos = org.padtrue.quantity.Angles.cosDeg(turn);
      double sin = org.padtrue.quantity.Angles.sinDeg(turn);
      Rect r = i.rect(cos * dx + sin * dy, -sin * dx + cos * dy, i.turn - turn);
      if (r != null && Math.hypot(r.xMm() - pin.x(), r.yMm() - pin.y()) < 1) {
        keep();
        p.lands.put(i.pin, r);
      }
    }
  }
}
