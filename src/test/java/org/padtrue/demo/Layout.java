package org.padtrue.demo;

import java.util.List;

/** One board of the invented product: a logger for tide gauges, 48 x 36 mm, 60 placements. */
final class Layout {
  /** Board column pitch and row pitch, mm. */
  static final double PITCH_X = 50;

  static final double PITCH_Y = 38;

  /** Origin of board 1/1 within the panel: the rail around the boards, mm. */
  static final double RAIL = 6;

  static final int COLUMNS = 3;
  static final int ROWS = 2;

  /** Panel fiducials in the rail, mm. */
  static final double[][] FIDUCIALS = {{3, 3}, {157, 3}, {157, 82}, {3, 82}};

  static final String HEADER = "ref,part,value,x,y,rotation,nozzle";

  /** Placements as the placement file lists them, board frame, mm and degrees. */
  static final String CSV =
      """
      C1,C0805,10u,8.95,24.13,90,N4
      C2,C0603,100n,11.54,21.38,90,N2
      C3,C0805,10u,12.20,25.58,180,N3
      C4,C0603,10n,19.50,25.70,0,N3
      C5,C0603,1u,38.77,21.33,90,N3
      C6,C0603,100n,8.57,18.38,270,N2
      C7,C0603,10n,25.82,17.45,180,N1
      C8,C0805,10u,37.72,17.60,0,N1
      C9,C0603,1u,13.14,14.23,180,N3
      C10,C0603,100n,15.80,11.88,90,N1
      C11,C0805,10u,30.44,11.63,90,N2
      C12,C0603,10n,6.80,3.43,0,N3
      C13,C0603,1u,21.25,5.30,0,N1
      C14,C0603,100n,24.30,4.55,90,N3
      C15,C0603,10n,29.47,3.73,90,N2
      C16,C0603,1u,30.75,6.23,0,N1
      C17,C0603,100n,33.37,7.98,270,N2
      C18,C0603,10n,46.12,3.03,0,N2
      C19,C0805,10u,23.00,1.53,0,N3
      C20,C0805,10u,27.77,3.00,270,N5
      D1,SOD123,1A 40V,3.40,23.80,90,N3
      D2,SOD123,1A 40V,38.60,24.40,0,N1
      D3,SOD123,1A 40V,32.00,14.60,180,N2
      J1,HDR10,2x5,9.50,30.90,0,N4
      J2,HDR10,2x5,18.60,30.90,180,N5
      L1,L4018,10u,40.00,29.50,0,N4
      L2,L4018,10u,33.00,30.00,90,N5
      LD1,LED0805,green,45.40,34.10,0,N3
      LD2,LED0805,green,45.40,31.20,90,N1
      LD3,LED0805,green,2.60,34.10,180,N2
      Q1,SOT23,NFET,27.00,30.50,0,N1
      Q2,SOT23,NFET,27.00,26.80,90,N2
      Q3,SOT23,NFET,44.40,24.00,180,N3
      Q4,SOT23,NFET,44.40,19.40,270,N1
      Q5,SOT23,NFET,3.50,17.60,90,N2
      R1,R0603,10k,35.92,33.48,0,N3
      R2,R0603,100k,1.82,29.63,270,N2
      R3,R0603,4k7,5.70,24.08,90,N2
      R4,R0603,220R,40.65,18.23,270,N3
      R5,R1206,0R1,3.30,13.83,180,N3
      R6,R0603,10k,18.19,11.95,180,N1
      R7,R0603,100k,21.59,12.95,0,N1
      R8,R0603,4k7,27.79,14.63,0,N2
      R9,R0603,220R,43.67,14.60,90,N3
      R10,R0603,10k,45.35,13.38,90,N3
      R11,R1206,0R1,2.24,4.70,270,N4
      R12,R0603,100k,13.24,7.28,270,N2
      R13,R1206,0R1,17.00,6.08,0,N5
      R14,R0603,4k7,17.90,3.13,90,N1
      R15,R0603,220R,18.64,8.68,0,N3
      R16,R0603,10k,39.89,3.03,0,N1
      R17,R0603,100k,41.30,6.45,0,N1
      R18,R0603,4k7,43.55,7.28,90,N2
      R19,R0603,220R,44.35,4.78,180,N3
      U1,QFN32,controller,16.00,20.50,0,N4
      U2,QFN32,radio,31.50,22.00,90,N5
      U3,SOIC8,line driver,8.50,9.00,0,N5
      U4,SOIC8,line driver,24.00,9.50,90,N4
      U5,SOIC8,line driver,38.00,10.00,270,N5
      Y1,X3225,16M,23.50,21.00,90,N4
      """;

  private Layout() {}

  /** A placement of the board. */
  record Part(String ref, String type, double x, double y, double rotation, String nozzle) {}

  static List<Part> parts() {
    return CSV.lines()
        .map(l -> l.split(","))
        .map(
            c ->
                new Part(
                    c[0],
                    c[1],
                    Double.parseDouble(c[3]),
                    Double.parseDouble(c[4]),
                    Double.parseDouble(c[5]),
                    c[6]))
        .toList();
  }
}
