/**
 * What can be estimated, decided, checked and followed in the log: the one place that knows the
 * names of terms and their units.
 */
@NullMarked
package org.padtrue.panel.term;

import org.jspecify.annotations.NullMarked;
