package org.padtrue.report.record;

/**
 * A file that belongs to the record, told by its content.
 *
 * @param role what it is: job, nominal (placements, parts), analysis, check, room, identification
 *     or attachment
 * @param file its name without folders
 * @param bytes its length
 * @param sha256 SHA-256 of its content, hexadecimal
 */
public record Attachment(String role, String file, long bytes, String sha256) {}
