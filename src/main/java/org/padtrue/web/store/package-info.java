/**
 * What is kept and given back: jobs and articles as files for the command line ({@code FilePages}),
 * deleting and taking back ({@code DeletePages}). Imports web.bench, web.server, load.
 */
@NullMarked
package org.padtrue.web.store;

import org.jspecify.annotations.NullMarked;
