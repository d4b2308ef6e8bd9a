/**
 * Local pages for people who stand at the machine: measure, result, pictures, log, drift.
 *
 * <p>{@link org.padtrue.web.WebServer} is the entry. A {@code Workspace} is a folder with jobs and
 * articles; nothing outside it is opened for a client. Everything typed goes to an {@code
 * EntryJournal} and is on disk before the page says so. {@code Guard} stands before every request:
 * host, session, pass phrase, token, headers. Pages are JTE templates in {@code src/main/jte}
 * (package {@code pages} when built) and get records named {@code ...View}; scripts and style are
 * files under {@code resources}. Lengths in mm, angles in degrees until a view makes text of them.
 * Imports everything below; only {@code cli} knows it.
 */
@NullMarked
package org.padtrue.web;

import org.jspecify.annotations.NullMarked;
