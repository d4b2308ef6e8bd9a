/**
 * Units and angles: what a number on paper means before it means anything about a panel.
 *
 * <p>Inside the program lengths are millimetres and angles are degrees, counter-clockwise positive.
 * This package converts at the edges and wraps angles. It imports nothing of ours. Entry classes:
 * {@link org.padtrue.quantity.Angles}, {@link org.padtrue.quantity.LengthUnit}.
 */
@NullMarked
package org.padtrue.quantity;

import org.jspecify.annotations.NullMarked;
