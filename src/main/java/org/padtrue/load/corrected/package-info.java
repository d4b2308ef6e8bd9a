/**
 * Writes the user's own placement file with corrections in it, every other character as it was.
 *
 * <p>Values to add are mm and degrees along the file's own axes. Entry class: {@link
 * org.padtrue.load.corrected.CorrectedFile}. Imports load.job, load.placement, load.text.
 */
@NullMarked
package org.padtrue.load.corrected;

import org.jspecify.annotations.NullMarked;
