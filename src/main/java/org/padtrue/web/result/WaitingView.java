package org.padtrue.web.result;

/**
 * What stands where a result will be.
 *
 * @param id article
 * @param name its name
 * @param job id of its job
 * @param jobName its name
 * @param measured how much is calculated with, in words
 * @param seconds how long it has taken so far, in words
 */
public record WaitingView(
    String id, String name, String job, String jobName, String measured, String seconds) {}
