package org.padtrue.standard;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Side;
import org.padtrue.quantity.Angles;

/**
 * Writes a known board in both formats, in test code of our own, so that reading can be checked.
 */
public final class StandardWriter {
  /** A part, seen from the top; a bottom part mirrored about the y axis, then turned. */
  public record Part(
      String ref, String type, String value, Side side, double x, double y, double turn) {}

  /** A fiducial. */
  public record Mark(double x, double y, double diameter) {}

  /** The panel, seen from the top; no boards when {@code nx} is 0. */
  public record Panel(double x, double y, int nx, int ny, double dx, double dy, List<Mark> marks) {}

  public String name = "DEMO";
  public String revision = "C";
  public String units = "MILLIMETER";

  /** Mirror order of bottom parts: 0 mirror first, 1 turn first, 2 and 3 about the x axis. */
  public int way;

  public boolean pads = true;
  public double length = 49;
  public double width = 36;
  public final List<Part> parts = new ArrayList<>();
  public final Map<String, PartType> types = new LinkedHashMap<>();
  public Panel panel = new Panel(0, 0, 0, 0, 0, 0, List.of());

  private String n(double mm) {
    double unit = units.equals("INCH") ? 25.4 : units.equals("MICRON") ? 1e-3 : 1;
    return String.format(Locale.ROOT, "%.9f", mm / unit).replaceFirst("\\.?0+$", "");
  }

  private static String deg(double d) {
    return String.format(Locale.ROOT, "%.6f", ((d % 360) + 360) % 360).replaceFirst("\\.?0+$", "");
  }

  private String box(String element, double l, double w, boolean centred) {
    double a = centred ? -l / 2 : 0;
    double b = centred ? -w / 2 : 0;
    double[][] p = {{a, b}, {a + l, b}, {a + l, b + w}, {a, b + w}, {a, b}};
    StringBuilder s = new StringBuilder("<" + element + "><Polygon>");
    for (int i = 0; i < p.length; i++) {
      s.append(i == 0 ? "<PolyBegin" : "<PolyStepSegment");
      s.append(String.format(" x=\"%s\" y=\"%s\"/>", n(p[i][0]), n(p[i][1])));
    }
    return s.append("</Polygon></").append(element).append(">\n").toString();
  }

  /** IPC-2581. */
  public String ipc() {
    StringBuilder s = new StringBuilder("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    s.append("<!-- Invented board, made for tests and demonstration. -->\n<IPC-2581 revision=\"");
    s.append(revision).append("\" xmlns=\"http://webstds.ipc.org/2581\">\n");
    s.append("<Content roleRef=\"Owner\"><FunctionMode mode=\"ASSEMBLY\"/>\n");
    s.append("<DictionaryStandard units=\"").append(units).append("\">\n");
    for (String id : shapes()) {
      String[] f = id.split("x");
      s.append("<EntryStandard id=\"").append(id).append("\"><RectCenter width=\"");
      s.append(n(Double.parseDouble(f[0].substring(1)))).append("\" height=\"");
      s.append(n(Double.parseDouble(f[1]))).append("\"/></EntryStandard>\n");
    }
    s.append("</DictionaryStandard></Content>\n<Ecad name=\"").append(name).append("\">\n");
    s.append("<CadHeader units=\"").append(units).append("\"/>\n<CadData>\n");
    for (String side : new String[] {"TOP", "BOTTOM"}) {
      s.append("<Layer name=\"")
          .append(side)
          .append("_COPPER\" layerFunction=\"CONDUCTOR\" side=\"");
      s.append(side).append("\" polarity=\"POSITIVE\"/>\n");
    }
    if (panel.nx() > 0) {
      panelStep(s);
    }
    s.append("<Step name=\"BOARD\"><Datum x=\"0\" y=\"0\"/>\n");
    s.append(box("Profile", length, width, false));
    types.values().forEach(t -> pack(s, t));
    parts.forEach(p -> component(s, p));
    if (pads) {
      layer(s, Side.TOP);
      layer(s, Side.BOTTOM);
    }
    return s.append("</Step>\n</CadData></Ecad></IPC-2581>\n").toString();
  }

