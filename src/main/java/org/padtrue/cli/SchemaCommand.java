package org.padtrue.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.text.Nearest;
import org.padtrue.report.json.Schemas;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Prints what a JSON file may say. */
@Command(
    name = "schema",
    mixinStandardHelpOptions = true,
    description = {
      "Prints the JSON Schema (draft 2020-12) of a file that the program reads or writes, "
          + "for editors and other programs; without a name, the names."
    },
    footer = {"", "Examples:", "  padtrue schema", "  padtrue schema job > job.schema.json"})
final class SchemaCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "NAME",
      description = {
        "job, parts, identification, analysis, check, gauge, drift, first-article, camera or "
            + "taught."
      })
  private @Nullable String name;

  @Override
  public Integer call() {
    PrintWriter console = spec.commandLine().getOut();
    if (name == null) {
      Schemas.names().forEach(console::println);
      return Main.DONE;
    }
    if (!Schemas.names().contains(name)) {
      List<String> near = Nearest.of(name, Schemas.names(), 1);
      throw new ParameterException(
          spec.commandLine(),
          "there is no schema '"
              + name
              + "'; "
              + (near.isEmpty()
                  ? "take one of " + String.join(", ", Schemas.names())
                  : "did you mean " + near.get(0)));
    }
    console.print(Schemas.text(name));
    console.flush();
    return Main.DONE;
  }
}
