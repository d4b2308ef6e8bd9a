/**
 * What is wrong with an input, said so that a person can mend it.
 *
 * <p>A {@link org.padtrue.problem.Problem} names file, line, column, what was found and what to do.
 * Readers collect problems and go on; {@link org.padtrue.problem.InputException} carries them all
 * to the command line, which prints them one line each and ends with exit code 2. Imports nothing
 * of ours.
 */
@NullMarked
package org.padtrue.problem;

import org.jspecify.annotations.NullMarked;
