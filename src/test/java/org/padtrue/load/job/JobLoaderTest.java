package org.padtrue.load.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.Measured;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Side;
import org.padtrue.panel.Stage;
import org.padtrue.panel.Tolerance;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.article.Article;
import org.padtrue.panel.article.MeasuredFiducial;
import org.padtrue.problem.WithProblems;

/** Whole jobs that are right, every key used once. */
class JobLoaderTest {
  @TempDir Path temp;
  private Folder folder;

  private static final String PLACEMENTS =
      """
      ref,part,x,y,rotation,nozzle,feeder,head,order
      R1,R0603,10,5,90,N1,F1,1,1
      C1,C0402,20,5.5,0,N2,F2,,2
      U1,QFN16,15,12,180,,,,
      """;

  @BeforeEach
  void setUp() {
    folder = new Folder(temp);
    folder.write("placements.csv", PLACEMENTS);
  }

  @Test
  void readsEveryKey() {
    folder.write(
        "parts.json",
        """
        {"parts": [{"name": "R0603", "kind": "chip", "symmetry": 2, "selfCentres": true,
          "body": {"length": 1.6, "width": 0.8, "height": 0.45},
          "terminations": [{"x": -0.65, "y": 0, "length": 0.3, "width": 0.8}],
          "lands": [{"x": -0.75, "y": 0, "length": 0.9, "width": 0.9}],
          "envelope": {"length": 1.7, "width": 0.9, "zMin": 0, "zMax": 0.5},
          "tolerance": {"x": 0.2, "y": 0.15, "rotation": 5}}]}
        """);
    Path jobFile =
        folder.write(
            "job.json",
            """
            {
              "name": "Lamp", "units": "mm", "side": "top", "stage": "tape",
              "placements": "placements.csv", "parts": "parts.json",
              "columns": {"ref": "ref"},
              "axes": {"y": "up", "rotation": "counterclockwise", "bottomX": "asSeenFromTop"},
              "panel": {
                "columns": 3, "rows": 2,
                "boards": [{"column": 1, "row": 1, "x": 1, "y": 2},
                           {"column": 1, "row": 2, "x": 1, "y": 44},
                           {"column": 3, "row": 2, "x": 97, "y": 44, "turned": 0}],
                "skip": [[2, 1]],
                "fiducials": [{"name": "F1", "x": -4.0, "y": 3.0, "diameter": 1.0},
                              {"name": "B1", "x": 2, "y": 3, "scope": "board"}]
              },
              "acceptanceClass": 3,
              "machine": {"resolution": 0.01, "rotationResolution": 0.1,
                "panelRepeatability": {"x": 0.01, "y": 0.02, "rotation": 0.03},
                "accepts": ["registration", "rotationZero"]},
              "measurement": {"reference": "lands", "uncertainty": 0.008,
                "rotationUncertainty": 0.1, "bias": 0.02}
            }
            """);
    Job job = JobLoader.load(jobFile).orThrow();
    assertThat(job.name()).isEqualTo("Lamp");
    assertThat(job.side()).isEqualTo(Side.TOP);
    assertThat(job.stage()).isEqualTo(Stage.TAPE);
    assertThat(job.acceptanceClass()).isEqualTo(3);
    assertThat(job.placements()).hasSize(3);
    assertThat(job.placements().get(0).pose()).isEqualTo(new Pose(10, 5, 90));
    assertThat(job.placements().get(0).levels().get(Factor.NOZZLE)).isEqualTo("N1");
    assertThat(job.placements().get(0).order()).isEqualTo(1);
    assertThat(job.placements().get(1).levels().get(Factor.HEAD)).isNull();
    assertThat(job.placements().get(2).line()).isEqualTo(4);
    assertThat(job.parts())
        .containsOnly(
            java.util.Map.entry(
                "R0603",
                new PartType(
                    "R0603",
                    JointKind.CHIP,
                    2,
                    true,
                    new Rect(0, 0, 1.6, 0.8),
                    0.45,
                    List.of(new Rect(-0.65, 0, 0.3, 0.8)),
                    List.of(new Rect(-0.75, 0, 0.9, 0.9)),
                    new org.padtrue.panel.Envelope(1.7, 0.9, 0, 0.5),
                    new Tolerance(0.2, 0.15, 5))));
    assertThat(job.array().columns()).isEqualTo(3);
    assertThat(job.array().skipped()).containsExactly(new BoardIndex(2, 1));
    assertThat(job.array().boards()).hasSize(5);
    Board b = job.array().find(new BoardIndex(3, 1)).orElseThrow();
    assertThat(b.origin().xMm()).isEqualTo(97);
    assertThat(b.origin().yMm()).isEqualTo(2);
    assertThat(b.listed()).isFalse();
    assertThat(job.array().tilingResidualMm()).isNaN();
    assertThat(job.fiducials())
        .containsExactly(
            new Fiducial("F1", -4, 3, 1, Fiducial.Scope.PANEL),
            new Fiducial("B1", 2, 3, Double.NaN, Fiducial.Scope.BOARD));
    assertThat(job.machine().resolutionMm()).isEqualTo(0.01);
    assertThat(job.machine().repeatabilityRotationDeg()).isEqualTo(0.03);
    assertThat(job.machine().accepts())
        .isEqualTo(Set.of(TrimKind.REGISTRATION, TrimKind.ROTATION_ZERO));
    assertThat(job.measurement().reference()).isEqualTo(Reference.LANDS);
    assertThat(job.measurement().biasMm()).isEqualTo(0.02);
    assertThat(job.notes())
        .containsExactly(
            temp.resolve("parts.json")
                + " does not describe 2 part types (C0402, QFN16); they are not judged.");
  }

