package org.padtrue.web.check;

import java.util.List;
import org.padtrue.web.begin.WhichView;

/**
 * Whether the trims of an article did what was predicted.
 *
 * @param id the article placed with the trims
 * @param name its name
 * @param job id of its job
 * @param jobName its name
 * @param first id of the article whose trims were entered; empty while nobody said
 * @param firstName its name
 * @param which the question which panel it is
 * @param problems why there is no answer yet, one sentence each
 * @param word the answer in a word or two; empty while there is none
 * @param good true when nothing contradicts what was predicted
 * @param sentences the answer in sentences
 * @param terms every trim, what needs a hand first
 * @param left placements left out, one sentence each
 * @param notes what a reader should know
 * @param numbers what the numbers are
 * @param caution before anything is changed
 */
public record CheckView(
    String id,
    String name,
    String job,
    String jobName,
    String first,
    String firstName,
    WhichView which,
    List<String> problems,
    String word,
    boolean good,
    List<String> sentences,
    List<Term> terms,
    List<String> left,
    List<String> notes,
    String numbers,
    String caution) {
  public CheckView {
    problems = List.copyOf(problems);
    sentences = List.copyOf(sentences);
    terms = List.copyOf(terms);
    left = List.copyOf(left);
    notes = List.copyOf(notes);
  }

  /**
   * One trim.
   *
   * @param name in the trade's words
   * @param finding what became of it, in words
   * @param state good, bad or open
   * @param predicted what should remain, with unit and sign
   * @param seen what the panel shows
   * @param z of the axis farthest off, in standard errors
   * @param frame in which the values are
   * @param todo what was seen and what to do, in a sentence
   */
  public record Term(
      String name,
      String finding,
      String state,
      String predicted,
      String seen,
      String z,
      String frame,
      String todo) {}
}
