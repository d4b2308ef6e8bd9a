package org.padtrue.gauge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.padtrue.panel.Job;
import org.padtrue.plan.MeasuringPlanJobs;
import org.padtrue.problem.InputException;

class GaugeFormTest {
  private static final List<String> REFS = List.of("R1", "R2", "C3", "U4");

  @Test
  void everyOperatorReadsEveryPlacementInEveryTrialOnce() {
    List<String> lines = GaugeForm.lines(REFS, List.of("Ann", "Bob"), 3);
    List<String> rows = lines.stream().filter(l -> !l.startsWith("#")).toList();
    assertThat(rows.get(0)).isEqualTo("session,ref,operator,trial,turned,dx,dy,drotation");
    assertThat(rows).hasSize(1 + 4 * 2 * 3);
    Set<String> seen = new HashSet<>();
    Map<String, List<String>> orders = new LinkedHashMap<>();
    for (String row : rows.subList(1, rows.size())) {
      String[] c = row.split(",", -1);
      assertThat(c).hasSize(8);
      assertThat(seen.add(c[1] + c[2] + c[3])).isTrue();
      assertThat(c[4]).isEqualTo(c[3].equals("2") ? "180" : "0");
      assertThat(c[5] + c[6] + c[7]).isEmpty();
      orders.computeIfAbsent(c[0], k -> new ArrayList<>()).add(c[1]);
    }
    assertThat(orders).hasSize(6);
    assertThat(new HashSet<>(orders.values())).hasSizeGreaterThan(2);
  }

  /** Two unturned sessions, so that registering anew shows, and one turned, so that bias shows. */
  @Test
  void twoTrialsGetAThirdThatIsTurned() {
    List<String> rows =
        GaugeForm.lines(REFS, List.of("A"), 2).stream().filter(l -> l.contains(",A,")).toList();
    assertThat(rows).hasSize(12);
    assertThat(rows).filteredOn(l -> l.contains(",3,180,")).hasSize(4);
    assertThat(rows).filteredOn(l -> l.contains(",1,0,") || l.contains(",2,0,")).hasSize(8);
  }

  @Test
  void theOrderIsTheSameEveryTime() {
    assertThat(GaugeForm.lines(REFS, List.of("A", "B"), 2))
        .isEqualTo(GaugeForm.lines(REFS, List.of("A", "B"), 2));
  }

  @Test
  void asksToRegisterAnewAndToTurnThePanel() {
    String text = String.join("\n", GaugeForm.lines(REFS, List.of("A"), 2));
    assertThat(text).contains("register it anew").contains("turned by 180 degrees");
  }

  @Test
  void namesWithCommasAreQuoted() {
    assertThat(GaugeForm.lines(List.of("R1,a", "R\"2"), List.of("A"), 2))
        .anyMatch(l -> l.contains(",\"R1,a\",A,"))
        .anyMatch(l -> l.contains(",\"R\"\"2\",A,"));
  }

  @Test
  void askingForNothingIsAnInputProblem() {
    assertThatThrownBy(() -> GaugeForm.lines(List.of(), List.of("A", "A"), 1))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("no placement is given to read; name each placement to read once")
        .hasMessageContaining("an operator is given twice; name each operator once")
        .hasMessageContaining("the number of trials is 1; give 2 trials or more");
  }

  /** Ten types on a 3 x 2 panel: each is in the form, on several boards, at several rotations. */
  @Test
  void theFormSpansAllPartTypesAndSaysWhatIsLeftOut() {
    Job job = MeasuringPlanJobs.threeByTwo();
    GaugePlacements ten = GaugePlacements.of(job, null);
    assertThat(ten.refs()).hasSize(10).doesNotHaveDuplicates();
    assertThat(ten.refs().stream().map(GaugeFormTest::type)).doesNotHaveDuplicates();
    assertThat(ten.refs().stream().map(r -> r.substring(0, 3)).distinct())
        .hasSizeGreaterThanOrEqualTo(5);
    assertThat(ten.sentence()).isEqualTo("10 placements span all 10 part types of the job.");
    GaugePlacements few = GaugePlacements.of(job, 4);
    assertThat(few.refs()).hasSize(4);
    assertThat(few.sentence())
        .startsWith("4 placements span 4 of 10 part types; left out for want of rows: TYPE");
    GaugePlacements many = GaugePlacements.of(job, 25);
    assertThat(many.refs()).hasSize(25).doesNotHaveDuplicates();
    assertThat(many.refs().stream().map(GaugeFormTest::type).distinct()).hasSize(10);
    assertThat(GaugeForm.lines(ten.refs(), List.of("A"), 2, List.of(ten.sentence())))
        .contains(
            "# 10 placements span all 10 part types of the job.",
            "# dx, dy (mm), drotation (degrees): measured minus nominal, plus = right, up,"
                + " counter-clockwise as placed; leave drotation empty if not read.");
    assertThatThrownBy(() -> GaugePlacements.of(job, 0)).isInstanceOf(InputException.class);
  }

  /** 1/1/T3_5 is of type 3. */
  private static String type(String id) {
    return id.substring(id.lastIndexOf('/') + 1, id.indexOf('_'));
  }
}
