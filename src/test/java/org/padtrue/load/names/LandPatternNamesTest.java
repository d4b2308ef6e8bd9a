package org.padtrue.load.names;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.load.names.NameMatch.Level;
import org.padtrue.load.part.StarterLibrary;
import org.padtrue.panel.PartType;

/**
 * Names and the part types of the starter library that they mean. Expected values: IPC-7351B naming
 * convention, JEDEC and JEITA outline numbers, EIA and IEC size codes, all from memory.
 */
class LandPatternNamesTest {
  private static final Map<String, PartType> LIBRARY = StarterLibrary.parts();
  private static final LandPatternNames INCH = StarterLibrary.names(ChipCodes.INCH);
  private static final LandPatternNames ASK = StarterLibrary.names(ChipCodes.UNKNOWN);

  private static NameMatch of(String name, String... refs) {
    return ASK.match(name, List.of(refs));
  }

  @ParameterizedTest
  @CsvSource({
    "R_0603_1608Metric, R0603",
    "Resistor_SMD:R_0603_1608Metric, R0603",
    "LED_0805_2012Metric, LED0805",
    "RESC1608X55N, R0603",
    "CAPC1005X55N, C0402",
    "RESC6332X70N, R2512",
    "SOIC-8_3.9x4.9mm_P1.27mm, SOIC-8",
    "SOIC127P600X175-8N, SOIC-8",
    "SOP65P640X120-14N, TSSOP-14",
    "SOP65P490X110-8N, MSOP-8",
    "SOT-23-5, SOT-23-5",
    "SOT23-5, SOT-23-5",
    "SOT95P280X145-5N, SOT-23-5",
    "SOT95P237X112-3N, SOT-23",
    "SOT65P210X110-6N, SOT-363",
    "SC-70-6, SOT-363",
    "SOT-323_SC-70, SOT-323",
    "LQFP-48_7x7mm_P0.5mm, LQFP-48",
    "QFP50P900X900X160-48N, LQFP-48",
    "QFP50P1600X1600X160-100N, LQFP-100",
    "TQFP-44_10x10mm_P0.8mm, LQFP-44",
    "QFN50P500X500X100-33N, QFN-32-5x5",
    "QFN-24-1EP_4x4mm_P0.5mm_EP2.6x2.6mm, QFN-24-4x4",
    "DIOM5226X240N, SMA",
    "DO-214AC, SMA",
    "D_SOD-323, SOD-323",
    "CAPMP7343X310N, CM-D",
    "CP_EIA-3528-21_Kemet-B, CM-B",
    "TO-236AB, SOT-23",
    "MS-012AA, SOIC-8",
    "1608, R0603",
    "0805, R0805",
    "RESC1005X40X25ML05T05, R0402",
    "FUSC6125X279N, F2410",
    "DIONM5226X230N, SMA",
    "SOTFL50P160X60-6N, SOT-563",
    "SODFL3516X70N, SOD-123F",
    "SODFL3618X110N, SMF",
    "SOD3716X135N, SOD-123",
    "SOT-666, SOT-563",
    "SOIC127P600X170-9N, SOIC-8-EP",
    "SOIC-8-1EP_3.9x4.9mm_P1.27mm_EP2.41x3.3mm, SOIC-8-EP",
    "HTSSOP-24-1EP_4.4x7.8mm_P0.65mm_EP3x4.7mm, HTSSOP-24",
    "QFP50P900X900X120-49N, LQFP-48-EP",
    "TSOP-II-54_10.16x22.22mm_P0.8mm, TSOP-54",
    "SSOP-16_3.9x4.9mm_P0.635mm, QSOP-16",
    "SON40P200X200X80-11N, DFN-10-2x2",
    "DHVQFN-20-1EP_2.5x4.5mm_P0.5mm_EP1x3mm, QFN-20-2.5x4.5",
    "QFN-28-1EP_4x5mm_P0.5mm_EP2.65x3.65mm, QFN-28-4x5",
    "PQFN50P300X250X97-14N, LGA-14-3x2.5",
    "TO228P991X238-3N, TO-252-2",
    "TO-252AA, TO-252-2",
    "CP_EIA-3528-12_Kemet-T, CM-B",
    "CASE-B_3528, CM-B",
    "Fuse_2920_7451Metric, F2920",
    "Fuse_2410_6127Metric, F2410",
    "D_MELF, DO-213AB",
    "SOT-143, SOT-143",
    "SOP254P1016X385-4N, SMDIP-4"
  })
  void standardNames(String name, String type) {
    NameMatch m = of(name, "R1", "R2");
    assertThat(m.type()).as(name + ": " + m.how()).isEqualTo(type);
    assertThat(m.certain()).as(name + ": " + m.how()).isTrue();
    assertThat(m.part().name()).isEqualTo(name);
    assertThat(m.part().lands()).isEqualTo(LIBRARY.get(type).lands());
  }

