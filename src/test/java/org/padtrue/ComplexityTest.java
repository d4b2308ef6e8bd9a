package org.padtrue;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.source.tree.BinaryTree;
import com.sun.source.tree.CaseTree;
import com.sun.source.tree.CatchTree;
import com.sun.source.tree.ClassTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.ConditionalExpressionTree;
import com.sun.source.tree.DoWhileLoopTree;
import com.sun.source.tree.EnhancedForLoopTree;
import com.sun.source.tree.ForLoopTree;
import com.sun.source.tree.IfTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.WhileLoopTree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreeScanner;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;

/**
 * Cyclomatic complexity (McCabe, IEEE Transactions on Software Engineering 2, 1976: decisions and
 * one) of every method: at most {@value #MOST}, lambdas counted with their method, each operand of
 * {@code &&} and {@code ||} and each {@code case} a decision. Those above it are listed by why they
 * are in one piece, and may not grow.
 */
class ComplexityTest {
  private static final int MOST = 15;
  private static final Path MAIN = Path.of("src/main/java/org/padtrue");

  /** One pass over numbers or pixels, whose parts share too much to be handed round. */
  private static final Map<String, Integer> KERNELS =
      Map.ofEntries(
          Map.entry("MixedSystem.inverse", 19),
          Map.entry("MixedSystem.information", 19),
          Map.entry("MixedSystem.<init>", 17),
          Map.entry("RotationModel.fit", 19),
          Map.entry("RotationWeights.run", 16),
          Map.entry("OffsetModel.run", 16),
          Map.entry("OutlineFit.solve", 19),
          Map.entry("OutlineFit.groundStep", 17),
          Map.entry("ImageFit.step", 17),
          Map.entry("EdgePixels.claim", 18),
          Map.entry("BareLands.edges", 18),
          Map.entry("Outline.addVisible", 16),
          Map.entry("MapSearch.consider", 16),
          Map.entry("PoseReader.trial", 16),
          Map.entry("TaughtReader.read", 19),
          Map.entry("RobustLevels.refine", 16),
          Map.entry("RotationScreening.learn", 19),
          Map.entry("CauseSearch.stepped", 18),
          Map.entry("EnoughTerms.axis", 16),
          Map.entry("LevelDifferences.of", 16),
          Map.entry("NumberReader.digits", 18));

  /** One branch for each kind of thing that is read or named, in a row. */
  private static final Map<String, Integer> LISTS =
      Map.ofEntries(
          Map.entry("LandPatternNames.layout", 31),
          Map.entry("LandPatternNames.piece", 18),
          Map.entry("LandPatternNames.bySize", 18),
          Map.entry("NameReader.sized", 20),
          Map.entry("MistakeWords.reading", 23),
          Map.entry("KeyWords.kind", 17),
          Map.entry("IpcBoard.part", 20),
          Map.entry("IpcBoard.marks", 16),
          Map.entry("Ipc2581Reader.pad", 16),
          Map.entry("GaugeRepeatsReader.row", 19),
          Map.entry("ArticleRowReader.row", 17),
          Map.entry("PlainColumns.row", 16),
          Map.entry("ArticleMode.settle", 19),
          Map.entry("PictureHeader.of", 18),
          Map.entry("PanelUnits.check", 16),
          Map.entry("TeachText.read", 17),
          Map.entry("DetectCommand.options", 16));

  /** Decisions with their sentences, which lean on each other's order. */
  private static final Map<String, Integer> DECISIONS =
      Map.of("Decisions.array", 19, "Decisions.shift", 18, "Decisions.decide", 18);

  @Test
  void methodsAreShortOrSaidToBeInOnePiece() throws IOException {
    Map<String, Integer> all = measured();
    Map<String, Integer> above = new TreeMap<>(all);
    above.values().removeIf(n -> n <= MOST);
    Map<String, Integer> said = new TreeMap<>(KERNELS);
    said.putAll(LISTS);
    said.putAll(DECISIONS);

    assertThat(all).hasSizeGreaterThan(3000);
    assertThat(above).isEqualTo(said);
  }

  /** The most of the methods of one name, by class and name. */
  private static Map<String, Integer> measured() throws IOException {
    List<Path> files;
    try (Stream<Path> all = Files.walk(MAIN)) {
      files = all.filter(f -> f.toString().endsWith(".java")).toList();
    }
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    Map<String, Integer> found = new TreeMap<>();
    try (StandardJavaFileManager manager = compiler.getStandardFileManager(null, null, null)) {
      JavacTask task =
          (JavacTask)
              compiler.getTask(
                  null,
                  manager,
                  null,
                  List.of("-proc:none"),
                  null,
                  manager.getJavaFileObjectsFromPaths(files));
      for (CompilationUnitTree u : task.parse()) {
        String name = Path.of(u.getSourceFile().getName()).getFileName().toString();
        String type = name.replace(".java", "");
        new TreeScanner<Void, Void>() {
          @Override
          public Void visitMethod(MethodTree m, Void v) {
            Counter c = new Counter();
            c.scan(m.getBody(), null);
            found.merge(type + "." + m.getName(), c.n, Math::max);
            return super.visitMethod(m, v);
          }
        }.scan(u, null);
      }
    }
    return found;
  }

  /** Counts the decisions of a body; classes within it are counted by themselves. */
  private static final class Counter extends TreeScanner<Void, Void> {
    private int n = 1;

    @Override
    public Void visitIf(IfTree t, Void v) {
      n++;
      return super.visitIf(t, v);
    }

    @Override
    public Void visitForLoop(ForLoopTree t, Void v) {
      n++;
      return super.visitForLoop(t, v);
    }

    @Override
    public Void visitEnhancedForLoop(EnhancedForLoopTree t, Void v) {
      n++;
      return super.visitEnhancedForLoop(t, v);
    }

    @Override
    public Void visitWhileLoop(WhileLoopTree t, Void v) {
      n++;
      return super.visitWhileLoop(t, v);
    }

    @Override
    public Void visitDoWhileLoop(DoWhileLoopTree t, Void v) {
      n++;
      return super.visitDoWhileLoop(t, v);
    }

    @Override
    public Void visitCase(CaseTree t, Void v) {
      n += t.getExpressions().isEmpty() ? 0 : 1;
      return super.visitCase(t, v);
    }

    @Override
    public Void visitCatch(CatchTree t, Void v) {
      n++;
      return super.visitCatch(t, v);
    }

    @Override
    public Void visitConditionalExpression(ConditionalExpressionTree t, Void v) {
      n++;
      return super.visitConditionalExpression(t, v);
    }

    @Override
    public Void visitBinary(BinaryTree t, Void v) {
      boolean decides =
          t.getKind() == Tree.Kind.CONDITIONAL_AND || t.getKind() == Tree.Kind.CONDITIONAL_OR;
      n += decides ? 1 : 0;
      return super.visitBinary(t, v);
    }

    @Override
    public Void visitClass(ClassTree t, Void v) {
      return null;
    }
  }
}
