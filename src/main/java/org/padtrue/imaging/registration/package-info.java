/**
 * How a picture lies on the panel: by fiducials, by lands, or by the parts themselves.
 *
 * <p>{@link org.padtrue.imaging.registration.Registration} goes by fiducials, {@link
 * org.padtrue.imaging.registration.PartsRegistration} without. Gives a map from mm to px with what
 * it rests on. Imports imaging.reader and below.
 */
@NullMarked
package org.padtrue.imaging.registration;

import org.jspecify.annotations.NullMarked;
