/**
 * Strict JSON whose every value knows its line and column.
 *
 * <p>{@link org.padtrue.load.json.JsonText} reads a file into {@link
 * org.padtrue.load.json.JsonValue}s; {@link org.padtrue.load.json.JsonFields} takes an object
 * apart, refuses keys that are not known and names the nearest known one, and checks every value.
 * All problems are collected. Imports problem and load.text; the only user of the JSON library
 * here.
 */
@NullMarked
package org.padtrue.load.json;

import org.jspecify.annotations.NullMarked;