  /** The height in a name is the part's own; the rest is the library's. */
  @Test
  void heightsAreTakenFromTheName() {
    NameMatch m = of("CAPC1608X80N");
    assertThat(m.part().bodyHeightMm()).isCloseTo(0.8, within(1e-9));
    assertThat(m.part().envelope().zMaxMm()).isCloseTo(0.8, within(1e-9));
    assertThat(m.how()).isEqualTo("IPC-7351 name, 1.6 x 0.8 mm, height 0.8 mm as the name says");
    assertThat(of("TQFP-48_7x7mm_P0.5mm").part().bodyHeightMm()).isCloseTo(1.2, within(1e-9));
  }

  /** Never taken without a person: something is left out of the name or differs. */
  @ParameterizedTest
  @CsvSource({
    "R_0603_1608Metric_Pad0.98x0.95mm_HandSolder, R0603,"
        + " 'inch code, 1.6 x 0.8 mm; its lands are drawn longer for soldering by hand'",
    "LQFP-48_L7.0-W7.0-P0.50-LS9.0-BL, LQFP-48,"
        + " 'size in the name, though not by a standard''s naming'",
    "SOT-23-3_L2.9-W1.3-P1.90-LS2.4-BR, SOT-23,"
        + " 'the outline''s name, with sizes that are not quite the library''s'",
    "QFN-32-1EP_5x5mm_P0.5mm_EP3.45x3.45mm, QFN-32-5x5,"
        + " 'size in the name; its middle land is 3.45 mm, the library''s 3.1 mm'",
    "805, R0805, 'inch code, 2 x 1.25 mm, R by its refs; its leading zero is lost'",
    "1005, R0402, 'metric code, 1 x 0.5 mm, R by its refs; it may be 01005 that has lost its"
        + " leading zero'",
    "RESC1508X55N, R0603, 'IPC-7351 name, 1.6 x 0.8 mm; the name says 1.5 x 0.8'",
    "QFN-24_L4.0-W4.0-P0.50-BL-EP2.6, QFN-24-4x4,"
        + " 'size in the name, though not by a standard''s naming'",
    "USON-10_2.5x1.0mm_P0.5mm, DFN-10-2.5x1, size in the name; it gives the length first",
    "AB1234_SOT23-6, SOT-23-6, '''SOT23-6'' in the name is an outline''s name'",
    "D_SMA_Handsoldering, SMA, '''SMA'' in the name is an outline''s name'",
    "Crystal_2.0x1.6mm_4pin, XTAL-2016-4, size in the name; its lands differ from maker to maker",
    "CRYSTAL-SMD_4P-L3.2-W2.5-BL, XTAL-3225-4, size in the name; its lands differ from maker to"
        + " maker",
    "CAP-SMD_BD6.3-L6.6-W6.6-FD, CE-6.3x7.7,"
        + " 'size in the name; its base and lands differ from maker to maker, and the name does not"
        + " state its height'",
    "SOD-123_L2.8-W1.8-LS3.7-RD, SOD-123,"
        + " 'the outline''s name, with sizes that are not quite the library''s'",
    "SOIC-8_L5.3-W5.3-P1.27-LS8.0-BL, SOIC-8-5.3,"
        + " 'size in the name, though not by a standard''s naming'",
    "SOIC-8_L4.9-W3.9-P1.27-LS6.0-BL-EP-1, SOIC-8-EP,"
        + " 'size in the name, though not by a standard''s naming'",
    "QFN50P400X400X100-25N-D, QFN-24-4x4, IPC-7351 name; the name goes on with 'D'",
    "AB_HSOP-8-1EP_3.9x4.9mm_P1.27mm, SOIC-8-EP, size in the name; the name begins with 'AB'",
    "SSOP-8_3.9x5.05mm_P1.27mm, SOIC-8,"
        + " 'size in the name; its body is 3.9 x 5.05 mm, the library''s 3.9 x 4.9 mm'",
    "SO-20_12.8x7.5mm_P1.27mm, SOIC-20W, size in the name; it gives length and width the other way"
        + " round: look where its rotation zero is",
    "IND-SMD_L4.0-W4.0, IND-4x4, 'size in the name, though not by a standard''s naming; its lands"
        + " differ from maker to maker, and the name does not state its height'",
    "L_7.3x7.3_H3.5, IND-7x7, 'size in the name; its lands differ from maker to maker, height 3.5"
        + " mm as the name says'",
    "LED_AB1234_1615, LED-1615-4, 'size in the name; its lands differ from maker to maker, and the"
        + " name does not state its number of terminals'",
    "1%/0805, R0805," + " 'inch code, 2 x 1.25 mm, R by its refs; ''0805'' stands within the name'",
    "1608[0603], R0603,"
        + " 'inch code, 1.6 x 0.8 mm, R by its refs; the size stands within the name'",
    "R_Array_Concave_4x0603, RA-4x0603,"
        + " 'size in the name; its code is read as inch, its ends are concave, the library''s"
        + " convex'",
    "R_Array_Convex_2x0603, RA-2x0603, size in the name; its code is read as inch",
    "CP_Elec_6.3x9.9, CE-6.3x7.7,"
        + " 'size in the name; its base and lands differ from maker to maker, height 9.9 mm as the"
        + " name says'"
  })
  void likelyNames(String name, String type, String how) {
    NameMatch m = of(name, "R1");
    assertThat(m.level()).as(name).isEqualTo(Level.LIKELY);
    assertThat(m.type()).isEqualTo(type);
    assertThat(m.how()).isEqualTo(how);
  }

