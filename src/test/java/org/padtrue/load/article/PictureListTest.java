package org.padtrue.load.article;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.problem.InputException;
import org.padtrue.problem.WithProblems;

/** Lists that say which close-up shows which placement. */
class PictureListTest {
  @TempDir Path dir;

  @Test
  void readsFilesBesideTheList() throws Exception {
    Path list = dir.resolve("shots.csv");
    Files.writeString(
        list,
        """
        file,panel,column,row,ref,x,y
        a/1.png,P2,2,1,R7,12.5,3.25
        2.png,,,,U1,,
        """);
    List<PictureList.Entry> e = PictureList.load(list).orThrow();
    assertThat(e).hasSize(2);
    assertThat(e.get(0))
        .isEqualTo(new PictureList.Entry(dir.resolve("a/1.png"), "P2", 2, 1, "R7", 12.5, 3.25));
    assertThat(e.get(1))
        .isEqualTo(
            new PictureList.Entry(dir.resolve("2.png"), "P1", 1, 1, "U1", Double.NaN, Double.NaN));
  }

  @Test
  void aListWithoutPicturesAndAPlaceWithoutYAreProblems() throws Exception {
    Path list = Files.writeString(dir.resolve("shots.csv"), "file,ref\n");
    assertThatThrownBy(() -> PictureList.load(list))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("shots.csv: the list names no picture; give one row per picture");
    Files.writeString(list, "file,ref,x\n1.png,R1,2.5\n2.png,R2,\n");
    WithProblems<List<PictureList.Entry>> r = PictureList.load(list);
    assertThat(r.value()).hasSize(1);
    assertThat(r.problems())
        .singleElement()
        .satisfies(
            p ->
                assertThat(p.sentence())
                    .endsWith(
                        "shots.csv, line 2, column x: one coordinate says no place; give both x and"
                            + " y, or neither"));
  }

  @Test
  void saysWhichCellIsWrong() throws Exception {
    Path list = dir.resolve("shots.csv");
    Files.writeString(list, "file,ref\n,R1\n2.png,R2\n");
    WithProblems<List<PictureList.Entry>> r = PictureList.load(list);
    assertThat(r.value()).hasSize(1);
    assertThat(r.problems().get(0).sentence())
        .contains("shots.csv", "line 2", "the cell is empty; name the picture or remove the row");
  }
}
