/**
 * Reads a job: the job file and what it names, the panel and its boards, what is placed.
 *
 * <p>Everything leaves in the canonical frame of {@code panel}: millimetres, degrees, x right, y
 * up, rotation counter-clockwise positive, seen from the side being placed. {@link
 * org.padtrue.load.job.Selection} alone decides what is placed. Entry class: {@link
 * org.padtrue.load.job.JobLoader}. Imports load.placement, load.part, panel.
 */
@NullMarked
package org.padtrue.load.job;

import org.jspecify.annotations.NullMarked;