  /** What a ref's letter adds: inductors by their maker's number, crystals by a chip's code. */
  @Test
  void lettersOfRefsTell() {
    NameMatch inductor = of("AB4018T3R3M", "L1", "L2");
    assertThat(inductor.level()).isEqualTo(Level.LIKELY);
    assertThat(inductor.type()).isEqualTo("IND-4x4");
    assertThat(inductor.part().bodyHeightMm()).isCloseTo(1.8, within(1e-9));
    assertThat(inductor.how())
        .isEqualTo(
            "size in the name; the number in 'AB4018T3R3M' seems to say so; its lands differ from"
                + " maker to maker, height 1.8 mm as the name says");
    NameMatch moulded = of("AB252012A", "L1");
    assertThat(moulded.type()).isEqualTo("L1008");
    assertThat(moulded.part().bodyHeightMm()).isCloseTo(1.2, within(1e-9));
    // two like halves count in hundredths of an inch with some; under U it is no inductor at all
    assertThat(of("AB4040", "L1").level()).isEqualTo(Level.NONE);
    assertThat(of("AB4018T3R3M", "U1").level()).isEqualTo(Level.NONE);
    assertThat(of("SMD3225-4P", "Y1").type()).isEqualTo("XTAL-3225-4");
    assertThat(of("SMD3225-4P", "U1").how())
        .isEqualTo("it is as large as a chip, but has more than two ends");
    // a resistor network under a bare code is not taken for one resistor without being asked for
    assertThat(INCH.match("0603", List.of("RN1")).certain()).isFalse();
    assertThat(INCH.match("1%/0603", List.of("U1")).level()).isEqualTo(Level.NONE);
  }

