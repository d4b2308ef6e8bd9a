package org.padtrue.firstarticle.fitted;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.panel.article.MeasuredFault;
import org.padtrue.panel.article.MeasuredFiducial;

/**
 * The articles of one analysis as one table; panels of different articles get different names.
 *
 * @param table every measured placement
 * @param symmetry of each row's part type
 * @param articleOf article file of each panel, by panel name
 * @param fiducials measured fiducials under the panels' new names
 * @param poses true when poses were recorded
 * @param partsRegistered true when an article was registered on the parts themselves
 * @param notes sentences about the articles
 * @param relativeTypes part types whose offsets some article cannot know
 * @param faults placements that articles mark as wrong, under the panels' new names
 */
public record ArticleSet(
    DeviationTable table,
    int[] symmetry,
    Map<String, String> articleOf,
    List<MeasuredFiducial> fiducials,
    boolean poses,
    boolean partsRegistered,
    List<String> notes,
    Set<String> relativeTypes,
    List<MeasuredFault> faults) {

  public static ArticleSet of(Job job, List<Article> articles) {
    List<Measured> rows = new ArrayList<>();
    List<MeasuredFiducial> fiducials = new ArrayList<>();
    Map<String, String> articleOf = new LinkedHashMap<>();
    List<String> notes = new ArrayList<>();
    boolean poses = false;
    boolean partsRegistered = false;
    Set<String> relative = new LinkedHashSet<>();
    List<MeasuredFault> faults = new ArrayList<>();
    for (Article a : articles) {
      Map<String, String> names = names(a, articleOf.keySet());
      names.forEach(
          (from, to) -> {
            articleOf.put(to, a.file());
            if (!from.equals(to)) {
              notes.add("panel " + from + " of " + a.file() + " is called " + to + " here");
            }
          });
      for (Measured m : a.measured()) {
        String to = names.getOrDefault(m.panel(), m.panel());
        rows.add(to.equals(m.panel()) ? m : renamed(m, to));
      }
      for (MeasuredFiducial f : a.fiducials()) {
        fiducials.add(
            new MeasuredFiducial(
                names.getOrDefault(f.panel(), f.panel()),
                f.board(),
                f.fiducial(),
                f.nominalXMm(),
                f.nominalYMm(),
                f.dxMm(),
                f.dyMm(),
                f.uMm()));
      }
      for (MeasuredFault f : a.faults()) {
        faults.add(f.on(names.getOrDefault(f.panel(), f.panel())));
      }
      notes.addAll(a.notes());
      poses |= a.poses();
      partsRegistered |= a.partsRegistered();
      relative.addAll(a.relativeTypes());
    }
    DeviationTable t =
        new DeviationTable(
            rows, job.measurement().uncertaintyMm(), job.measurement().rotationUncertaintyDeg());
    int[] symmetry = new int[rows.size()];
    for (int i = 0; i < symmetry.length; i++) {
      symmetry[i] = job.partType(rows.get(i).placement().part()).symmetry();
    }
    return new ArticleSet(
        t, symmetry, articleOf, fiducials, poses, partsRegistered, notes, relative, faults);
  }

  private static Map<String, String> names(Article a, Set<String> taken) {
    Set<String> own = new LinkedHashSet<>();
    a.measured().forEach(m -> own.add(m.panel()));
    a.faults().forEach(f -> own.add(f.panel()));
    Map<String, String> names = new LinkedHashMap<>();
    for (String p : own) {
      String to = p;
      for (int k = taken.size() + names.size() + 1;
          taken.contains(to) || names.containsValue(to);
          k++) {
        to = "P" + k;
      }
      names.put(p, to);
    }
    return names;
  }

  private static Measured renamed(Measured m, String panel) {
    return new Measured(
        panel,
        m.board(),
        m.placement(),
        m.nominal(),
        m.dxMm(),
        m.dyMm(),
        m.dRotationDeg(),
        m.uMm(),
        m.uRotationDeg(),
        m.levels(),
        m.order(),
        m.note(),
        m.line());
  }
}
