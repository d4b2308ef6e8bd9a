package org.padtrue.web.record;

import java.util.List;

/**
 * The form of a first article record.
 *
 * @param id article
 * @param name its name
 * @param job id of its job
 * @param jobName its name
 * @param problems why no record can be made of it, one sentence each
 * @param groups fields that identify part, process and people
 * @param tools what was measured with
 * @param nonconformances one a line
 * @param designators one a line
 * @param guarded true for the guarded decision rule
 * @param coverage factor of the expanded uncertainty
 * @param checks articles whose check may belong to it
 * @param attached files that belong to it
 * @param kept true when something is on disk
 * @param summary what the record will say; empty with problems
 * @param seen mark of what is on disk
 * @param clashes where another page kept something else than is typed here, one sentence each
 */
public record RecordSheetView(
    String id,
    String name,
    String job,
    String jobName,
    List<String> problems,
    List<Group> groups,
    List<Tool> tools,
    String nonconformances,
    String designators,
    boolean guarded,
    String coverage,
    List<Check> checks,
    List<File> attached,
    boolean kept,
    String summary,
    String seen,
    List<String> clashes) {
  public RecordSheetView {
    problems = List.copyOf(problems);
    groups = List.copyOf(groups);
    tools = List.copyOf(tools);
    checks = List.copyOf(checks);
    attached = List.copyOf(attached);
    clashes = List.copyOf(clashes);
  }

  /** Fields that belong together. */
  public record Group(String name, List<Field> fields) {
    public Group {
      fields = List.copyOf(fields);
    }
  }

  /**
   * One field.
   *
   * @param key in the form
   * @param label with the field number of the form of AS9102 where it has one
   * @param value what was said
   */
  public record Field(String key, String label, String value, boolean large) {}

  /** One tool; what it measures as keys. */
  public record Tool(int number, String name, String id, String until, List<String> measures) {
    public Tool {
      measures = List.copyOf(measures);
    }
  }

  /** An article placed with the trims of this one. */
  public record Check(String id, String name, boolean chosen) {}

  /** An attached file. */
  public record File(String name, String bytes, String sha256) {}
}