  private void panelStep(StringBuilder s) {
    s.append("<Step name=\"PANEL\"><Datum x=\"0\" y=\"0\"/>\n");
    s.append(
        String.format(
            "<StepRepeat stepRef=\"BOARD\" x=\"%s\" y=\"%s\" nx=\"%d\" ny=\"%d\" dx=\"%s\" dy=\"%s\""
                + " angle=\"0\" mirror=\"false\"/>%n",
            n(panel.x()), n(panel.y()), panel.nx(), panel.ny(), n(panel.dx()), n(panel.dy())));
    for (Side side : Side.values()) {
      s.append("<LayerFeature layerRef=\"").append(side).append("_COPPER\">\n");
      for (Mark m : panel.marks()) {
        s.append(
            String.format(
                "<Set><GlobalFiducial><Location x=\"%s\" y=\"%s\"/><Circle diameter=\"%s\"/>"
                    + "</GlobalFiducial></Set>%n",
                n(m.x()), n(m.y()), n(m.diameter())));
      }
      s.append("</LayerFeature>\n");
    }
    s.append("</Step>\n");
  }

  private TreeSet<String> shapes() {
    TreeSet<String> all = new TreeSet<>();
    for (PartType t : types.values()) {
      t.lands().forEach(r -> all.add(id(r)));
      t.terminations().forEach(r -> all.add(id(r)));
    }
    return all;
  }

  private static String id(Rect r) {
    return "S" + r.lengthMm() + "x" + r.widthMm();
  }

  private void pack(StringBuilder s, PartType t) {
    s.append(
        String.format(
            "<Package name=\"%s\" type=\"OTHER\" pinOne=\"1\" height=\"%s\">%n",
            t.name(), n(Double.isNaN(t.bodyHeightMm()) ? 0 : t.bodyHeightMm())));
    if (t.body() != null) {
      s.append(box("Outline", t.body().lengthMm(), t.body().widthMm(), true));
    }
    s.append("<LandPattern>\n");
    for (int i = 0; i < t.lands().size(); i++) {
      Rect r = t.lands().get(i);
      s.append(
          String.format(
              "<Pad><Location x=\"%s\" y=\"%s\"/><StandardPrimitiveRef id=\"%s\"/><PinRef"
                  + " pin=\"%d\"/></Pad>%n",
              n(r.xMm()), n(r.yMm()), id(r), i + 1));
    }
    s.append("</LandPattern>\n");
    for (int i = 0; i < t.terminations().size(); i++) {
      Rect r = t.terminations().get(i);
      s.append(
          String.format(
              "<Pin number=\"%d\" type=\"SURFACE\" mountType=\"SURFACE_MOUNT_PIN\"><Location"
                  + " x=\"%s\" y=\"%s\"/><StandardPrimitiveRef id=\"%s\"/></Pin>%n",
              i + 1, n(r.xMm()), n(r.yMm()), id(r)));
    }
    s.append("</Package>\n");
  }

  private double written(Part p) {
    if (p.side() == Side.TOP) {
      return p.turn();
    }
    return switch (way) {
      case 0 -> p.turn();
      case 1 -> -p.turn();
      case 2 -> p.turn() - 180;
      default -> 180 - p.turn();
    };
  }

  private void component(StringBuilder s, Part p) {
    s.append(
        String.format(
            "<Component refDes=\"%s\" packageRef=\"%s\" part=\"%s\" layerRef=\"%s_COPPER\""
                + " mountType=\"SMT\">",
            p.ref(), p.type(), p.value(), p.side()));
    String turn = deg(written(p));
    boolean mirror = p.side() == Side.BOTTOM;
    if (mirror || !turn.equals("0")) {
      s.append("<Xform rotation=\"").append(turn);
      s.append(mirror ? "\" mirror=\"true\"/>" : "\"/>");
    }
    s.append(String.format("<Location x=\"%s\" y=\"%s\"/></Component>%n", n(p.x()), n(p.y())));
  }

