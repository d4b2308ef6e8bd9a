/**
 * Reads and writes part types: geometry and limits, the starter library, a parts file to complete.
 *
 * <p>Lengths mm, angles degrees, part frame. Entry class: {@link
 * org.padtrue.load.part.PartsLoader}. Imports load.json, load.names, load.placement, panel.
 */
@NullMarked
package org.padtrue.load.part;

import org.jspecify.annotations.NullMarked;
