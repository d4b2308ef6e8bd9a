package org.padtrue.web.picture;

import java.util.List;

/**
 * Cameras that are known.
 *
 * @param cameras those kept
 * @param running true while pictures of a grid are worked on
 * @param problems why nothing came of the last ones, one sentence each
 * @param found what the last ones gave, one line each
 */
public record CameraView(
    List<Line> cameras, boolean running, List<String> problems, List<String> found) {
  public CameraView {
    cameras = List.copyOf(cameras);
    problems = List.copyOf(problems);
    found = List.copyOf(found);
  }

  /** One camera and what its file holds. */
  public record Line(String name, String holds) {}
}