  /** Why nothing is matched, as a person reads it. */
  @ParameterizedTest
  @CsvSource({
    "DIOAD1300W80L670D310,"
        + " 'its leads go through holes, the library''s parts are surface-mounted'",
    "PinHeader_1x02_P2.54mm_Vertical,"
        + " 'its leads go through holes, the library''s parts are surface-mounted'",
    "QFN-56,"
        + " 'the name does not state its size; with as many terminations the library has"
        + " QFN-56-7x7, QFN-56-8x8'",
    "LED_RGB_1210, the name states no standard land pattern",
    "Crystal_SMD_9.6x4.1mm_4Pin, the library has no crystal with 4 terminations of 9.6 x 4.1 mm",
    "CP_Elec_7x7, the library has no aluminium capacitor of 7 mm",
    "'QFN-48-1EP_5x5mm_P0.35mm_EP3.7x3.7mm',"
        + " 'the library has no QFN-48 of 5 x 5 mm, pitch 0.35 mm'"
  })
  void reasons(String name, String how) {
    NameMatch m = INCH.match(name, List.of("D1"));
    assertThat(m.level()).as(name + " " + m.type()).isEqualTo(Level.NONE);
    assertThat(m.how()).isEqualTo(how);
  }

  /** Codes that exist in both units are asked about, whatever stands in front of them. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "0402", "0603", "0201", "R0603", "C_0402", "402", "603", "CAP0402", "RC0402N", "1%/0402"
      })
  void codesInTwoUnits(String name) {
    NameMatch m = of(name, "R1", "R2");
    assertThat(m.level()).as(name).isEqualTo(Level.TWO_WAYS);
    assertThat(m.part()).isNull();
    assertThat(m.candidates()).hasSize(2);
  }

  @Test
  void codesOnceTheUnitIsSaid() {
    assertThat(of("0603", "C1", "C2").candidates())
        .containsExactly("inch: 1.6 x 0.8 mm (C0603)", "metric: 0.6 x 0.3 mm (C0201)");
    assertThat(INCH.match("0603", List.of("C1", "C2")).type()).isEqualTo("C0603");
    NameMatch metric = StarterLibrary.names(ChipCodes.METRIC).match("0603", List.of("C1"));
    assertThat(metric.type()).isEqualTo("C0201");
    assertThat(metric.certain()).isTrue();
    // resistors and capacitors under one code: the taller one, to be agreed to
    NameMatch both = INCH.match("0603", List.of("C1", "R1"));
    assertThat(both.level()).isEqualTo(Level.LIKELY);
    assertThat(both.how())
        .isEqualTo(
            "inch code, 1.6 x 0.8 mm, under refs of C and R alike, the tallest of the"
                + " library's 2 of that size");
    // a name that states both units needs no answer; one that contradicts itself means nothing
    assertThat(of("R_0603_1608Metric").certain()).isTrue();
    assertThat(of("R_0603_1005Metric").level()).isEqualTo(Level.NONE);
  }

  /** What only resembles a type of the library is not taken for it. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "SSOP-16_L4.6-W2.6-P0.53-LS4.0-BL",
        "SOIC-14-1EP_3.9x8.7mm_P1.27mm_EP2.29x3mm",
        "SOIC-8_3.9x4.9mm_P0.65mm",
        "SOIC-12_3.9x4.9mm_P1.0mm",
        "LQFP-48_9x9mm_P0.5mm",
        "QFN-24_4x4mm_P0.5mm",
        "RESC1632X60N",
        "PinHeader_1x02_P2.54mm_Vertical",
        "L_CommonMode_4.0x4.0",
        "Regulator_0603",
        "X0603Y",
        "C_Disc_D3.0mm_W1.6mm_P2.50mm",
        "SMA_Edge_Plug",
        "SOT-23_to_SOIC-8_adapter",
        "Power_SO-8",
        "0603-BALUN",
        "R_0603_x4_ARRAY",
        ""
      })
  void noMatch(String name) {
    NameMatch m = INCH.match(name, List.of("U1"));
    assertThat(m.level()).as(name + " " + m.type()).isEqualTo(Level.NONE);
    assertThat(m.how()).isNotBlank();
  }

  /** Every type of the library is found by its own name, every alias leads to its own type. */
  @Test
  void theLibraryFindsItself() {
    LIBRARY
        .keySet()
        .forEach(
            n -> {
              NameMatch m = INCH.match(n, List.of());
              assertThat(m.type()).as(n + ": " + m.how()).isEqualTo(n);
              assertThat(m.certain()).as(n).isTrue();
            });
    StarterLibrary.aliases()
        .forEach(
            (alias, type) -> {
              assertThat(LIBRARY).as(alias).containsKey(type);
              assertThat(INCH.match(alias, List.of()).type()).as(alias).isEqualTo(type);
            });
  }
}
