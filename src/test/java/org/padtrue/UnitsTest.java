package org.padtrue;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.source.doctree.DocCommentTree;
import com.sun.source.doctree.DocTree;
import com.sun.source.doctree.ParamTree;
import com.sun.source.doctree.ReturnTree;
import com.sun.source.tree.ClassTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.DocTrees;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreePath;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.lang.model.element.Modifier;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;

/**
 * Every documented double of the public API states its unit or says that it is a pure number: in
 * its own text, in the ending of its name, or in a sentence of the method's or class's comment that
 * speaks for all. {@code -Dpadtrue.units=true} lists those that do not.
 */
class UnitsTest {
  private static final Path MAIN = Path.of("src/main/java");
  private static final double LEAST = 0.95;

  private static final String UNIT =
      "mm2?|[uµ]m|deg(?:\\^2)?|degrees?(?! of"
          + " freedom)|radians?|mrad|px|pixels?|ppm|days?|minutes?|hours?|seconds|ms|percent|kelvin|grey"
          + " levels?|articles until|points until";

  /** A unit that is another's: the series', the response's, the caller's. */
  private static final String BORROWED =
      "(?:in|per|same|own|whose) (?:(?:the|one|its|their|whatever) )?(?:own )?units?|units? of"
          + "|unit (?:normal|vector)|\\{@code unit\\}";

  private static final String PURE =
      "probabilit(?:y|ies)|chances?|(?:a|the|this|same|largest) share|shares?(?= of|"
          + " that|,)|ratios?|fractions?|[pztF][ -]values?|(?<!of a )(?<!by )(?<!their )(?<!each"
          + " )factors?(?! has| of the)|quantiles? of|number of(?! a )|how many|expected"
          + " number|whole number|pure|normal numbers|(?<!without )(?<!residual )(?<!these )degrees"
          + " of freedom|correlations?|(?:in|/) sigma|log sigma|confidence level|(?<!for )(?<!of"
          + " )(?<!the )weights?|exponents?|cosines?|sines?|log[ -]likelihood|(?:0|-1)"
          + " (?:to|or|and) 1|in standard (?:errors|deviations)|relative|no"
          + " unit|C_?pk?|ordinal|index";

  private static final Pattern SAYS =
      Pattern.compile(
          "(?i)(?<![\\w-])(?:"
              + UNIT
              + "|"
              + BORROWED
              + "|"
              + PURE
              + ")(?!\\w)|(?<!95 )(?<!0[.]5 )%|^P\\(");

  /** The ending of a name that is a unit or a kind of pure number. */
  private static final Pattern NAMED =
      Pattern.compile(
          ".*(?:Mm|Deg|Um|Ppm|PpmPerK|Mrad|Px|Days|Rad|Minutes|Percent)|mm|deg|px|ppm|days|minutes"
              + "|(?:.*[a-z])?(?:[pP]robability|[sS]hare|[rR]atio|[fF]raction|[cC]onfidence|[cC]overage"
              + "|[wW]eights?|[dD]egreesOfFreedom)");

  /** A sentence of the class's or method's comment that holds for all doubles in it. */
  private static final Pattern FOR_ALL =
      Pattern.compile(
          "(?i)\\b(?:"
              + UNIT
              + "|pure numbers?)\\b[^.;]*\\bthroughout\\b"
              + "|\\b(?:lengths?|angles?|positions?|deviations?|offsets?|variances|coordinates|distances|sizes|values|all|times|lags)(?:"
              + " and [a-z]+)?,? (?:(?:is|are|all|in|the|panel|picture) )*(?:"
              + UNIT
              + "|pure numbers?)\\b|\\b(?:in|have|has) (?:the|any|its|their) (?:own )?(?:squared"
              + " )?units? of\\b|\\bpure numbers\\b");

  private record Found(String room, String where, boolean stated) {}

  private static final class Reader {
    private final DocTrees docs;
    private final CompilationUnitTree unit;
    private final List<Found> found;
    private final String room;

    Reader(DocTrees docs, CompilationUnitTree unit, List<Found> found) {
      this.docs = docs;
      this.unit = unit;
      this.found = found;
      this.room = unit.getPackageName().toString().replaceFirst("^org\\.padtrue\\.?", "");
    }