  /** A point of a part on its board. */
  private static double[] at(Part p, double u, double v) {
    double m = p.side() == Side.BOTTOM ? -u : u;
    double c = Angles.cosDeg(p.turn());
    double s = Angles.sinDeg(p.turn());
    return new double[] {p.x() + c * m - s * v, p.y() + s * m + c * v};
  }

  private void layer(StringBuilder s, Side side) {
    s.append("<LayerFeature layerRef=\"").append(side).append("_COPPER\">\n");
    for (Part p : parts) {
      List<Rect> ends = p.side() == side ? types.get(p.type()).terminations() : List.of();
      for (int i = 0; i < ends.size(); i++) {
        double[] a = at(p, ends.get(i).xMm(), ends.get(i).yMm());
        s.append(
            String.format(
                "<Set><Pad><Location x=\"%s\" y=\"%s\"/><StandardPrimitiveRef id=\"%s\"/><PinRef"
                    + " componentRef=\"%s\" pin=\"%d\"/></Pad></Set>%n",
                n(a[0]), n(a[1]), id(ends.get(i)), p.ref(), i + 1));
      }
    }
    s.append("</LayerFeature>\n");
  }

  /** A Gerber X3 component layer of a side. */
  public String gerber(Side side) {
    boolean inch = units.equals("INCH");
    StringBuilder s = new StringBuilder("%TF.GenerationSoftware,Invented,demo*%\n");
    s.append("%TF.FileFunction,Component,").append(side == Side.TOP ? "L1,Top*%\n" : "L2,Bot*%\n");
    s.append("%FSLAX46Y46*%\n").append(inch ? "%MOIN*%\n" : "%MOMM*%\n").append("G01*\n");
    s.append("%TA.AperFunction,ComponentMain*%\n%ADD10C,0.3*%\n");
    s.append("%TA.AperFunction,ComponentOutline,Body*%\n%ADD11C,0.1*%\n");
    s.append("%TA.AperFunction,ComponentPin*%\n%ADD12P,0.36X4X0.0*%\n%ADD13C,0.1*%\n%TD*%\n");
    if (panel.nx() > 0) {
      s.append(
          String.format(
              Locale.ROOT,
              "%%SRX%dY%dI%sJ%s*%%%n",
              panel.nx(),
              panel.ny(),
              n(panel.dx()),
              n(panel.dy())));
    }
    for (Part p : parts) {
      if (p.side() == side) {
        gerber(s, p);
      }
    }
    return s.append(panel.nx() > 0 ? "%SR*%\n" : "").append("M02*\n").toString();
  }

  private String xy(double[] a) {
    double unit = units.equals("INCH") ? 25.4 : 1;
    return "X" + Math.round(a[0] / unit * 1e6) + "Y" + Math.round(a[1] / unit * 1e6);
  }

  private void gerber(StringBuilder s, Part p) {
    PartType t = types.get(p.type());
    double turn = p.side() == Side.BOTTOM ? p.turn() - 180 : p.turn();
    s.append(String.format("D10*%n%%TO.C,%s*%%%n%%TO.CFtp,%s*%%%n", p.ref(), p.type()));
    s.append(String.format("%%TO.CVal,%s*%%%n%%TO.CMnt,SMD*%%%n", p.value()));
    s.append(String.format("%%TO.CRot,%s*%%%n%sD03*%n", deg(turn), xy(at(p, 0, 0))));
    Rect b = t.body();
    if (b != null) {
      double l = b.lengthMm() / 2;
      double w = b.widthMm() / 2;
      s.append("D11*\n").append(xy(at(p, -l, -w))).append("D02*\n");
      for (double[] c : new double[][] {{l, -w}, {l, w}, {-l, w}, {-l, -w}}) {
        s.append(xy(at(p, c[0], c[1]))).append("D01*\n");
      }
    }
    for (int i = 0; i < t.terminations().size(); i++) {
      Rect r = t.terminations().get(i);
      s.append(i == 0 ? "D12*\n" : i == 1 ? "D13*\n" : "");
      s.append(String.format("%%TO.P,%s,%d*%%%n", p.ref(), i + 1));
      s.append(xy(at(p, r.xMm(), r.yMm()))).append("D03*\n");
    }
    s.append("%TD*%\n");
  }
}
