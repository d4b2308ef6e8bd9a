/**
 * Commands, exit codes and what the console says. Imports everything; nothing imports it.
 *
 * <p>Exit code 0: done, whatever the verdict. 2: wrong usage or bad input, one sentence per problem
 * on standard error. 1: a fault of the program. Lengths typed are mm, angles degrees, unless an
 * option says otherwise. Entry class: {@link org.padtrue.cli.Main}.
 */
@NullMarked
package org.padtrue.cli;

import org.jspecify.annotations.NullMarked;