    void type(TreePath path, boolean inInterface, String forAll) {
      ClassTree type = (ClassTree) path.getLeaf();
      if (!inInterface && !type.getModifiers().getFlags().contains(Modifier.PUBLIC)) {
        return;
      }
      DocCommentTree doc = docs.getDocCommentTree(path);
      String speaks = forAll + (doc == null ? "" : text(doc.getFullBody()));
      String name = type.getSimpleName().toString();
      if (type.getKind() == Tree.Kind.RECORD && doc != null) {
        for (Tree member : type.getMembers()) {
          if (member instanceof VariableTree v
              && !v.getModifiers().getFlags().contains(Modifier.STATIC)) {
            parameter(v, doc, speaks, name);
          }
        }
      }
      boolean isInterface = type.getKind() == Tree.Kind.INTERFACE;
      for (Tree member : type.getMembers()) {
        TreePath to = new TreePath(path, member);
        if (member instanceof ClassTree) {
          type(to, isInterface, speaks);
        } else if (member instanceof MethodTree m
            && (isInterface || m.getModifiers().getFlags().contains(Modifier.PUBLIC))) {
          method(m, docs.getDocCommentTree(to), speaks, name);
        }
      }
    }

    private void method(MethodTree m, DocCommentTree doc, String speaks, String type) {
      if (doc == null) {
        return;
      }
      String where = type + "." + m.getName();
      String all = speaks + " " + text(doc.getFullBody());
      for (VariableTree v : m.getParameters()) {
        parameter(v, doc, all, where);
      }
      if (m.getReturnType() != null && isDouble(m.getReturnType())) {
        String own =
            text(doc.getFirstSentence())
                + doc.getBlockTags().stream()
                    .filter(ReturnTree.class::isInstance)
                    .map(Object::toString)
                    .collect(Collectors.joining(" "));
        add(where + " returns", m.getName().toString(), own, all);
      }
    }

    private void parameter(VariableTree v, DocCommentTree doc, String speaks, String where) {
      String name = v.getName().toString();
      if (!isDouble(v.getType())) {
        return;
      }
      doc.getBlockTags().stream()
          .filter(ParamTree.class::isInstance)
          .map(ParamTree.class::cast)
          .filter(p -> p.getName().getName().contentEquals(name))
          .findFirst()
          .ifPresent(p -> add(where + " " + name, name, text(p.getDescription()), speaks));
    }

    private void add(String where, String name, String own, String speaks) {
      boolean stated =
          SAYS.matcher(flat(own)).find()
              || NAMED.matcher(name).matches()
              || FOR_ALL.matcher(flat(speaks)).find();
      found.add(new Found(room, where, stated));
    }

    private static boolean isDouble(Tree type) {
      String bare = type.toString().replaceAll("@\\w+(?:\\(\\))?\\s*", "").strip();
      return bare.matches("(?:double|Double)(?:\\[\\]|\\.\\.\\.)*");
    }

    private static String flat(String text) {
      return text.replaceAll("\\s+", " ");
    }

    private static String text(List<? extends DocTree> parts) {
      return parts.stream().map(Object::toString).collect(Collectors.joining(" ")) + " ";
    }
  }

  private static List<Found> read() throws IOException {
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    List<File> files;
    try (Stream<Path> all = Files.walk(MAIN)) {
      files = all.filter(f -> f.toString().endsWith(".java")).map(Path::toFile).sorted().toList();
    }
    List<Found> found = new ArrayList<>();
    try (StandardJavaFileManager manager = compiler.getStandardFileManager(null, null, null)) {
      JavacTask task =
          (JavacTask)
              compiler.getTask(
                  null,
                  manager,
                  d -> {},
                  List.of("-proc:none"),
                  null,
                  manager.getJavaFileObjectsFromFiles(files));
      DocTrees docs = DocTrees.instance(task);
      for (CompilationUnitTree unit : task.parse()) {
        Reader reader = new Reader(docs, unit, found);
        for (Tree type : unit.getTypeDecls()) {
          if (type instanceof ClassTree) {
            reader.type(new TreePath(new TreePath(unit), type), false, "");
          }
        }
      }
    }
    return found;
  }

  @Test
  void everyDocumentedDoubleOfThePublicApiStatesItsUnit() throws IOException {
    List<Found> found = read();
    Map<String, List<Found>> silent =
        found.stream()
            .filter(f -> !f.stated())
            .collect(Collectors.groupingBy(Found::room, TreeMap::new, Collectors.toList()));
    long stated = found.stream().filter(Found::stated).count();
    double share = stated / (double) found.size();
    System.out.printf(
        "%d of %d documented doubles state their unit (%.1f %%)%n",
        stated, found.size(), 100 * share);
    silent.entrySet().stream()
        .sorted(Comparator.comparing(e -> -e.getValue().size()))
        .limit(8)
        .forEach(e -> System.out.printf("  without: %d in %s%n", e.getValue().size(), e.getKey()));
    if (Boolean.getBoolean("padtrue.units")) {
      silent.values().forEach(l -> l.forEach(f -> System.out.println(f.room() + " " + f.where())));
    }

    assertThat(found).hasSizeGreaterThan(500);
    assertThat(share).isGreaterThanOrEqualTo(LEAST);
  }
}