  @Test
  void takesTheContractsDefaults() {
    Path jobFile = folder.write("lamp.json", "{\"placements\": \"placements.csv\"}");
    Job job = JobLoader.load(jobFile).orThrow();
    assertThat(job.name()).isEqualTo("lamp");
    assertThat(job.side()).isEqualTo(Side.TOP);
    assertThat(job.stage()).isEqualTo(Stage.PASTE);
    assertThat(job.acceptanceClass()).isEqualTo(2);
    assertThat(job.measurement().reference()).isEqualTo(Reference.FIDUCIALS);
    assertThat(job.machine().resolutionMm()).isEqualTo(0.001);
    assertThat(job.machine().rotationResolutionDeg()).isEqualTo(0.01);
    assertThat(job.machine().accepts()).hasSize(TrimKind.values().length);
    assertThat(job.array().boards()).hasSize(1);
    assertThat(job.array().boards().get(0).origin()).isEqualTo(new Pose(0, 0, 0));
    assertThat(job.notes())
        .containsExactly(
            temp.resolve("placements.csv")
                + " states no unit; millimetres were taken, as its extents suggest.");
  }

  @Test
  void readsPosesAndFiducials() {
    Path jobFile =
        folder.write(
            "job.json",
            """
            {"placements": "placements.csv", "panel": {"columns": 2, "rows": 1,
              "boards": [{"column": 1, "row": 1, "x": 0, "y": 0},
                         {"column": 2, "row": 1, "x": 60, "y": 40, "turned": 180}],
              "fiducials": [{"name": "F1", "x": 5, "y": 5},
                            {"name": "B1", "x": 2, "y": 3, "scope": "board"}]}}
            """);
    LoadedJob job = JobLoader.loadWithFile(jobFile).orThrow();
    Path file =
        folder.write(
            "article.csv",
            """
            # temperature = 27.5
            column,row,ref,x,y,rotation,u,nozzle,note
            1,1,R1,10.02,4.99,91,,N9,fine
            2,1,R1,50.01,35.03,-89.5,0.01,,
            2,1,C1,40,34.5,,,,
            ,,F1,5.1,5.2,,,,
            2,1,B1,58.1,37,,,,
            """);
    WithProblems<Article> read = ArticleLoader.load(file, job);
    Article a = read.orThrow();
    assertThat(a.file()).isEqualTo("article.csv");
    assertThat(a.poses()).isTrue();
    assertThat(a.partsRegistered()).isFalse();
    assertThat(a.temperatureC()).hasValue(27.5);
    Measured first = a.measured().get(0);
    assertThat(first.panel()).isEqualTo("P1");
    assertThat(first.dxMm()).isCloseTo(0.02, org.assertj.core.data.Offset.offset(1e-12));
    assertThat(first.dyMm()).isCloseTo(-0.01, org.assertj.core.data.Offset.offset(1e-12));
    assertThat(first.dRotationDeg()).isEqualTo(1);
    assertThat(first.levels().get(Factor.NOZZLE)).isEqualTo("N9");
    assertThat(first.levels().get(Factor.FEEDER)).isEqualTo("F1");
    assertThat(first.order()).isEqualTo(1);
    assertThat(first.note()).isEqualTo("fine");
    Measured turned = a.measured().get(1);
    assertThat(turned.nominal()).isEqualTo(new Pose(50, 35, -90));
    assertThat(turned.dRotationDeg()).isEqualTo(0.5);
    assertThat(turned.uMm()).isEqualTo(0.01);
    assertThat(turned.levels().get(Factor.NOZZLE)).isEqualTo("N1");
    assertThat(a.measured().get(2).dRotationDeg()).isNaN();
    MeasuredFiducial f = a.fiducials().get(0);
    assertThat(f.board()).isEqualTo(BoardIndex.ONE);
    assertThat(f.dyMm()).isCloseTo(0.2, org.assertj.core.data.Offset.offset(1e-12));
    MeasuredFiducial b = a.fiducials().get(1);
    assertThat(b.board()).isEqualTo(new BoardIndex(2, 1));
    assertThat(b.nominalXMm()).isEqualTo(58);
    assertThat(b.nominalYMm()).isEqualTo(37);
  }
}
