package org.padtrue.web.server;

/** The page that asks for the pass phrase; {@code problem} is empty at first. */
public record EnterView(String problem) {}
