/**
 * Local pages for people who stand at the machine: {@link org.padtrue.web.WebServer} puts them
 * together.
 *
 * <p>{@code web.server} stands before every request, {@code web.bench} jobs, articles and typing,
 * {@code web.kept} what the workspace keeps, {@code web.store} saving and deleting, {@code
 * web.picture} pictures, {@code web.result} what an article shows, {@code web.log} log and drift,
 * {@code web.help} the handbook. Pages are JTE templates in {@code src/main/jte} (package {@code
 * pages} when built) and get records named {@code ...View}. Lengths in mm, angles in degrees until
 * a view makes text of them. Imports everything below; only {@code cli} knows it.
 */
@NullMarked
package org.padtrue.web;

import org.jspecify.annotations.NullMarked;
