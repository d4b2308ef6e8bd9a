/**
 * What the workspace keeps, below jobs and articles: folders of folders ({@code Shelf}), deleted
 * ones ({@code Trash}), files written aside ({@code Aside}), work that lasts ({@code Working}), an
 * article as a file that loses nothing ({@code SavedCsv}), answers about the machine. mm and
 * degrees. Imports web.server, load, panel.
 */
@NullMarked
package org.padtrue.web.kept;

import org.jspecify.annotations.NullMarked;
