package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Placement;

/**
 * Fiducials that a placement list has among its parts: taken out of the placements, since nothing
 * is placed there, and kept as fiducials of the boards.
 *
 * @param layout the placements without them
 * @param fiducials the fiducials, board frame
 */
record ListedFiducials(Layout layout, List<Fiducial> fiducials) {

  static ListedFiducials of(Layout all) {
    List<Placement> placements = new ArrayList<>();
    List<Fiducial> fiducials = new ArrayList<>();
    int[] moved = new int[all.placements().size()];
    for (int i = 0; i < moved.length; i++) {
      Placement p = all.placements().get(i);
      if (Fiducial.isLike(p.ref(), p.part())) {
        moved[i] = -1;
        fiducials.add(
            new Fiducial(
                p.ref(),
                p.pose().xMm(),
                p.pose().yMm(),
                Fiducial.sizeIn(p.part()),
                Fiducial.Scope.BOARD));
      } else {
        moved[i] = placements.size();
        placements.add(p);
      }
    }
    if (fiducials.isEmpty()) {
      return new ListedFiducials(all, List.of());
    }
    List<PlacedRow> placed =
        all.placed().stream()
            .filter(r -> moved[r.placement()] >= 0)
            .map(r -> new PlacedRow(r.row(), r.board(), moved[r.placement()]))
            .toList();
    Layout without = new Layout(placements, all.array(), placed, all.wholePanel(), all.notes());
    return new ListedFiducials(without, fiducials);
  }
}
