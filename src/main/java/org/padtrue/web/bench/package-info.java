/**
 * Jobs and articles at the bench: the workspace, what was typed, the fit as it grows, and recording
 * it.
 *
 * <p>A {@code Workspace} is a folder with jobs and articles; nothing outside it is opened for a
 * client; deleted ones stand in its folder {@code deleted}. Everything typed goes to an {@code
 * EntryJournal} and is on disk before the page says so. mm and degrees. Imports web.server,
 * firstarticle, enough, load.
 */
@NullMarked
package org.padtrue.web.bench;

import org.jspecify.annotations.NullMarked;
