package org.padtrue.report.file;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.SequenceWriter;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.RowSink;

/**
 * Everything in a log, corrected articles included: one CSV file per table, or one JSON file with a
 * list of objects per table. Rows go through one by one, whatever the size of the log.
 */
public final class LogExport {
  /** Value of the key {@code schema} of the JSON file. */
  public static final String SCHEMA = "padtrue/history/1";

  private LogExport() {}

  /** Writes {@code article.csv, placement.csv ...} into a folder, all or none. */
  public static List<Path> csv(ArticleLog log, Path folder) {
    try (OutputFolder out = new OutputFolder(folder)) {
      List<String> tables = new ArrayList<>();
      log.export(new Names(tables));
      for (String t : tables) {
        out.write(t + ".csv", stream -> log.export(new Csv(t, stream)));
      }
      return out.commit();
    }
  }

  /** Writes one JSON file, whole or not at all. */
  public static List<Path> json(ArticleLog log, Path file) {
    Path parent = file.toAbsolutePath().getParent();
    if (parent == null) {
      throw new IllegalArgumentException(file + " is no file");
    }
    try (OutputFolder out = new OutputFolder(parent)) {
      out.write(String.valueOf(file.getFileName()), stream -> json(log, stream));
      return out.commit();
    }
  }

  private static void json(ArticleLog log, OutputStream stream) throws IOException {
    try (JsonGenerator g = new JsonFactory().createGenerator(stream)) {
      g.writeStartObject();
      g.writeStringField("schema", SCHEMA);
      Json sink = new Json(g);
      log.export(sink);
      sink.end();
      g.writeEndObject();
      g.writeRaw('\n');
    }
  }

  /** Takes the names of the tables. */
  private record Names(List<String> tables) implements RowSink {
    @Override
    public void table(String name, List<String> columns) {
      tables.add(name);
    }

    @Override
    public void row(List<@Nullable Object> values) {}
  }

  /** Takes the rows of one table. */
  private static final class Csv implements RowSink {
    private final String wanted;
    private final OutputStream stream;
    private @Nullable SequenceWriter writer;

    Csv(String wanted, OutputStream stream) {
      this.wanted = wanted;
      this.stream = stream;
    }

    @Override
    public void table(String name, List<String> columns) {
      try {
        if (writer != null) {
          writer.flush();
        }
        writer = null;
        if (name.equals(wanted)) {
          CsvSchema.Builder b = CsvSchema.builder();
          columns.forEach(b::addColumn);
          CsvSchema schema = b.build().withLineSeparator("\n");
          writer = new CsvMapper().writer(schema).writeValues(stream);
          // as a row: a header of the schema's own is not written when no row follows
          writer.write(columns);
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public void row(List<@Nullable Object> values) {
      if (writer != null) {
        try {
          writer.write(values);
        } catch (IOException e) {
          throw new UncheckedIOException(e);
        }
      }
    }
  }

  private static final class Json implements RowSink {
    private final JsonGenerator g;
    private List<String> columns = List.of();
    private boolean open;

    Json(JsonGenerator g) {
      this.g = g;
    }

    @Override
    public void table(String name, List<String> names) {
      try {
        end();
        columns = names;
        g.writeRaw('\n');
        g.writeArrayFieldStart(name);
        open = true;
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    void end() throws IOException {
      if (open) {
        g.writeEndArray();
        open = false;
      }
    }

    @Override
    public void row(List<@Nullable Object> values) {
      try {
        g.writeStartObject();
        for (int i = 0; i < columns.size(); i++) {
          value(columns.get(i), values.get(i));
        }
        g.writeEndObject();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    private void value(String name, @Nullable Object v) throws IOException {
      if (v == null) {
        g.writeNullField(name);
      } else if (v instanceof Long n) {
        g.writeNumberField(name, n);
      } else if (v instanceof Double x) {
        g.writeNumberField(name, x);
      } else {
        g.writeStringField(name, v.toString());
      }
    }
  }
}
