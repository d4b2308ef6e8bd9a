package org.padtrue.load.table;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/**
 * Header spellings in common use, by the letters and digits that remain of them in lower case.
 *
 * <p>A name that stands earlier here is preferred where a file has two for one thing. Common
 * practice, from memory: centre coordinates are preferred to those of a reference point, these to
 * those of pin 1.
 */
final class Vocabulary {
  private static final Map<String, Spelling> KNOWN = new HashMap<>();

  private Vocabulary() {}

  static {
    text(Field.REF, 0, "ref refs refdes refdesignator refdesignators reference references");
    text(Field.REF, 9, "refdesig");
    text(Field.REF, 10, "designator designators referencedesignator referencedesignators");
    text(Field.REF, 20, "partreference partref componentreference componentdesignator compref");
    text(Field.REF, 30, "refid referenceid partdesignator itemreference symbolref");
    text(
        Field.REF,
        Spelling.WEAK,
        "component comp componentname compname componentid partid bauteil");
    text(Field.REF, Spelling.WEAK + 10, "name id ident location item");
    text(Field.PART, 0, "part parttype partname partnumber partno partnr componenttype");
    text(Field.PART, 10, "pn mpn articlenumber itemnumber materialnumber material");
    text(Field.PACKAGE, 0, "package footprint pattern decal landpattern shape geometry case");
    text(Field.PACKAGE, 10, "pkg packagename footprintname packagetype casecode outline");
    text(Field.PACKAGE, 20, "packagereference pcbfootprint symbolname symname");
    text(Field.VALUE, 0, "value val comment description componentvalue partvalue");
    text(Field.VALUE, 10, "desc device");
    text(Field.SIDE, 0, "side layer tb topbottom boardside boardlayer placementside mountside");
    text(Field.SIDE, 10, "pcbside componentside partside face toporbottom bottomtop");
    text(Field.MIRRORED, 0, "mirror mirrored flip flipped");
    text(Field.NOZZLE, 0, "nozzle nozzletype nozzlename nozzleid tool");
    text(Field.FEEDER, 0, "feeder feederid feederno feedername feederslot feederposition slot");
    text(Field.HEAD, 0, "head headid headno spindle");
    text(Field.LOT, 0, "lot lotid lotno lotnumber lotcode reel reelid reelno reelnumber");
    text(Field.ORDER, 0, "order sequence seq placeorder placementorder placingorder step");
    text(Field.FITTED, 0, "fitted fit mounted populated populate placed place assembled assemble");
    text(Field.FITTED, 20, "stuffed mount");
    text(Field.NOT_FITTED, 0, "dnp dnf dni dnm dnpl nofit notfitted donotplace donotpopulate");
    text(Field.NOT_FITTED, 0, "donotfit donotmount donotinstall nopop nomount unfitted notplaced");
    text(Field.NOT_FITTED, 0, "excludefrompos excludefromposition excludefrompositionfiles");
    text(Field.NOT_FITTED, 0, "excludefromposfiles notpopulated notmounted skip");
    text(Field.STATUS, 0, "status variant variation attr attribute attributes fittedstatus");
    text(Field.PANEL, 0, "panel panelid panelname panelno panelnumber");
    text(Field.COLUMN, 0, "column col boardcolumn boardcol columnno columnnumber");
    text(Field.ROW, 0, "row boardrow rowno rownumber");
    text(Field.TIME, 0, "time timestamp date datetime when at");
    text(Field.NOTE, 0, "note notes remark remarks");
    text(Field.OPERATOR, 0, "operator appraiser inspector");
    text(Field.TRIAL, 0, "trial repeat repetition run");
    text(Field.QUANTITY, 0, "quantity qty count amount qnty quant anzahl menge");
    text(Field.FILE, 0, "file picture image filename picturefile imagefile");
    text(Field.TURNED, 0, "turned panelturned");
    text(Field.U, 0, "u uxy uncertainty standarduncertainty stduncertainty");
    text(Field.UROTATION, 0, "urotation urot uangle utheta rotationuncertainty");
    pairs(0, "mid center centre centroid body measured meas actual seen");
    pairs(1, "pos position loc location coord coordinate placement place comp component");
    pairs(1, "axis abs absolute board pcb part");
    plain("", Field.X, Field.Y, 2);
    pairs(3, "ref refpoint reference origin symbol sym insertion");
    pairs(4, "pad pin pin1 firstpad firstpin");
    for (String s : "d delta dev deviation error err offset diff difference".split(" ")) {
      plain(s, Field.DX, Field.DY, s.equals("d") ? 0 : 1);
      suffixed(s, Field.DX, Field.DY, 1);
      turn(s, Field.DROTATION);
    }
    turn("", Field.ROTATION);
    for (String s : "measured meas actual seen".split(" ")) {
      turn(s, Field.ROTATION);
    }
    text(Field.ROTATION, 10, "orientation rotationangle angleofrotation rotangle azimuth");
    text(Field.ROTATION, 30, "orient deg degrees winkel drehung rotationswinkel drehwinkel");
    text(Field.REF, 40, "componentref referenz bezeichner refbez parts referencedes refdess");
    text(Field.PACKAGE, 30, "packagefootprint footprintpackage bauform gehaeuse geh\u00e4use");
    text(Field.VALUE, 20, "wert");
    text(Field.SIDE, 20, "seite lage sidelayer layerside");
    text(Field.ROTATION, 20, "placementrotation placementangle componentrotation partrotation");
  }

  private static void text(Field field, int rank, String spellings) {
    int r = rank;
    for (String s : spellings.split(" ")) {
      KNOWN.putIfAbsent(s, new Spelling(field, r++, field.key()));
    }
  }

  private static void pairs(int rank, String words) {
    for (String w : words.split(" ")) {
      plain(w, Field.X, Field.Y, rank);
      suffixed(w, Field.X, Field.Y, rank);
    }
  }

  private static void plain(String word, Field x, Field y, int rank) {
    KNOWN.putIfAbsent(word + "x", new Spelling(x, rank, word + "?"));
    KNOWN.putIfAbsent(word + "y", new Spelling(y, rank, word + "?"));
  }

  private static void suffixed(String word, Field x, Field y, int rank) {
    KNOWN.putIfAbsent("x" + word, new Spelling(x, rank, "?" + word));
    KNOWN.putIfAbsent("y" + word, new Spelling(y, rank, "?" + word));
  }

  private static void turn(String word, Field field) {
    int rank = 0;
    for (String s : "rotation rot angle theta phi rotate r".split(" ")) {
      KNOWN.putIfAbsent(word + s, new Spelling(field, rank, word + "?"));
      if (!word.isEmpty()) {
        KNOWN.putIfAbsent(s + word, new Spelling(field, rank, word + "?"));
      }
      rank = 1;
    }
  }

  /** What a header cell's name means, its unit taken off before. */
  static Optional<Spelling> meaning(String letters) {
    return Optional.ofNullable(KNOWN.get(letters));
  }
}
